/**
 * One decoder of the recogniser's library with the settings that were measured, and the few calls we
 * use. Everything odd about the library is dealt with here.
 */

import type { Decoder as LibraryDecoder, SoundSwallowerModule } from 'soundswallower'
import type { Automaton } from '../../../kernel/hearing/automaton.ts'
import type { HeardWord } from '../../../kernel/hearing/heard.ts'
import { isPhoneWord } from '../../../kernel/hearing/phones.ts'
import type { Decoded } from '../utterance/recogniser.ts'
import { meanCepstrum } from './cepstrum.ts'
import type { FrontEnd } from './frontEnds.ts'
import type { CepstralMean } from './speakerProfile.ts'

/** What the module has besides its published types. */
interface Internals {
  _malloc(bytes: number): number
  _free(address: number): void
  _decoder_hyp(decoder: number, score: number): number
  _decoder_init_fe(decoder: number): number
  _decoder_init_feat_s3file(decoder: number, lda: number): number
  _acmod_reinit_feat(acoustic: number, frontEnd: number, features: number): number
  _decoder_logmath(decoder: number): number
  _decoder_set_fsg(decoder: number, automaton: number): number
  _fsg_model_init(name: number, logMath: number, languageWeight: number, states: number): number
  _fsg_set_states(automaton: number, start: number, final: number): void
  _fsg_model_word_add(automaton: number, word: number): number
  _fsg_model_trans_add(automaton: number, from: number, to: number, logProb: number, word: number): void
  _fsg_model_null_trans_add(automaton: number, from: number, to: number, logProb: number): number
  HEAP8: Int8Array
  HEAP32: Int32Array
}
interface DecoderInternals {
  readonly cdecoder: number
  readonly cacmod: number
}

/** Addresses of the model's files: paths in Node, URLs in a browser. */
export interface ModelFiles {
  readonly mdef: string
  readonly means: string
  readonly variances: string
  readonly sendump: string
  readonly transitions: string
  readonly features: string
  readonly noiseDictionary: string
  readonly dictionary: string
}

/** Edges of the filters in Hz, the model's own. */
const LOWEST = 130
const HIGHEST = 3700
/** How much higher its filters are than the speaker's warp puts them: chosen on the tuning voices. */
const SHIFT = 1.06
const FRONT_ENDS: Readonly<Record<FrontEnd, { readonly removesNoise: boolean; readonly shift: number }>> = {
  plain: { removesNoise: false, shift: 1 },
  cleaned: { removesNoise: true, shift: 1 },
  shifted: { removesNoise: false, shift: SHIFT },
}

export interface ScoredDecoding extends Decoded {
  /** Path score in the library's units; comparable between grammars of one decoder for the same sound. */
  readonly score: number
  /** 10 ms frames in which something was said. */
  readonly frames: number
}

export interface DecoderSettings {
  readonly compallsen: boolean
  readonly beam: number
  readonly pbeam: number
  readonly wbeam: number
  readonly wip: number
  readonly lw: number
  readonly silprob: number
}

/**
 * Chosen on the tuning voices. Wider beams cost a third more and gave the same words in 510 passes, clean
 * and at 10 dB of noise. A high language weight with likely silence keeps small words from being heard in pauses.
 */
const SETTINGS: DecoderSettings = {
  compallsen: false,
  beam: 1e-48,
  pbeam: 1e-48,
  wbeam: 1e-32,
  wip: 0.02,
  lw: 6,
  silprob: 0.5,
}

/** Of the library's logarithms of probabilities. */
const LOG_BASE = Math.log(1.0001)

export class EarDecoder {
  private readonly decoder: LibraryDecoder
  private readonly internals: Internals
  private readonly frontEnd: FrontEnd
  private readonly scoreAddress: number
  private automaton: Automaton | undefined
  private warp = 1
  /** It goes on with the mean of the last utterance until it is set up anew. */
  private isStreaming = false

  private constructor(decoder: LibraryDecoder, internals: Internals, frontEnd: FrontEnd) {
    this.decoder = decoder
    this.frontEnd = frontEnd
    this.internals = internals
    this.scoreAddress = internals._malloc(8)
  }

  /** Throws where a file of the model is missing or broken. */
  static async create(
    module: SoundSwallowerModule,
    files: ModelFiles,
    frontEnd: FrontEnd,
    settings?: Partial<DecoderSettings>,
  ): Promise<EarDecoder> {
    const decoder = new module.Decoder({
      ...SETTINGS,
      ...settings,
      loglevel: 'FATAL',
      samprate: 16000,
      hmm: files.mdef,
      mdef: files.mdef,
      mean: files.means,
      var: files.variances,
      sendump: files.sendump,
      tmat: files.transitions,
      featparams: files.features,
      fdict: files.noiseDictionary,
      dict: files.dictionary,
    })
    await decoder.initialize()
    const made = new EarDecoder(decoder, module as unknown as Internals, frontEnd)
    made.setUpAudio()
    return made
  }

  has(word: string): boolean {
    return this.decoder.lookup_word(word) !== null
  }

  /** Adds pronunciations; those of words that are there already are left alone. */
  add(entries: readonly (readonly [word: string, phones: string])[]): void {
    const fresh = entries.filter(([word]) => !this.has(word))
    if (fresh.length > 0) this.decoder.add_words(...fresh.map(([word, phones]): [string, string] => [word, phones]))
  }

  /** Throws on a word without pronunciation, which is a bug by then. */
  setGrammar(automaton: Automaton): void {
    if (automaton === this.automaton) return
    const { cdecoder } = this.decoder as unknown as DecoderInternals
    if (this.internals._decoder_set_fsg(cdecoder, this.modelOf(automaton)) < 0) throw new Error('a word is unknown')
    this.automaton = automaton
  }

  /** In the library's own memory, which it frees by itself. */
  private modelOf({ states, start, final, arcs }: Automaton): number {
    const { internals } = this
    const logMath = internals._decoder_logmath((this.decoder as unknown as DecoderInternals).cdecoder)
    const model = this.withText('ear', (name) => internals._fsg_model_init(name, logMath, SETTINGS.lw, states))
    internals._fsg_set_states(model, start, final)
    const words = new Map<string, number>()
    const wordAt = (word: string): number => {
      const known = words.get(word) ?? this.withText(word, (text) => internals._fsg_model_word_add(model, text))
      words.set(word, known)
      return known
    }
    for (const { from, to, word, logProb } of arcs) {
      const inItsUnits = Math.round(logProb / LOG_BASE)
      if (word === undefined) internals._fsg_model_null_trans_add(model, from, to, inItsUnits)
      else internals._fsg_model_trans_add(model, from, to, inItsUnits, wordAt(word))
    }
    return model
  }

  private withText<T>(text: string, use: (address: number) => T): T {
    const bytes = new TextEncoder().encode(`${text}\0`)
    const address = this.internals._malloc(bytes.length)
    this.internals.HEAP8.set(bytes, address)
    const made = use(address)
    this.internals._free(address)
    return made
  }

  /** Decodes a whole utterance, 16 kHz mono, by its own mean. */
  decode(pcm: Float32Array): ScoredDecoding {
    if (this.isStreaming) this.setUpAudio()
    this.decoder.start()
    this.decoder.process_audio(pcm, false, true)
    return this.end()
  }

  /** The same by another front end. */
  decodeBy(frontEnd: FrontEnd, pcm: Float32Array): ScoredDecoding {
    this.setUpAudio(frontEnd)
    const decoded = this.decode(pcm)
    this.setUpAudio()
    return decoded
  }

  /** Warps the filters for a voice from now on: their edges are multiplied by this. */
  setWarp(warp: number): void {
    if (warp === this.warp) return
    this.warp = warp
    this.setUpAudio()
  }

  /** An utterance that is decoded while it comes. With its own mean the result is that of `decode`. */
  begin(mean: CepstralMean): void {
    this.decoder.set_config('cmninit', mean.map((value) => value.toFixed(3)).join(','))
    this.setUpAudio()
    this.isStreaming = true
    this.decoder.start()
  }

  push(pcm: Float32Array): void {
    this.decoder.process_audio(pcm, false, false)
  }

  end(): ScoredDecoding {
    this.decoder.stop()
    const text = this.decoder.get_text()
    if (text === '') return { text: '', words: [], score: Number.NEGATIVE_INFINITY, frames: 0, otherSpeech: 0 }
    return this.result()
  }

  /** Not between `begin` and `end`. */
  meanOf(pcm: Float32Array): CepstralMean {
    this.setUpAudio()
    return meanCepstrum(this.decoder.spectrogram(pcm))
  }

  free(): void {
    this.internals._free(this.scoreAddress)
    this.decoder.delete()
  }

  /**
   * Front end and features as new, by the settings; a tenth of a millisecond. The library's own call is the same but
   * may be awaited only, and would ask a server for a file that there is none of.
   */
  private setUpAudio(frontEnd = this.frontEnd): void {
    // The model's own parameter file has the last word at `initialize`; here it is overruled.
    const { removesNoise, shift } = FRONT_ENDS[frontEnd]
    const set = (key: string, value: number) => this.decoder.set_config(key, value)
    set('remove_noise', removesNoise ? 1 : 0)
    set('lowerf', Math.round(LOWEST * shift * this.warp))
    set('upperf', Math.round(HIGHEST * shift * this.warp))
    const { cdecoder, cacmod } = this.decoder as unknown as DecoderInternals
    const made = this.internals._decoder_init_fe(cdecoder)
    const features = this.internals._decoder_init_feat_s3file(cdecoder, 0)
    if (this.internals._acmod_reinit_feat(cacmod, made, features) < 0) throw new Error('no front end')
    this.isStreaming = false
  }

  private result(): ScoredDecoding {
    this.internals._decoder_hyp((this.decoder as unknown as DecoderInternals).cdecoder, this.scoreAddress)
    const score = this.internals.HEAP32[this.scoreAddress >> 2] ?? 0
    const words: HeardWord[] = []
    let frames = 0
    let other = 0
    for (const { t, b, d } of this.decoder.get_alignment().w ?? []) {
      if (t.startsWith('<') || t.startsWith('[') || t === '(NULL)') continue
      const length = Math.round(d * 100)
      frames += length
      if (isPhoneWord(t)) other += length
      else
        words.push({
          text: t.replace(/\(\d+\)$/, ''),
          beginMs: Math.round(b * 1000),
          endMs: Math.round((b + d) * 1000),
        })
    }
    const text = words.map((word) => word.text).join(' ')
    return { text, words, score, frames, otherSpeech: frames > 0 ? other / frames : 0 }
  }
}
