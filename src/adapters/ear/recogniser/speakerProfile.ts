/**
 * What is known of the voice that speaks: its level and its cepstral mean. Sound can be decoded while it comes only if
 * these are known beforehand; a whole utterance has its own. Pure; one for each front end.
 */

import { dBFS } from '../audio/level.ts'

/** Mean of the 13 cepstra over a sound: what voice, microphone and room add to all that is said. */
export type CepstralMean = readonly number[]

export interface VoiceSample {
  /** RMS of the speech. */
  readonly level: number
  readonly mean: CepstralMean
}

/** How far means of one speaker's utterances scatter about their average, by coefficient; three tuning voices, 30 each. */
const SPREAD = [2.4, 2.7, 3.2, 4.1, 3, 2.4, 2.5, 2, 1.8, 1.9, 1.4, 1.3, 1.2]
/**
 * Sum of squares; that of a speaker's own utterances is 13 on average, and twice as much about a single other one. Chosen
 * on the tuning voices: up to here followed ones are heard no worse than whole ones, even where the voices change.
 */
const FARTHEST = 80
/** Nor may its level differ by more, in dB. */
const MOST_DB = 5
/** The latest utterance has this weight at least: people turn their heads. */
const LEAST_WEIGHT = 0.2

export class SpeakerProfile {
  private known: (VoiceSample & { readonly count: number }) | undefined

  /** `from` is what an earlier profile held. */
  constructor(from?: VoiceSample) {
    this.known = from && { ...from, count: 1 }
  }

  get sample(): VoiceSample | undefined {
    return this.known
  }

  /** It is known from one utterance only. */
  get isNew(): boolean {
    return this.known?.count === 1
  }

  /** Whether an utterance is like those of the known speaker. */
  fits({ level, mean }: VoiceSample): boolean {
    const { known } = this
    if (!known) return false
    return Math.abs(dBFS(level) - dBFS(known.level)) <= MOST_DB && distance(known.mean, mean) <= FARTHEST
  }

  /** Forgets all that was known before. */
  replaceBy(sample: VoiceSample): void {
    this.known = { ...sample, count: 1 }
  }

  /** Adds an utterance; one of another speaker replaces what was known. */
  learn(sample: VoiceSample): void {
    const { known } = this
    if (!known || !this.fits(sample)) {
      this.replaceBy(sample)
      return
    }
    const count = known.count + 1
    const weight = Math.max(1 / count, LEAST_WEIGHT)
    const toward = (old: number, now: number) => old + weight * (now - old)
    this.known = {
      level: toward(known.level, sample.level),
      mean: known.mean.map((old, index) => toward(old, sample.mean[index] ?? old)),
      count,
    }
  }
}

function distance(one: CepstralMean, other: CepstralMean): number {
  return SPREAD.reduce((sum, spread, index) => sum + (((one[index] ?? 0) - (other[index] ?? 0)) / spread) ** 2, 0)
}
