/** The ear in Node, for the command line, tests and benchmarks: files instead of a microphone. It decides as the page does. */

import { readFile } from 'node:fs/promises'
import { createRequire } from 'node:module'
import { dirname, join } from 'node:path'
import { fileURLToPath } from 'node:url'
import createModule from 'soundswallower'
import { wordsNeeded } from '../../kernel/hearing/grammar.ts'
import type { Hearable, Vocabulary } from '../../kernel/hearing/hearable.ts'
import type { Heard } from '../../kernel/hearing/heard.ts'
import { type Denoiser, joined, loadDenoiser } from './audio/denoise.ts'
import { FRAME, FRAME_MS } from './audio/frame.ts'
import { VoicingMeter } from './audio/voicing.ts'
import { readWav } from './audio/wav.ts'
import { nothingSpent, type Spent, sideBySideMs, timed } from './nodeTiming.ts'
import { DecodePass } from './recogniser/decodePass.ts'
import type { ModelFiles } from './recogniser/decoder.ts'
import { type Dictionary, type Pronounced, parseDictionary, pronounce } from './recogniser/dictionary.ts'
import { FIRST_PASS, SECOND_PASS } from './recogniser/frontEnds.ts'
import { WarpEstimator } from './recogniser/warpEstimator.ts'
import { Rescorer } from './rescorer/rescorer.ts'
import { decideUtterance, type Hearers } from './utterance/decide.ts'
import { opinionsOf } from './utterance/opinions.ts'
import type { Task } from './utterance/recogniser.ts'
import type { Recognition } from './utterance/recognition.ts'
import type { TakeIn } from './utterance/rescoring.ts'
import {
  type Frame,
  TIMES,
  UtteranceFinder,
  type UtteranceSound,
  type UtteranceTimes,
} from './utterance/utteranceFinder.ts'

const packages = createRequire(import.meta.url)
export const MODEL_DIR = join(dirname(packages.resolve('soundswallower')), 'model', 'en-us')
/** The package opens only its own program to others, and its model lies beside that. */
export const RESCORER_DIR = fileURLToPath(
  new URL('../../../node_modules/@moonshine-ai/moonshine-js/dist/model/tiny/quantized/', import.meta.url),
)
const PHONES = fileURLToPath(new URL('../../../audio/ear/phones.onnx', import.meta.url))
export const DENOISER_WASM = packages.resolve('@jitsi/rnnoise-wasm/dist/rnnoise.wasm')

export type HeardInFile = Omit<Heard, 'listenId' | 'beganAt' | 'endedAt'> & {
  readonly durationMs: number
  /** 0 to 1: the share of words that both passes have in common. */
  readonly confidence: number
  /** End of the last voiced sample. */
  readonly speechEndMs: number
  readonly decodeMs: number
}

export type RecognisedRecording = Recognition & {
  readonly speechEndMs: number
  /** From the end of the sound to the decision, as if each part had a thread of its own. */
  readonly decisionMs: number
}

export interface NodeRecogniser {
  /** Throws where the file cannot be read or is no WAV. */
  hear(file: string, hearable: Hearable): Promise<HeardInFile>
  /** 16 kHz mono, decoded as a whole: what was heard before does not count. */
  recognise(pcm: Float32Array, hearable: Hearable): Promise<RecognisedRecording>
  /** The same while it comes, as in a page that has heard the speaker before. */
  follow(pcm: Float32Array, hearable: Hearable): Promise<RecognisedRecording>
  /** Someone else speaks from now on. */
  forget(): void
  /** Words of the vocabulary that have no pronunciation and cannot be heard. */
  readonly missing: readonly string[]
}

/** The model as the library's package has it. */
export const nodeFiles = (): ModelFiles => ({
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

/** The second model as its package has it, and the head of our own. */
export async function nodeRescorer(): Promise<Rescorer> {
  const file = (name: string) => readFile(join(RESCORER_DIR, name))
  return Rescorer.create({
    encoder: await file('encoder_model.onnx'),
    decoder: await file('decoder_model_merged.onnx'),
    phones: await readFile(PHONES),
  })
}

/** Both passes, with a vocabulary. */
export async function nodePasses(vocabulary: Vocabulary): Promise<readonly [DecodePass, DecodePass]> {
  const dictionary = parseDictionary(await readFile(join(MODEL_DIR, 'dict.txt'), 'utf8'))
  const module = await createModule({ print: () => {}, printErr: () => {} })
  const first = await DecodePass.create(module, nodeFiles(), FIRST_PASS)
  const second = await DecodePass.create(module, nodeFiles(), SECOND_PASS)
  for (const pass of [first, second]) pass.learn(vocabulary, dictionary)
  return [first, second]
}

export const newNodeDenoiser = async (): Promise<() => Denoiser> => loadDenoiser(await readFile(DENOISER_WASM))

/** All in one thread. Without a second model it hears as a page does that has not loaded it yet. */
export function nodeHearers(
  first: DecodePass,
  second: DecodePass,
  rescorer: Rescorer | undefined,
  spent: () => Spent = nothingSpent,
): Hearers {
  const passes = { first: timed(first, 0, spent), second: timed(second, 1, spent) }
  return { passes, opinions: opinionsOf(passes, nodeTakeIn(rescorer, spent), first.pronunciationsOf) }
}

/** The sound is encoded when it is first asked about: this thread has nothing to do beside it. */
function nodeTakeIn(rescorer: Rescorer | undefined, spent: () => Spent): TakeIn {
  const time = async <T>(what: 'encode' | 'rescore', work: () => Promise<T>): Promise<T> => {
    const before = performance.now()
    const done = await work()
    spent()[what] += performance.now() - before
    return done
  }
  return (pcm, grammar, silence) => {
    if (!rescorer) return undefined
    let encoding: ReturnType<Rescorer['encode']> | undefined
    const sound = () => {
      encoding ??= time('encode', () => rescorer.encode(pcm, silence))
      return encoding
    }
    const ask = async <T>(about: (sound: Awaited<ReturnType<Rescorer['encode']>>) => Promise<T>) => {
      const encoded = await sound()
      return time('rescore', () => about(encoded))
    }
    return {
      rescore: (texts) => ask((encoded) => rescorer.rescore(encoded, texts)),
      decodeConstrained: (alongside) => ask((encoded) => rescorer.decodeConstrained(encoded, grammar, alongside)),
      decodeFree: () => ask((encoded) => rescorer.decodeFree(encoded)),
      phones: () => ask((encoded) => rescorer.phonesOf(encoded)),
    }
  }
}

/** Nobody goes on speaking after a recording. */
const NEVER = new AbortController().signal

export async function createNodeRecogniser(vocabulary: Vocabulary, rescorer?: Rescorer): Promise<NodeRecogniser> {
  const [first, second] = await nodePasses(vocabulary)
  const newDenoiser = await newNodeDenoiser()
  let estimator = new WarpEstimator(second)
  let spent = nothingSpent()
  const hearers = nodeHearers(first, second, rescorer, () => spent)
  const { passes } = hearers

  function expect(hearable: Hearable): Task {
    const task = first.taskFor(hearable)
    passes.first.expect(task)
    passes.second.expect(task)
    return task
  }
  function spokenIn(pcm: Float32Array): Spoken {
    const denoiser = newDenoiser()
    const sound = spoken(pcm, denoiser)
    denoiser.free()
    return sound
  }
  async function decide(sound: Spoken, task: Task): Promise<RecognisedRecording> {
    spent = nothingSpent()
    const found = await decideUtterance(sound, task, hearers, NEVER).recognition
    return { ...found, speechEndMs: sound.speechEndMs, decisionMs: sideBySideMs(spent) }
  }
  const recognise = async (pcm: Float32Array, hearable: Hearable) => decide(spokenIn(pcm), expect(hearable))
  return {
    missing: (await pronounced(vocabulary)).missing,
    recognise,
    async follow(pcm, hearable) {
      const sound = spokenIn(pcm)
      const task = expect(hearable)
      for (const pass of [first, second]) {
        pass.begin(sound.clean.subarray(0, FRAME))
        for (let at = FRAME; at < sound.clean.length; at += FRAME) pass.push(sound.clean.subarray(at, at + FRAME))
      }
      const found = await decide(sound, task)
      if (!found.doubt) estimateAtOnce(estimator, first)
      return found
    },
    forget() {
      first.forget()
      second.forget()
      estimator = new WarpEstimator(second)
    },
    async hear(file, hearable) {
      const wav = readWav(await readFile(file))
      if ('problem' in wav) throw new Error(`${file}: ${wav.problem}`)
      const before = performance.now()
      const { text, words, confidence, doubt, alternatives, speechEndMs } = await recognise(wav.pcm, hearable)
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

/** What the second pass's thread does in steps. */
export function estimateAtOnce(estimator: WarpEstimator, first: DecodePass): void {
  estimator.begin()
  while (estimator.step());
  first.setWarp(estimator.factor)
}

export type { Pronounced }

let dictionaryRead: Promise<Dictionary> | undefined

/** How the words of a vocabulary, or some words, are pronounced, and which cannot be heard; loads no model. */
export async function pronounced(
  words: Vocabulary | readonly string[],
  own?: Readonly<Record<string, string>>,
): Promise<Pronounced> {
  dictionaryRead ??= readFile(join(MODEL_DIR, 'dict.txt'), 'utf8').then(parseDictionary)
  const dictionary = await dictionaryRead
  if (!('commands' in words)) return pronounce(words, dictionary, own)
  return pronounce(wordsNeeded(words), dictionary, words.pronunciations)
}

/** All of a recording is one utterance, whatever pauses are in it. */
const FOREVER = Number.POSITIVE_INFINITY
const WHOLE_FILE: UtteranceTimes = {
  ...TIMES,
  ...{ pausedMs: FOREVER, finalMs: FOREVER, completeMs: FOREVER, partialMs: FOREVER, longestMs: FOREVER },
}

interface Spoken extends UtteranceSound {
  readonly speechEndMs: number
}

/** The part of a recording in which someone speaks; all of it where nobody does. */
export function spoken(pcm: Float32Array, denoiser: Denoiser): Spoken {
  const meter = new VoicingMeter()
  const finder = new UtteranceFinder(WHOLE_FILE)
  const padded = new Float32Array(Math.ceil(pcm.length / FRAME + 2) * FRAME)
  padded.set(pcm)
  const frames: Frame[] = []
  for (let at = 0; at < padded.length; at += FRAME) {
    const raw = padded.subarray(at, at + FRAME)
    const { clean, partlyDenoised, speech } = denoiser.push(raw)
    const { isVoiced, isOthers, cleanLevel } = meter.measure(raw, clean, speech)
    const frame = { raw, clean, partlyDenoised, isVoiced, isOthers, level: cleanLevel, at: frames.length * FRAME_MS }
    frames.push(frame)
    finder.push(frame, undefined)
  }
  const found = finder.end()
  if (found?.type === 'ended') return { ...found.utterance, speechEndMs: found.utterance.endedAt }
  const all = (sound: 'clean' | 'partlyDenoised') => joined(frames.map((frame) => frame[sound]))
  return { raw: pcm, clean: all('clean'), partlyDenoised: all('partlyDenoised'), speechEndMs: 0 }
}
