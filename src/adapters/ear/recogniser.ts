/**
 * The recogniser itself, without threads: it runs in a worker and in Node alike. An utterance is looked
 * at twice, by two front ends of one decoder; the second look may only veto (law 2). A veto that two further looks, at
 * sound with some of its noise left, do not share is dropped: what was heard is the first look's in any case.
 */

import type { SoundSwallowerModule } from 'soundswallower'
import { grammarOf, wordsNeeded } from '../../kernel/hearing/grammar.ts'
import type { Hearable, Vocabulary } from '../../kernel/hearing/hearable.ts'
import { isScraps } from '../../kernel/hearing/saying.ts'
import type { Heard, HeardWord } from '../../ports.ts'
import { nearSaying, sameSaying, shareInCommon } from './agreement.ts'
import { type Decoded, EarDecoder, type FrontEnd, type ModelFiles } from './decoder.ts'
import { joined } from './denoise.ts'
import { type Dictionary, pronounce, SOUND_ENTRIES } from './dictionary.ts'
import { dBFS, gainFor, prepared, speechRms } from './level.ts'
import { Speaker, type VoiceSample } from './speaker.ts'

export interface Recognition {
  /** Lower case words; empty where nothing of the vocabulary was said. */
  readonly text: string
  readonly words: readonly HeardWord[]
  /** Share of the words that both looks have in common, 0 to 1. */
  readonly confidence: number
  readonly doubt?: NonNullable<Heard['doubt']>
  /** What the second look heard, where that is something else. */
  readonly alternatives?: NonNullable<Heard['alternatives']>
}

/** Noise put under the sound: less than -76 dBFS and formant voices are lost, more than -60 and weak endings are. */
const FLOOR_DBFS: Readonly<Record<FrontEnd, number>> = { plain: -70, cleaned: -76, shifted: -70 }

/** Front ends of the two further looks, which are at sound with some of its noise left. */
export const FURTHER = ['plain', 'shifted'] as const satisfies readonly FrontEnd[]

/** One of the two looks: a front end with its decoder. */
export class Look {
  private readonly decoder: EarDecoder
  private readonly frontEnd: FrontEnd
  private vocabulary: Vocabulary | undefined
  private hearable: Hearable | undefined
  private readonly speaker: Speaker
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
    this.decoder.setGrammar(grammarOf(hearable, this.vocabulary))
    this.hearable = hearable
  }

  /** Begins to decode an utterance while it comes, where the speaker is known; 16 kHz mono, as all pieces. */
  begin(pcm: Float32Array): void {
    this.abandon()
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
    const sample = { level: speechRms(joined(said)), mean: this.decoder.meanOf(joined(heard)) }
    return this.speaker.fits(sample) ? this.finished(decoded, sample) : undefined
  }

  /** Decodes one whole utterance, 16 kHz mono at any level. */
  at(pcm: Float32Array): Decoded {
    this.abandon()
    const level = speechRms(pcm)
    const heard = prepared(gainFor(level), FLOOR_DBFS[this.frontEnd])(pcm)
    const decoded = this.decoder.decode(heard)
    return this.finished(decoded, { level, mean: this.decoder.meanOf(heard) })
  }

  /** Decodes a whole utterance by another front end; nothing is learned from it. */
  by(frontEnd: FrontEnd, pcm: Float32Array): Decoded {
    this.abandon()
    return this.decoder.decodeBy(frontEnd, prepared(gainFor(speechRms(pcm)), FLOOR_DBFS[frontEnd])(pcm))
  }

  private abandon(): void {
    if (this.streaming) this.decoder.end()
    this.streaming = undefined
  }

  /** Scraps are other speech; from an answer it learns the speaker. */
  private finished(decoded: Decoded, sample: VoiceSample): Decoded {
    if (!this.vocabulary || !this.hearable) return decoded
    if (isScraps(this.hearable, this.vocabulary, decoded.text)) return { ...decoded, otherSpeech: 1 }
    if (!isOther(decoded)) this.speaker.learn(sample)
    return decoded
  }

  free(): void {
    this.decoder.free()
  }
}

/** More than this share of one look on the path for other speech makes the utterance other speech. */
const OTHER_SPEECH = 0.5
const FAINT_DBFS = -55
const CLIPPED_SHARE = 0.005

const isOther = ({ text, otherSpeech }: Decoded) => text === '' || otherSpeech > OTHER_SPEECH

/** What two looks at one recording amount to. Words are the first one's; the second can only add doubt. */
export function recognition(pcm: Float32Array, first: Decoded, second: Decoded): Recognition {
  const { text, words } = first
  const others = [first, second].filter(isOther).length
  const confidence = others > 0 ? 0 : shareInCommon(text, second.text)
  const base = { text, words, confidence }
  if (others === 2) return { ...base, doubt: 'otherSpeech' }
  if (clippedShare(pcm) > CLIPPED_SHARE) return { ...base, doubt: 'clipped' }
  if (dBFS(speechRms(pcm)) < FAINT_DBFS) return { ...base, doubt: 'faint' }
  if (others === 0 && sameSaying(text, second.text)) return base
  const alternatives = second.text === '' ? [] : [{ text: second.text }]
  return { ...base, doubt: 'unsure', ...(alternatives.length > 0 && { alternatives }) }
}

/** Whether further looks may settle it: only where the two are near each other, which they are not of other speech. */
export const mayBeUpheld = ({ doubt, text, alternatives, confidence }: Recognition) =>
  doubt === 'unsure' && confidence > 0 && alternatives?.some((other) => nearSaying(text, other.text)) === true

/** What comes of a recognition in which the second look was not sure, after further looks: sure where all hear the first's words. */
export function upheld(unsure: Recognition, first: Decoded, further: readonly Decoded[]): Recognition {
  const isHeard = (look: Decoded) => !isOther(look) && sameSaying(first.text, look.text)
  if (![first, ...further].every(isHeard)) return unsure
  const { text, words, confidence } = unsure
  return { text, words, confidence }
}

/**
 * What two looks at something that was followed while it came amount to; undefined where the whole has to be looked at,
 * with its own mean: where a look could not be taken, the two disagree, or nothing was found. A mean that was learned
 * from a bad sound would otherwise make other speech of all that comes, and stay.
 */
export function settled(pcm: Float32Array, first?: Decoded, second?: Decoded): Recognition | undefined {
  if (!first || !second) return undefined
  const followed = recognition(pcm, first, second)
  return followed.doubt === 'unsure' || followed.doubt === 'otherSpeech' ? undefined : followed
}

function clippedShare(pcm: Float32Array): number {
  let clipped = 0
  for (const sample of pcm) if (Math.abs(sample) >= 0.999) clipped++
  return pcm.length > 0 ? clipped / pcm.length : 0
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
