/**
 * One look: a front end with its decoder, a pack's vocabulary, and what is known of the speaker. It runs in a worker and in
 * Node alike.
 */

import type { SoundSwallowerModule } from 'soundswallower'
import type { Grammar } from '../../../kernel/hearing/expansion.ts'
import { grammarOf, wordsNeeded } from '../../../kernel/hearing/grammar.ts'
import type { Hearable, Vocabulary } from '../../../kernel/hearing/hearable.ts'
import { jsgfOf } from '../../../kernel/hearing/jsgf.ts'
import { isScraps } from '../../../kernel/hearing/saying.ts'
import { joined } from '../audio/denoise.ts'
import { gainFor, prepared, speechRms } from '../audio/level.ts'
import { isOther } from '../utterance/recognition.ts'
import { type Decoded, EarDecoder, type FrontEnd, type ModelFiles } from './decoder.ts'
import { type Dictionary, pronounce, SOUND_ENTRIES } from './dictionary.ts'
import { Speaker, type VoiceSample } from './speakerProfile.ts'
import type { Scale } from './warp.ts'
import { shareBesideWords } from './wordCoverage.ts'

/** Noise put under the sound: less than -76 dBFS and formant voices are lost, more than -60 and weak endings are. */
const FLOOR_DBFS: Readonly<Record<FrontEnd, number>> = { plain: -70, cleaned: -76, shifted: -70 }

/** Words that cover less of what was said are no answer: of answers they cover all. */
const MOST_BESIDE = 0.5

export class Look {
  private readonly decoder: EarDecoder
  private readonly frontEnd: FrontEnd
  private vocabulary: Vocabulary | undefined
  private hearable: Hearable | undefined
  private expected: Grammar | undefined
  private jsgf = ''
  private speaker: Speaker
  /** Scale of the filters for this voice, and the one that the speaker's mean was taken with. */
  private scale: Scale = 1
  private meanScale: Scale = 1
  /** What was said last, as the decoder got it. */
  private latest: { readonly heard: Float32Array; readonly level: number; readonly grammar: string } | undefined
  private begun = 0
  private streaming:
    | { prepare: (pcm: Float32Array) => Float32Array; said: Float32Array[]; heard: Float32Array[] }
    | undefined

  private constructor(decoder: EarDecoder, frontEnd: FrontEnd, speaker: Speaker) {
    this.decoder = decoder
    this.frontEnd = frontEnd
    this.speaker = speaker
    decoder.add(SOUND_ENTRIES)
  }

  /** Throws where the model cannot be loaded. `known` is what an earlier one knew of the speaker. */
  static async create(
    module: SoundSwallowerModule,
    files: ModelFiles,
    frontEnd: FrontEnd,
    known?: VoiceSample,
  ): Promise<Look> {
    return new Look(await EarDecoder.create(module, files, frontEnd), frontEnd, new Speaker(known))
  }

  /** What is known of the speaker by now. */
  get known(): VoiceSample | undefined {
    return this.speaker.sample
  }

  /** The grammar of the item it listens for. Throws before `expect`. */
  get grammar(): Grammar {
    if (!this.expected) throw new Error('nothing is expected yet')
    return this.expected
  }

  /** One utterance is all that is known of the voice. */
  get isNewVoice(): boolean {
    return this.speaker.isNew
  }

  /** Counts looks: whoever works beside them can tell that another one began. */
  get looks(): number {
    return this.begun
  }

  /** Takes on a pack's vocabulary; returns the words that have no pronunciation, which are then left out. */
  learn(vocabulary: Vocabulary, dictionary: Dictionary): readonly string[] {
    const { entries, missing } = pronounce(wordsNeeded(vocabulary), dictionary, vocabulary.pronunciations)
    this.decoder.add(entries)
    this.vocabulary = without(vocabulary, new Set(missing))
    return missing
  }

  /** Throws before `learn`. */
  expect(hearable: Hearable): void {
    if (!this.vocabulary) throw new Error('no vocabulary yet')
    this.abandon()
    this.hearable = hearable
    this.expected = grammarOf(hearable, this.vocabulary)
    this.jsgf = jsgfOf(this.expected)
    this.decoder.setGrammar(this.jsgf)
  }

  /** Begins to decode an utterance while it comes, where the speaker is known; 16 kHz mono, as all pieces. */
  begin(pcm: Float32Array): void {
    this.ready()
    const { sample } = this.speaker
    if (!sample) return
    this.decoder.begin(sample.mean)
    this.streaming = { prepare: prepared(gainFor(sample.level), FLOOR_DBFS[this.frontEnd]), said: [], heard: [] }
    this.push(pcm)
  }

  /** The next piece; nothing happens where the beginning was not taken up. */
  push(pcm: Float32Array): void {
    if (!this.streaming) return
    const heard = this.streaming.prepare(pcm)
    this.streaming.said.push(pcm)
    this.streaming.heard.push(heard)
    this.decoder.push(heard)
  }

  /** What was said; undefined where it was no voice that is known, so that it has to be looked at as a whole. */
  end(): Decoded | undefined {
    if (!this.streaming) return undefined
    const { said, heard } = this.streaming
    this.streaming = undefined
    const decoded = this.decoder.end()
    const whole = joined(heard)
    const sample = this.sampleOf(whole, speechRms(joined(said)))
    return this.speaker.fits(sample) ? this.finished(decoded, whole, sample) : undefined
  }

  /** Decodes one whole utterance, 16 kHz mono at any level. */
  at(pcm: Float32Array): Decoded {
    this.ready()
    const level = speechRms(pcm)
    const heard = prepared(gainFor(level), FLOOR_DBFS[this.frontEnd])(pcm)
    const decoded = this.decoder.decode(heard)
    return this.finished(decoded, heard, this.sampleOf(heard, level))
  }

  /** Decodes a whole utterance by another front end; nothing is learned from it. */
  by(frontEnd: FrontEnd, pcm: Float32Array): Decoded {
    this.ready()
    return this.decoder.decodeBy(frontEnd, prepared(gainFor(speechRms(pcm)), FLOOR_DBFS[frontEnd])(pcm))
  }

  /** From the next utterance on with filters for a voice of this scale. */
  suit(scale: Scale): void {
    this.scale = scale
  }

  /** Decodes what was said last once more with other filters; undefined where nothing is kept of it. */
  againAt(scale: Scale): Decoded | undefined {
    if (!this.latest || this.streaming) return undefined
    this.decoder.setGrammar(this.latest.grammar)
    this.decoder.suit(scale)
    return this.decoder.decode(this.latest.heard)
  }

  /** Someone else speaks from now on. */
  forget(): void {
    this.latest = undefined
    this.speaker = new Speaker()
    this.suit(1)
    this.ready()
  }

  /** Grammar and filters as they should be, whatever was decoded last. */
  ready(): void {
    this.abandon()
    this.begun++
    this.decoder.setGrammar(this.jsgf)
    this.decoder.suit(this.scale)
    if (this.meanScale === this.scale) return
    // A mean belongs to its filters.
    this.meanScale = this.scale
    if (this.latest) this.speaker.take(this.sampleOf(this.latest.heard, this.latest.level))
  }

  private abandon(): void {
    if (this.streaming) this.decoder.end()
    this.streaming = undefined
  }

  private sampleOf(heard: Float32Array, level: number): VoiceSample {
    return { level, mean: this.decoder.meanOf(heard) }
  }

  /** Scraps are other speech, and so is a word in the middle of it; from an answer it learns the speaker. */
  private finished(decoded: Decoded, heard: Float32Array, sample: VoiceSample): Decoded {
    if (!this.vocabulary || !this.hearable) return decoded
    const isInOthers = shareBesideWords(heard, decoded.words) > MOST_BESIDE
    if (isInOthers || isScraps(this.hearable, this.vocabulary, decoded.text)) return { ...decoded, otherSpeech: 1 }
    if (!isOther(decoded)) {
      this.speaker.learn(sample)
      this.latest = { heard, level: sample.level, grammar: this.jsgf }
    }
    return decoded
  }

  free(): void {
    this.decoder.free()
  }
}

/** Phrases with a word that cannot be pronounced would make the whole grammar unusable. */
function without(vocabulary: Vocabulary, missing: ReadonlySet<string>): Vocabulary {
  if (missing.size === 0) return vocabulary
  const sayable = (phrases: readonly string[]) =>
    phrases.filter((phrase) => phrase.split(' ').every((word) => !missing.has(word)))
  return {
    phrases: sayable(vocabulary.phrases),
    words: sayable(vocabulary.words),
    besideValues: sayable(vocabulary.besideValues),
    challenges: sayable(vocabulary.challenges),
    lists: sayable(vocabulary.lists),
    others: sayable(vocabulary.others),
    commands: sayable(vocabulary.commands),
    names: sayable(vocabulary.names ?? []),
    talk: vocabulary.talk,
  }
}
