/**
 * Vocal tract length normalisation. A short vocal tract, as many women and all children have, moves the resonances of a
 * voice above the model's average, and the filters of a front end have to follow. The warp is estimated in the usual way
 * (Lee and Rose, IEEE Transactions on Speech and Audio Processing 6, 1998): the same utterance is decoded at several
 * warps, and the likeliest counts. Which value was right is not known here (law 2). Pure.
 */

/** What the edges of the filters may be multiplied by, the model's own first. Lower ones helped none of the tuning voices. */
export const WARP_FACTORS = [1, 1.06, 1.12, 1.18] as const
export type WarpFactor = (typeof WARP_FACTORS)[number]

/** What some utterances have shown. */
export interface WarpEvidence {
  readonly utterances: number
  /** By warp factor: mean gain in path score for each 10 ms of speech, beside the model's own. */
  readonly gains: readonly number[]
}

/** All chosen on the tuning voices and their order: with less evidence some voices are warped that should not be. */
const LEAST_GAIN = 1.5
/** Number of utterances without any gain that are assumed to have come first. */
const PRIOR = 2
/** Limits to what one utterance counts for: it may have been misheard. */
const MOST_GAIN = 10
const MOST_LOSS = 4
/** Number of utterances that count: pilots change places. */
const REMEMBERED = 4
/** Once that many are known, one in this many is decoded again. */
const ONE_OF = 3

export class WarpStatistics {
  private known: WarpEvidence
  /** Utterances since the last one that was wanted. */
  private passed = 0

  /** `from` is the evidence of earlier ones. */
  constructor(from: WarpEvidence = { utterances: 0, gains: WARP_FACTORS.map(() => 0) }) {
    this.known = from
  }

  get evidence(): WarpEvidence {
    return this.known
  }

  get factor(): WarpFactor {
    const { utterances, gains } = this.known
    const gainAt = (index: number) => ((gains[index] ?? 0) * utterances) / (utterances + PRIOR)
    const best = WARP_FACTORS.reduce((best, _, index) => (gainAt(index) > gainAt(best) ? index : best), 0)
    return gainAt(best) > LEAST_GAIN ? (WARP_FACTORS[best] ?? 1) : 1
  }

  /** Whether the utterance is worth the work: always of a voice that is new. Asked once for each. */
  wants(isNewVoice: boolean): boolean {
    const isWanted = isNewVoice || this.known.utterances < REMEMBERED || ++this.passed >= ONE_OF
    if (isWanted) this.passed = 0
    return isWanted
  }

  /** Path scores of one utterance by warp factor, and the 10 ms frames in which something was said. */
  learn(scores: readonly number[], frames: number): void {
    const own = scores[0] ?? 0
    const utterances = Math.min(this.known.utterances + 1, REMEMBERED)
    const gains = WARP_FACTORS.map((_, index) => {
      const gain = ((scores[index] ?? own) - own) / frames
      const before = this.known.gains[index] ?? 0
      return before + (Math.min(Math.max(gain, -MOST_LOSS), MOST_GAIN) - before) / utterances
    })
    this.known = { utterances, gains }
  }
}
