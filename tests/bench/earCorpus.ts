/** What the benchmark of the ear listens to: synthetic answers, people's digits, and speech that answers nothing. */

import { mkdtemp, readFile, rm } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { fileURLToPath } from 'node:url'
import { readWav } from '../../src/adapters/ear/audio/wav.ts'
import type { Hearable } from '../../src/kernel/hearing/hearable.ts'
import { CHECK_VOICES, render, TUNING_VOICES, type Voice } from '../audio/make.ts'
import { SPOKEN_BESIDE } from '../audio/narration.ts'
import { type EarCase, earCases } from './earCases.ts'

const AUDIO = fileURLToPath(new URL('../../audio/', import.meta.url))
const DIGITS = ['zero', 'one', 'two', 'three', 'four', 'five', 'six', 'seven', 'eight', 'nine']

export interface Spoken {
  readonly voice: string
  readonly kind: string
  readonly first: Float32Array
  /** The same said again, a little slower; where there is no other saying, none. */
  readonly second?: Float32Array
  /** Undefined for speech that answers nothing. */
  readonly asked: EarCase | undefined
  /** The item that is open while it is said. */
  readonly beside?: Hearable['shapes']
}

export type CorpusSet = 'tuning' | 'check'
interface CorpusOf {
  readonly set: CorpusSet
  readonly voices: readonly Voice[]
  readonly seed: number
  readonly count: number
}

export interface Corpus {
  /** One speaker after the other. */
  readonly spoken: readonly Spoken[]
  /** Sentences that answer nothing, once each. */
  readonly sentences: readonly Spoken[]
}

/** `count` synthetic answers. Values of the two sets come from seeds that never meet. */
export async function earCorpus(set: CorpusSet, seed: number, count: number): Promise<Corpus> {
  const isCheck = set === 'check'
  const of = { set, voices: isCheck ? CHECK_VOICES : TUNING_VOICES, seed: seed * 2 + (isCheck ? 1 : 0), count }
  const sentences = await narrated(of)
  const spoken = [...(await synthetic(of)), ...(await human(of)), ...sentences.flatMap(beside)]
  return { spoken: spoken.sort((one, other) => one.voice.localeCompare(other.voice)), sentences }
}

async function synthetic({ voices, seed, count }: CorpusOf): Promise<Spoken[]> {
  const folder = await mkdtemp(join(tmpdir(), 'ear-'))
  try {
    const spoken: Spoken[] = []
    for (const [index, asked] of earCases(seed, count).entries()) {
      // Pairs of a word and a value item go to one voice.
      const voice = voices[Math.floor(index / 2) % voices.length] as Voice
      const [first, second] = [join(folder, `${index}.wav`), join(folder, `${index}-again.wav`)]
      render(asked.said, voice, first)
      render(asked.said, voice, second, ['tempo', '0.92'])
      spoken.push({
        voice: voice.name,
        kind: asked.kind,
        first: await pcmOf(first),
        second: await pcmOf(second),
        asked,
      })
    }
    return spoken
  } finally {
    await rm(folder, { recursive: true, force: true })
  }
}

/** Sentences that answer nothing, in the voices of the set. */
async function narrated({ set, voices }: CorpusOf): Promise<Spoken[]> {
  const folder = await mkdtemp(join(tmpdir(), 'ear-'))
  try {
    const spoken: Spoken[] = []
    for (const [index, text] of Object.values(SPOKEN_BESIDE[set]).flat().entries()) {
      const voice = voices[index % voices.length] as Voice
      const file = join(folder, `${index}.wav`)
      render(text, voice, file)
      spoken.push({ voice: voice.name, kind: 'other speech', first: await pcmOf(file), asked: undefined })
    }
    return spoken
  } finally {
    await rm(folder, { recursive: true, force: true })
  }
}

/** The same sentence while a code, a trim, or a state is asked. */
function beside(spoken: Spoken): Spoken[] {
  const items: readonly Hearable['shapes'][] = [[{ kind: 'digits', length: 4 }], [{ kind: 'trim', decimals: 1 }], []]
  return items.map((shapes) => ({ ...spoken, beside: shapes }))
}

async function pcmOf(file: string): Promise<Float32Array> {
  const wav = readWav(await readFile(file))
  if ('problem' in wav) throw new Error(`${file}: ${wav.problem}`)
  return wav.pcm
}

async function human({ set }: CorpusOf): Promise<Spoken[]> {
  const folder = join(AUDIO, set, 'human')
  const lines = JSON.parse(await readFile(join(folder, 'manifest.json'), 'utf8')) as {
    readonly file: string
    readonly words: string
    readonly voice: string
    readonly kind: string
  }[]
  const spoken: Spoken[] = []
  for (const { file, words, voice, kind } of lines) {
    const asked = kind === 'digits' ? digitString(words) : undefined
    spoken.push({ voice, kind: asked ? 'human digits' : 'other speech', first: await pcmOf(join(folder, file)), asked })
  }
  return spoken
}

/** A person's digit string as a code of that length; wrong is each single digit changed. */
function digitString(words: string): EarCase {
  const digits = words
    .split(' ')
    .map((word) => (word === 'oh' ? 0 : DIGITS.indexOf(word)))
    .join('')
  const figures = (value: string) => ({ x: { kind: 'digits' as const, length: value.length, value } })
  const wrong = [...digits].flatMap((digit, at) =>
    [...'0123456789']
      .filter((other) => other !== digit)
      .map((other) => ({ response: '<x>', figures: figures(digits.slice(0, at) + other + digits.slice(at + 1)) })),
  )
  return {
    kind: 'human digits',
    challenge: 'transponder',
    response: '<x>',
    figures: figures(digits),
    said: words,
    wrong,
  }
}
