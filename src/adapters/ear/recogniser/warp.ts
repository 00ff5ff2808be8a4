/**
 * How much higher than the model's average the resonances of a voice are. A short vocal tract, as many women and all
 * children have, moves them up, and the filters of a front end have to follow. It is estimated as is usual for
 * frequency warping (Lee and Rose, IEEE Transactions on Speech and Audio Processing 6, 1998): of the same utterance at
 * several scales, the likeliest counts. Which value was right is not known here (law 2). Pure.
 */

/** What the edges of the filters may be multiplied by, the model's own first. Lower ones helped nobody among the tuning voices. */
export const SCALES = [1, 1.06, 1.12, 1.18] as const
export type Scale = (typeof SCALES)[number]

/** What some utterances tell. */
export interface TractEvidence {
  readonly utterances: number
  /** By scale: mean gain in path score for each 10 ms of speech, beside the model's own. */
  readonly gains: readonly number[]
}

/** All chosen on the tuning voices and their order: with less evidence some voices are moved that should not be. */
const LEAST_GAIN = 1.5
/** As if so many utterances without any gain had come first. */
const PRIOR = 2
/** One bent utterance does not count for more. */
const MOST_GAIN = 10
const MOST_LOSS = 4
/** The latest utterances count for so much at least, for pilots change places. */
const REMEMBERED = 4
/** Of later ones one in so many is enough. */
const ONE_OF = 3

export class VocalTract {
  private known: TractEvidence
  /** Since the last one that was wanted. */
  private passed = 0

  /** `from` is what an earlier one knew. */
  constructor(from: TractEvidence = { utterances: 0, gains: SCALES.map(() => 0) }) {
    this.known = from
  }

  get evidence(): TractEvidence {
    return this.known
  }

  get scale(): Scale {
    const { utterances, gains } = this.known
    const gainAt = (index: number) => ((gains[index] ?? 0) * utterances) / (utterances + PRIOR)
    const best = SCALES.reduce((best, _, index) => (gainAt(index) > gainAt(best) ? index : best), 0)
    return gainAt(best) > LEAST_GAIN ? (SCALES[best] ?? 1) : 1
  }

  /** Whether the utterance is worth the work: always of a voice that is new. Asked once for each. */
  wants(isNewVoice: boolean): boolean {
    const isWanted = isNewVoice || this.known.utterances < REMEMBERED || ++this.passed >= ONE_OF
    if (isWanted) this.passed = 0
    return isWanted
  }

  /** Path scores of one utterance by scale, and the 10 ms frames in which something was said. */
  learn(scores: readonly number[], frames: number): void {
    const own = scores[0] ?? 0
    const utterances = Math.min(this.known.utterances + 1, REMEMBERED)
    const gains = SCALES.map((_, index) => {
      const gain = ((scores[index] ?? own) - own) / frames
      const before = this.known.gains[index] ?? 0
      return before + (Math.min(Math.max(gain, -MOST_LOSS), MOST_GAIN) - before) / utterances
    })
    this.known = { utterances, gains }
  }
}
