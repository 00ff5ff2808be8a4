/**
 * One pass: a front end and a decoder of the recogniser's library, a pack's vocabulary, and a profile of the speaker. Runs
 * in a worker and in Node alike.
 */

import type { SoundSwallowerModule } from 'soundswallower'
import { type Automaton, automatonOf, sayable } from '../../../kernel/hearing/automaton.ts'
import { grammarOf, wordsNeeded } from '../../../kernel/hearing/grammar.ts'
import type { Hearable, Vocabulary } from '../../../kernel/hearing/hearable.ts'
import { SOUND } from '../../../kernel/hearing/phones.ts'
import { isScraps } from '../../../kernel/hearing/scraps.ts'
import { joined } from '../audio/denoise.ts'
import { gainFor, prepared, speechRms } from '../audio/level.ts'
import type { Recogniser, Task } from '../utterance/recogniser.ts'
import { isOtherSpeech } from '../utterance/recognition.ts'
import { EarDecoder, type ModelFiles, type ScoredDecoding } from './decoder.ts'
import { byWord, type Dictionary, pronounce, SOUND_ENTRIES } from './dictionary.ts'
import type { FrontEnd, PassFrontEnds } from './frontEnds.ts'
import { SpeakerProfile, type VoiceSample } from './speakerProfile.ts'
import type { WarpFactor } from './warp.ts'
import { uncoveredShare } from './wordCoverage.ts'

/** Noise put under the sound: below -76 dBFS formant voices are lost, above -60 weak endings are. */
const FLOOR_DBFS: Readonly<Record<FrontEnd, number>> = { plain: -70, cleaned: -76, shifted: -70 }

/** Words that leave more than this share of the speech uncovered are no answer: those of an answer cover all of it. */
const MOST_UNCOVERED = 0.5

/** What was understood last, as the decoder got it. */
interface Latest {
  readonly prepared: Float32Array
  readonly level: number
  readonly automaton: Automaton | undefined
}

/** An utterance that is decoded while it comes: as it came, and as the decoder got it. */
interface Streaming {
  readonly prepare: (pcm: Float32Array) => Float32Array
  readonly raw: Float32Array[]
  readonly prepared: Float32Array[]
}

export class DecodePass implements Recogniser {
  private readonly decoder: EarDecoder
  private readonly frontEnds: PassFrontEnds
  private vocabulary: Vocabulary | undefined
  private pronunciations: Dictionary = new Map()
  private task: Task | undefined
  private automaton: Automaton | undefined
  private speaker: SpeakerProfile
  /** For this speaker, and the one that the profile's mean was taken with: a mean belongs to its filters. */
  private warp: WarpFactor = 1
  private warpOfMean: WarpFactor = 1
  private latest: Latest | undefined
  private idle = new AbortController()
  private streaming: Streaming | undefined

  private constructor(decoder: EarDecoder, frontEnds: PassFrontEnds, speaker: SpeakerProfile) {
    this.decoder = decoder
    this.frontEnds = frontEnds
    this.speaker = speaker
    decoder.add(SOUND_ENTRIES)
  }

  /** Throws where the model cannot be loaded. `profile` is what an earlier pass knew of the speaker. */
  static async create(
    module: SoundSwallowerModule,
    files: ModelFiles,
    frontEnds: PassFrontEnds,
    profile?: VoiceSample,
  ): Promise<DecodePass> {
    const decoder = await EarDecoder.create(module, files, frontEnds.usual)
    return new DecodePass(decoder, frontEnds, new SpeakerProfile(profile))
  }

  /** What is known of the speaker by now. */
  get profile(): VoiceSample | undefined {
    return this.speaker.sample
  }

  /** The speaker is known from one utterance only. */
  get isNewVoice(): boolean {
    return this.speaker.isNew
  }

  /** Aborted as soon as something is decoded: for work that is to be done only while nobody speaks. */
  get idleSignal(): AbortSignal {
    return this.idle.signal
  }

  /** Takes on a pack's vocabulary. Words without a pronunciation are left out of all that it listens for. */
  learn(vocabulary: Vocabulary, dictionary: Dictionary): void {
    const { entries } = pronounce(wordsNeeded(vocabulary), dictionary, vocabulary.pronunciations)
    this.decoder.add(entries)
    this.pronunciations = byWord(entries)
    this.vocabulary = vocabulary
  }

  /** How a word of the vocabulary may sound. */
  readonly pronunciationsOf = (word: string): readonly string[] => this.pronunciations.get(word) ?? []

  /** What may be said to an item. Throws before `learn`. */
  taskFor(hearable: Hearable): Task {
    if (!this.vocabulary) throw new Error('no vocabulary yet')
    return { hearable, grammar: grammarOf(hearable, this.vocabulary) }
  }

  expect(task: Task): void {
    this.dropStreaming()
    this.task = task
    this.automaton = sayable(automatonOf(task.grammar), (word) => word === SOUND || this.pronunciations.has(word))
    this.decoder.setGrammar(this.automaton)
  }

  /** Takes up the utterance only where the speaker is known: a mean is needed beforehand. */
  begin(pcm: Float32Array): void {
    this.getReady()
    const { sample } = this.speaker
    if (!sample) return
    this.decoder.begin(sample.mean)
    const prepare = prepared(gainFor(sample.level), FLOOR_DBFS[this.frontEnds.usual])
    this.streaming = { prepare, raw: [], prepared: [] }
    this.push(pcm)
  }

  push(pcm: Float32Array): void {
    if (!this.streaming) return
    const sound = this.streaming.prepare(pcm)
    this.streaming.raw.push(pcm)
    this.streaming.prepared.push(sound)
    this.decoder.push(sound)
  }

  /** Undefined also where it was another voice than the one that is known. */
  end(): ScoredDecoding | undefined {
    if (!this.streaming) return undefined
    const { raw, prepared } = this.streaming
    this.streaming = undefined
    const decoded = this.decoder.end()
    const sound = joined(prepared)
    const sample = this.sampleOf(sound, speechRms(joined(raw)))
    return this.speaker.fits(sample) ? this.checked(decoded, sound, sample) : undefined
  }

  decode(pcm: Float32Array): ScoredDecoding {
    this.getReady()
    const level = speechRms(pcm)
    const sound = prepared(gainFor(level), FLOOR_DBFS[this.frontEnds.usual])(pcm)
    const decoded = this.decoder.decode(sound)
    return this.checked(decoded, sound, this.sampleOf(sound, level))
  }

  /** By the other front end. */
  decodeOtherwise(pcm: Float32Array): ScoredDecoding {
    this.getReady()
    const frontEnd = this.frontEnds.otherwise
    return this.decoder.decodeBy(frontEnd, prepared(gainFor(speechRms(pcm)), FLOOR_DBFS[frontEnd])(pcm))
  }

  /** The warp of the filters for this voice, from the next utterance on. */
  setWarp(warp: WarpFactor): void {
    this.warp = warp
  }

  /** Decodes what was understood last once more at this warp; undefined where there is nothing, or speech is under way. */
  redecode(warp: WarpFactor): ScoredDecoding | undefined {
    if (!this.latest || this.streaming) return undefined
    if (this.latest.automaton) this.decoder.setGrammar(this.latest.automaton)
    this.decoder.setWarp(warp)
    return this.decoder.decode(this.latest.prepared)
  }

  /** Someone else speaks from now on. */
  forget(): void {
    this.latest = undefined
    this.speaker = new SpeakerProfile()
    this.setWarp(1)
    this.getReady()
  }

  /** Sets grammar and warp for the next utterance, whatever was decoded last. */
  getReady(): void {
    this.dropStreaming()
    this.idle.abort()
    this.idle = new AbortController()
    if (this.automaton) this.decoder.setGrammar(this.automaton)
    this.decoder.setWarp(this.warp)
    if (this.warpOfMean === this.warp) return
    this.warpOfMean = this.warp
    if (this.latest) this.speaker.replaceBy(this.sampleOf(this.latest.prepared, this.latest.level))
  }

  free(): void {
    this.decoder.free()
  }

  private dropStreaming(): void {
    if (this.streaming) this.decoder.end()
    this.streaming = undefined
  }

  private sampleOf(sound: Float32Array, level: number): VoiceSample {
    return { level, mean: this.decoder.meanOf(sound) }
  }

  /** Scraps of words are other speech, and so are words in the middle of it. From an answer it learns the speaker. */
  private checked(decoded: ScoredDecoding, sound: Float32Array, sample: VoiceSample): ScoredDecoding {
    if (!this.vocabulary || !this.task) return decoded
    const isInOtherSpeech = uncoveredShare(sound, decoded.words) > MOST_UNCOVERED
    if (isInOtherSpeech || isScraps(this.task.hearable, this.vocabulary, decoded.text)) {
      return { ...decoded, otherSpeech: 1 }
    }
    if (!isOtherSpeech(decoded)) {
      this.speaker.learn(sample)
      this.latest = { prepared: sound, level: sample.level, automaton: this.automaton }
    }
    return decoded
  }
}
