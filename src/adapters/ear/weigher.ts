/**
 * Weighs texts against a sound: how likely each is to be what was said, by a model of another kind than the recogniser's,
 * trained on other speech. It proposes nothing; what it weighs are the hearings of the looks (law 2).
 */

import llamaTokenizer from 'llama-tokenizer-js'
import { env, InferenceSession, Tensor } from 'onnxruntime-web/wasm'
import { DIGIT_WORDS } from '../../kernel/numbers/words.ts'
import { gainFor, speechRms } from './level.ts'

/** Contents of the model's two files. */
export interface WeigherFiles {
  readonly encoder: Uint8Array
  readonly decoder: Uint8Array
}

/** The model's own: its layers, heads and their width, and the pieces that begin and end a text. */
const [LAYERS, HEADS, WIDTH] = [6, 8, 36]
const [BEGIN, END] = [1, 2]
/** Without silence around it the first sounds of a short answer are lost on the model. 0.2 s at 16 kHz. */
const PAD = 3200
const WARM_UPS = 3

/** The model has hardly met the radio's names of digits. */
const PLAIN: Readonly<Record<string, string>> = { niner: 'nine', fife: 'five', tree: 'three', fower: 'four' }

/** How the model has learned to write what is said: in one breath, or word by word. */
const STYLES = [' ', ', '] as const
type Style = (typeof STYLES)[number]
/** Only digits are said word by word. */
const isDigits = (text: string) => text.includes(' ') && text.split(' ').every((word) => DIGITS.has(word))
const DIGITS: ReadonlySet<string> = new Set([...DIGIT_WORDS, 'oh', ...Object.keys(PLAIN)])

export function written(text: string, style: Style): string {
  const plain = text
    .split(' ')
    .map((word) => PLAIN[word] ?? word)
    .join(style)
  return `${plain.charAt(0).toUpperCase()}${plain.slice(1)}.`
}

/** A sound that was taken in, and what was weighed against it so far. */
export interface Taken {
  readonly sound: Tensor
  readonly weights: Map<string, number>
  style?: Style
}

export class Weigher {
  private readonly encoder: InferenceSession
  private readonly decoder: InferenceSession

  private constructor(encoder: InferenceSession, decoder: InferenceSession) {
    this.encoder = encoder
    this.decoder = decoder
  }

  /** Throws where the model or its runtime cannot be loaded. */
  static async create({ encoder, decoder }: WeigherFiles): Promise<Weigher> {
    // More threads need a page that is isolated from all others, and two cores have enough to do.
    env.wasm.numThreads = 1
    const options = { executionProviders: ['wasm'] }
    const made = new Weigher(
      await InferenceSession.create(encoder, options),
      await InferenceSession.create(decoder, options),
    )
    await made.warmUp()
    return made
  }

  /** A browser compiles well only what has run a few times, and the first answer shall not wait for that. */
  private async warmUp(): Promise<void> {
    const second = new Float32Array(16_000).map((_, at) => Math.sin(at))
    for (let times = 0; times < WARM_UPS; times++) await this.weigh(await this.take(second), ['one two three four'])
  }

  /** Takes in one utterance, 16 kHz mono at any level; texts are then weighed against it. */
  async take(pcm: Float32Array): Promise<Taken> {
    const gain = gainFor(speechRms(pcm))
    const input = new Float32Array(pcm.length + 2 * PAD)
    input.set(
      pcm.map((sample) => Math.max(-1, Math.min(1, sample * gain))),
      PAD,
    )
    const { last_hidden_state: sound } = await this.encoder.run({
      input_values: new Tensor('float32', input, [1, input.length]),
    })
    if (!sound) throw new Error('the weigher took nothing in')
    return { sound, weights: new Map() }
  }

  /**
   * Natural logarithm of the probability of each text, given the sound, in the order of the texts. Which style it was
   * said in is found out with the first of them, and is the same for all: each writing costs time.
   */
  async weigh(taken: Taken, texts: readonly string[]): Promise<readonly number[]> {
    const { weights } = taken
    const [first, ...others] = texts.filter((text) => !weights.has(text))
    if (first !== undefined) {
      const styles = taken.style ? [taken.style] : isDigits(first) ? STYLES : STYLES.slice(0, 1)
      const byStyle = await this.likelihoods(
        taken.sound,
        styles.map((style) => written(first, style)),
      )
      const best = Math.max(...byStyle)
      taken.style = styles[byStyle.indexOf(best)] ?? ' '
      weights.set(first, best)
    }
    if (others.length > 0) {
      const { style = ' ' } = taken
      const weighed = await this.likelihoods(
        taken.sound,
        others.map((text) => written(text, style)),
      )
      others.forEach((text, at) => {
        weights.set(text, weighed[at] as number)
      })
    }
    return texts.map((text) => weights.get(text) as number)
  }

  /** All rows at once: shorter ones are filled up behind their end, where nothing is read. */
  private async likelihoods(heard: Tensor, writings: readonly string[]): Promise<readonly number[]> {
    const rows = writings.map((writing) => [...llamaTokenizer.encode(writing, false, true), END])
    const length = Math.max(...rows.map((row) => row.length))
    const input = new BigInt64Array(rows.length * length).fill(BigInt(END))
    rows.forEach((row, at) => {
      input.set([BEGIN, ...row.slice(0, -1)].map(BigInt), at * length)
    })
    const sound = heard.data as Float32Array
    const sounds = new Float32Array(rows.length * sound.length)
    rows.forEach((_, at) => {
      sounds.set(sound, at * sound.length)
    })
    const { logits } = await this.decoder.run({
      ...NOTHING_BEFORE,
      input_ids: new Tensor('int64', input, [rows.length, length]),
      encoder_hidden_states: new Tensor('float32', sounds, [rows.length, ...heard.dims.slice(1)]),
      use_cache_branch: new Tensor('bool', [false], [1]),
    })
    if (!logits) throw new Error('the weigher said nothing')
    const all = logits.data as Float32Array
    const pieces = logits.dims[2] as number
    return rows.map((row, at) =>
      row.reduce((sum, piece, index) => {
        const from = (at * length + index) * pieces
        return sum + logProbability(all.subarray(from, from + pieces), piece)
      }, 0),
    )
  }
}

/** The decoder can go on from an earlier call; it never does here. */
const NOTHING_BEFORE = Object.fromEntries(
  Array.from({ length: LAYERS }, (_, layer) =>
    ['decoder', 'encoder'].flatMap((side) =>
      ['key', 'value'].map((part) => [
        `past_key_values.${layer}.${side}.${part}`,
        new Tensor('float32', new Float32Array(0), [0, HEADS, 1, WIDTH]),
      ]),
    ),
  ).flat(),
)

function logProbability(logits: Float32Array, piece: number): number {
  let top = Number.NEGATIVE_INFINITY
  for (const value of logits) if (value > top) top = value
  let sum = 0
  for (const value of logits) sum += Math.exp(value - top)
  return (logits[piece] ?? Number.NEGATIVE_INFINITY) - top - Math.log(sum)
}
