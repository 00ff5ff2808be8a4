/** The recogniser in Node, for the command line, tests and benchmarks: files instead of a microphone. */

import { readFile } from 'node:fs/promises'
import { createRequire } from 'node:module'
import { dirname, join } from 'node:path'
import createModule from 'soundswallower'
import type { Hearable, Vocabulary } from '../../kernel/hearing/hearable.ts'
import type { Heard } from '../../ports.ts'
import type { ModelFiles } from './decoder.ts'
import { denoised, loadDenoiser } from './denoise.ts'
import { parseDictionary } from './dictionary.ts'
import { Look, type Recognition, recognition } from './recogniser.ts'
import { readWav } from './wav.ts'

const packages = createRequire(import.meta.url)
export const MODEL_DIR = join(dirname(packages.resolve('soundswallower')), 'model', 'en-us')
export const DENOISER_WASM = packages.resolve('@jitsi/rnnoise-wasm/dist/rnnoise.wasm')

export type HeardInFile = Omit<Heard, 'order' | 'beganAt' | 'endedAt'> & {
  readonly durationMs: number
  /** 0 to 1: what the two looks have in common. */
  readonly confidence: number
  /** End of the last voiced sample. */
  readonly speechEndMs: number
  readonly decodeMs: number
}

export interface NodeRecogniser {
  /** Throws where the file cannot be read or is no WAV. */
  hear(file: string, hearable: Hearable): Promise<HeardInFile>
  /** 16 kHz mono. */
  recognise(pcm: Float32Array, hearable: Hearable): Recognition & { readonly speechEndMs: number }
  /** Words of the vocabulary that have no pronunciation and cannot be heard. */
  readonly missing: readonly string[]
}

const nodeFiles = (): ModelFiles => ({
  mdef: join(MODEL_DIR, 'mdef'),
  means: join(MODEL_DIR, 'means'),
  variances: join(MODEL_DIR, 'variances'),
  sendump: join(MODEL_DIR, 'sendump'),
  transitions: join(MODEL_DIR, 'transition_matrices'),
  features: join(MODEL_DIR, 'feat_params.json'),
  noiseDictionary: join(MODEL_DIR, 'noisedict.txt'),
  // Words are added one by one; a dictionary that is not there is an empty one.
  dictionary: join(MODEL_DIR, 'none.txt'),
})

export async function createNodeRecogniser(vocabulary: Vocabulary): Promise<NodeRecogniser> {
  const dictionary = parseDictionary(await readFile(join(MODEL_DIR, 'dict.txt'), 'utf8'))
  const module = await createModule({ print: () => {}, printErr: () => {} })
  const plain = await Look.create(module, nodeFiles(), 'plain')
  const cleaned = await Look.create(module, nodeFiles(), 'cleaned')
  const missing = plain.learn(vocabulary, dictionary)
  cleaned.learn(vocabulary, dictionary)
  const newDenoiser = await loadDenoiser(await readFile(DENOISER_WASM))

  const recognise = (pcm: Float32Array, hearable: Hearable) => {
    const denoiser = newDenoiser()
    const clean = denoised(pcm, denoiser)
    denoiser.free()
    plain.expect(hearable)
    cleaned.expect(hearable)
    const last = clean.speech.findLastIndex((speech) => speech > 0.5)
    return { ...recognition(pcm, plain.at(clean.pcm), cleaned.at(clean.pcm)), speechEndMs: (last + 1) * 30 }
  }
  return {
    missing,
    recognise,
    async hear(file, hearable) {
      const wav = readWav(await readFile(file))
      if ('problem' in wav) throw new Error(`${file}: ${wav.problem}`)
      const before = performance.now()
      const { text, words, confidence, doubt, alternatives, speechEndMs } = recognise(wav.pcm, hearable)
      return {
        text,
        words,
        confidence,
        by: 'voice',
        ...(doubt && { doubt }),
        ...(alternatives && { alternatives }),
        durationMs: Math.round(wav.pcm.length / 16),
        speechEndMs,
        decodeMs: Math.round(performance.now() - before),
      }
    },
  }
}
