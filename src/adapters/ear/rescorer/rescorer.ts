/**
 * The second model: an encoder and a text decoder of another kind than the recogniser, trained on other speech. It gives
 * the probability of texts, given a sound, and can decode a sound itself, within the grammar of the item or without. A
 * small head of our own on the same encoder gives the probability of each phone. None of them knows the answer (law 2);
 * `utterance/rescoring.ts` and `utterance/sounding.ts` say what follows from them.
 */

import { env, InferenceSession, Tensor } from 'onnxruntime-web/wasm'
import type { Grammar } from '../../../kernel/grammarRules.ts'
import { startOf } from '../../../kernel/hearing/grammarWalk.ts'
import { SOUND } from '../../../kernel/hearing/phones.ts'
import { gainFor, speechRms } from '../audio/level.ts'
import type { Hypothesis } from '../utterance/hypothesis.ts'
import type { PhoneFrames } from '../utterance/phoneBeam.ts'
import { likeliest, type TokenModel } from './beam.ts'
import { decodeFreely } from './freeDecoding.ts'
import { ByRows, EMPTY_CACHE, logSoftmax, StepDecoder } from './textDecoder.ts'
import {
  isDigits,
  isOfWord,
  STYLES,
  type Style,
  TOKEN_COUNT,
  textOf,
  tokensOf,
  WORD_TOKENS,
  written,
} from './tokens.ts'

/** Contents of the model's files. */
export interface RescorerFiles {
  readonly encoder: Uint8Array
  readonly decoder: Uint8Array
  readonly phones: Uint8Array
}

/** Silence around a sound: without it the model misses the beginning of a short answer. 0.2 s at 16 kHz. */
const PAD = 3200
const WARM_UPS = 3
const MOST_PRIORS = 2_000

/** Frames of an encoded sound, about 24 ms each, in which no more than one token is ever said. */
const FRAMES_PER_TOKEN = 5

/** A sound that was encoded, and what is known about it so far. */
export interface EncodedSound {
  readonly frames: Tensor
  readonly logProbs: Map<string, number>
  style?: Style
}

export class Rescorer {
  private readonly encoder: InferenceSession
  private readonly decoder: InferenceSession
  private readonly phones: InferenceSession
  /** A sound in which nothing is said. */
  private readonly nothing: Tensor
  private readonly priors = new Map<string, number>()

  private constructor(encoder: InferenceSession, decoder: InferenceSession, phones: InferenceSession, nothing: Tensor) {
    this.encoder = encoder
    this.decoder = decoder
    this.phones = phones
    this.nothing = nothing
  }

  /** Throws where the model or its runtime cannot be loaded. */
  static async create({ encoder, decoder, phones }: RescorerFiles): Promise<Rescorer> {
    // More threads need a page that is isolated from all others, and two cores have enough to do.
    env.wasm.numThreads = 1
    const options = { executionProviders: ['wasm'] }
    const encoding = await InferenceSession.create(encoder, options)
    const made = new Rescorer(
      encoding,
      await InferenceSession.create(decoder, options),
      await InferenceSession.create(phones, options),
      await framesOf(encoding, noise(), PAD),
    )
    await made.warmUp()
    return made
  }

  /** A browser compiles well only what has run a few times, and the first answer should not wait for that. */
  private async warmUp(): Promise<void> {
    for (let times = 0; times < WARM_UPS; times++) {
      const sound = await this.encode(noise())
      await this.rescore(sound, ['one two three four'])
      await this.phonesOf(sound)
    }
    await this.decodeFree(await this.encode(noise()))
  }

  /** Takes in one utterance, 16 kHz mono at any level, with this many samples of silence on each side of it. */
  async encode(pcm: Float32Array, silence: number = PAD): Promise<EncodedSound> {
    return { frames: await framesOf(this.encoder, pcm, silence), logProbs: new Map() }
  }

  /**
   * The texts with their log probabilities given the sound, in their order; without priors. The style in which it was
   * said is found with the first text and is the same for all: each style costs time.
   */
  async rescore(sound: EncodedSound, texts: readonly string[]): Promise<readonly Hypothesis[]> {
    const { frames, logProbs } = sound
    const [first, ...others] = texts.filter((text) => !logProbs.has(text))
    if (first !== undefined) {
      const styles = sound.style ? [sound.style] : isDigits(first) ? STYLES : STYLES.slice(0, 1)
      const byStyle = await this.logProbsOf(
        frames,
        styles.map((style) => written(first, style)),
      )
      const best = Math.max(...byStyle)
      sound.style = styles[byStyle.indexOf(best)] ?? ' '
      logProbs.set(first, best)
    }
    if (others.length > 0) {
      const { style = ' ' } = sound
      const found = await this.logProbsOf(
        frames,
        others.map((text) => written(text, style)),
      )
      others.forEach((text, at) => {
        logProbs.set(text, found[at] as number)
      })
    }
    return texts.map((text) => ({ text, logProb: logProbs.get(text) as number, priorLogProb: 0 }))
  }

  /** The likeliest texts of a grammar, without its path for other speech, and these alongside; all with their priors. */
  async decodeConstrained(
    sound: EncodedSound,
    grammar: Grammar,
    alongside: readonly string[],
  ): Promise<readonly Hypothesis[]> {
    const found = await likeliest(startOf(grammar, new Set([SOUND])), this.modelOf(sound))
    const logProbs = new Map((await this.rescore(sound, alongside)).map(({ text, logProb }) => [text, logProb]))
    for (const [text, logProb] of found) logProbs.set(text, Math.max(logProb, logProbs.get(text) ?? logProb))
    const priors = await this.priorsOf([...logProbs.keys()])
    return [...logProbs].map(([text, logProb], at) => ({ text, logProb, priorLogProb: priors[at] as number }))
  }

  /** The likeliest text where anything may be said, in the model's own writing. */
  async decodeFree(sound: EncodedSound): Promise<readonly Hypothesis[]> {
    const { tokens, logProb } = await decodeFreely(this.modelOf(sound), TOKEN_COUNT, isOfWord)
    return [{ text: textOf(tokens), logProb, priorLogProb: 0 }]
  }

  /** How likely each phone is in each frame. */
  async phonesOf({ frames }: EncodedSound): Promise<PhoneFrames> {
    const { log_probs: logProbs } = await this.phones.run({ last_hidden_state: frames })
    if (!logProbs) throw new Error('the second model heard no phones')
    return { logProbs: logProbs.data as Float32Array, count: logProbs.dims[1] as number }
  }

  private modelOf({ frames }: EncodedSound): TokenModel {
    const decoder = new StepDecoder(this.decoder, frames)
    return {
      tokens: WORD_TOKENS,
      step: (rows) => decoder.step(rows),
      longest: Math.round((frames.dims[1] as number) / FRAMES_PER_TOKEN),
    }
  }

  /** Log probabilities where nothing is said. The words of a checklist come again and again, so they are kept. */
  private async priorsOf(texts: readonly string[]): Promise<readonly number[]> {
    if (this.priors.size > MOST_PRIORS) this.priors.clear()
    const fresh = texts.filter((text) => !this.priors.has(text))
    const found = await this.logProbsOf(
      this.nothing,
      fresh.map((text) => written(text, ' ')),
    )
    fresh.forEach((text, at) => {
      this.priors.set(text, found[at] as number)
    })
    return texts.map((text) => this.priors.get(text) as number)
  }

  /** All texts at once: shorter ones are filled up after their end, where nothing is read. */
  private async logProbsOf(frames: Tensor, texts: readonly string[]): Promise<readonly number[]> {
    if (texts.length === 0) return []
    const { begin, end } = WORD_TOKENS
    const rows = texts.map((text) => [...tokensOf(text), end])
    const length = Math.max(...rows.map((row) => row.length))
    const input = new BigInt64Array(rows.length * length).fill(BigInt(end))
    rows.forEach((row, at) => {
      input.set([begin, ...row.slice(0, -1)].map(BigInt), at * length)
    })
    const { logits } = await this.decoder.run({
      ...EMPTY_CACHE,
      input_ids: new Tensor('int64', input, [rows.length, length]),
      ...new ByRows({ encoder_hidden_states: frames }).of(rows.length),
      use_cache_branch: new Tensor('bool', [false], [1]),
    })
    if (!logits) throw new Error('the second model gave no output')
    const all = logits.data as Float32Array
    const size = logits.dims[2] as number
    return rows.map((row, at) =>
      row.reduce((sum, token, index) => {
        const from = (at * length + index) * size
        return sum + logSoftmax(all.subarray(from, from + size))(token)
      }, 0),
    )
  }
}

async function framesOf(encoder: InferenceSession, pcm: Float32Array, silence: number): Promise<Tensor> {
  const gain = gainFor(speechRms(pcm))
  const input = new Float32Array(pcm.length + 2 * silence)
  input.set(
    pcm.map((sample) => Math.max(-1, Math.min(1, sample * gain))),
    silence,
  )
  const { last_hidden_state: frames } = await encoder.run({
    input_values: new Tensor('float32', input, [1, input.length]),
  })
  if (!frames) throw new Error('the second model took nothing in')
  return frames
}

/** A second and a half of something like noise, the same every time. */
const noise = () => new Float32Array(24_000).map((_, at) => Math.sin(at * at) / 100)
