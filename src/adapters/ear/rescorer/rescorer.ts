/**
 * Weighs texts against a sound: how likely each is to be what was said, by a model of another kind than the recogniser's,
 * trained on other speech. It can also say what it hears by itself, within the same grammar as the looks, so that neither
 * knows the answer (law 2); `weighing.ts` says what comes of both.
 */

import { env, InferenceSession, Tensor } from 'onnxruntime-web/wasm'
import type { Grammar } from '../../../kernel/hearing/expansion.ts'
import { startOf } from '../../../kernel/hearing/grammarWalk.ts'
import { SOUND } from '../../../kernel/hearing/phones.ts'
import { gainFor, speechRms } from '../audio/level.ts'
import { type Beam, likeliest } from './beam.ts'
import { freely } from './freeDecoding.ts'
import type { Weighed } from './hypothesis.ts'
import { ByRows, Decoding, logProbabilities, NOTHING_BEFORE } from './textDecoder.ts'
import { isDigits, isOfWord, PIECES, piecesOf, STYLES, type Style, textOf, WORD_PIECES, written } from './tokens.ts'

/** Contents of the model's two files. */
export interface WeigherFiles {
  readonly encoder: Uint8Array
  readonly decoder: Uint8Array
}

/** Without silence around it the first sounds of a short answer are lost on the model. 0.2 s at 16 kHz. */
const PAD = 3200
const WARM_UPS = 3
const MOST_HABITS = 2_000

/** Frames of the taken sound, about 24 ms each, in which no more than one piece is ever said. */
const FRAMES_A_PIECE = 5

/** A sound that was taken in, and what was weighed against it so far. */
export interface Taken {
  readonly sound: Tensor
  readonly weights: Map<string, number>
  style?: Style
}

export class Weigher {
  private readonly encoder: InferenceSession
  private readonly decoder: InferenceSession
  /** A sound in which nothing is said. */
  private readonly nothing: Tensor
  private readonly habits = new Map<string, number>()

  private constructor(encoder: InferenceSession, decoder: InferenceSession, nothing: Tensor) {
    this.encoder = encoder
    this.decoder = decoder
    this.nothing = nothing
  }

  /** Throws where the model or its runtime cannot be loaded. */
  static async create({ encoder, decoder }: WeigherFiles): Promise<Weigher> {
    // More threads need a page that is isolated from all others, and two cores have enough to do.
    env.wasm.numThreads = 1
    const options = { executionProviders: ['wasm'] }
    const encoding = await InferenceSession.create(encoder, options)
    const made = new Weigher(
      encoding,
      await InferenceSession.create(decoder, options),
      await soundOf(encoding, noise()),
    )
    await made.warmUp()
    return made
  }

  /** A browser compiles well only what has run a few times, and the first answer shall not wait for that. */
  private async warmUp(): Promise<void> {
    for (let times = 0; times < WARM_UPS; times++) await this.weigh(await this.take(noise()), ['one two three four'])
    await this.hearAnything(await this.take(noise()))
  }

  /** Takes in one utterance, 16 kHz mono at any level; texts are then weighed against it. */
  async take(pcm: Float32Array): Promise<Taken> {
    return { sound: await soundOf(this.encoder, pcm), weights: new Map() }
  }

  /**
   * Natural logarithm of the probability of each text, given the sound, in the order of the texts. Which style it was
   * said in is found out with the first of them, and is the same for all: each writing costs time.
   */
  async weigh(taken: Taken, texts: readonly string[]): Promise<readonly Weighed[]> {
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
    return texts.map((text) => ({ text, weight: weights.get(text) as number, habit: 0 }))
  }

  /**
   * The likeliest texts of a grammar, without its path for other speech, and `beside` them these;
   * all with their habits.
   */
  async hear(taken: Taken, grammar: Grammar, beside: readonly string[]): Promise<readonly Weighed[]> {
    const { sound } = taken
    const found = await likeliest(startOf(grammar, new Set([SOUND])), this.beamOver(sound))
    const weights = new Map((await this.weigh(taken, beside)).map(({ text, weight }) => [text, weight]))
    for (const [text, weight] of found) weights.set(text, Math.max(weight, weights.get(text) ?? weight))
    const habits = await this.habitsOf([...weights.keys()])
    return [...weights].map(([text, weight], at) => ({ text, weight, habit: habits[at] as number }))
  }

  /** The likeliest text where anything may be said, in the model's own writing. */
  async hearAnything({ sound }: Taken): Promise<readonly Weighed[]> {
    const { pieces, weight } = await freely(this.beamOver(sound), PIECES, isOfWord)
    return [{ text: textOf(pieces), weight, habit: 0 }]
  }

  private beamOver(sound: Tensor): Beam {
    const decoding = new Decoding(this.decoder, sound)
    return {
      pieces: WORD_PIECES,
      go: (rows) => decoding.go(rows),
      longest: Math.round((sound.dims[1] as number) / FRAMES_A_PIECE),
    }
  }

  /** The words of a list come again and again, so they are kept. */
  private async habitsOf(texts: readonly string[]): Promise<readonly number[]> {
    if (this.habits.size > MOST_HABITS) this.habits.clear()
    const fresh = texts.filter((text) => !this.habits.has(text))
    const found = await this.likelihoods(
      this.nothing,
      fresh.map((text) => written(text, ' ')),
    )
    fresh.forEach((text, at) => {
      this.habits.set(text, found[at] as number)
    })
    return texts.map((text) => this.habits.get(text) as number)
  }

  /** All rows at once: shorter ones are filled up behind their end, where nothing is read. */
  private async likelihoods(sound: Tensor, texts: readonly string[]): Promise<readonly number[]> {
    if (texts.length === 0) return []
    const { begin, end } = WORD_PIECES
    const rows = texts.map((text) => [...piecesOf(text), end])
    const length = Math.max(...rows.map((row) => row.length))
    const input = new BigInt64Array(rows.length * length).fill(BigInt(end))
    rows.forEach((row, at) => {
      input.set([begin, ...row.slice(0, -1)].map(BigInt), at * length)
    })
    const { logits } = await this.decoder.run({
      ...NOTHING_BEFORE,
      input_ids: new Tensor('int64', input, [rows.length, length]),
      ...new ByRows({ encoder_hidden_states: sound }).of(rows.length),
      use_cache_branch: new Tensor('bool', [false], [1]),
    })
    if (!logits) throw new Error('the weigher said nothing')
    const all = logits.data as Float32Array
    const pieces = logits.dims[2] as number
    return rows.map((row, at) =>
      row.reduce((sum, piece, index) => {
        const from = (at * length + index) * pieces
        return sum + logProbabilities(all.subarray(from, from + pieces))(piece)
      }, 0),
    )
  }
}

async function soundOf(encoder: InferenceSession, pcm: Float32Array): Promise<Tensor> {
  const gain = gainFor(speechRms(pcm))
  const input = new Float32Array(pcm.length + 2 * PAD)
  input.set(
    pcm.map((sample) => Math.max(-1, Math.min(1, sample * gain))),
    PAD,
  )
  const { last_hidden_state: sound } = await encoder.run({
    input_values: new Tensor('float32', input, [1, input.length]),
  })
  if (!sound) throw new Error('the weigher took nothing in')
  return sound
}

/** A second and a half of something like noise, the same every time. */
const noise = () => new Float32Array(24_000).map((_, at) => Math.sin(at * at) / 100)
