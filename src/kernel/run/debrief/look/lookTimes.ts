/**
 * One pilot's times from the end of a challenge to the first sound of the answer, as what is kept of them: how many,
 * their mean and their spread, in the logarithm, since times of response are skewed to the long side and about normal
 * there (log-normal: Ulrich and Miller 1993, from memory; other skewed shapes fit as well, see PubMed 21090905).
 */

/** Kinds of look that can be told from none: a value read off an indicator or a paper, and a switch's or a light's state. */
export const LOOKS = ['value', 'state'] as const
export type LookKind = (typeof LOOKS)[number]

export interface Wait {
  readonly kind: LookKind
  readonly ms: number
}

/** The first answer to an item that was put, with nothing in between. */
export interface LookWait extends Wait {
  readonly challenge: string
  /** Ms from the start of the run. */
  readonly t: number
  /** As heard. */
  readonly text: string
  /** What to look at, by the pack. */
  readonly look: readonly string[]
}

/** Natural logarithms of milliseconds. */
export interface Times {
  /** How many; no whole number where some count in part. */
  readonly count: number
  readonly mean: number
  /** Sum of squared differences from the mean. */
  readonly squares: number
}

export interface LookTimes extends Readonly<Record<LookKind, Times>> {
  /** Answers in which nothing had to be looked at. */
  readonly word: Times
}

export const NO_TIMES: Times = { count: 0, mean: 0, squares: 0 }

/** One more time, in ms, that counts as much as `weight` (0 to 1). By Welford's update. */
export function withTime({ count, mean, squares }: Times, ms: number, weight = 1): Times {
  if (weight <= 0) return { count, mean, squares }
  const away = Math.log(ms) - mean
  const total = count + weight
  const next = mean + (away * weight) / total
  return { count: total, mean: next, squares: squares + weight * away * (Math.log(ms) - next) }
}

/** Below this no onset is believed to be an answer's, and no logarithm is taken. */
export const SHORTEST_MS = 50
/** Longer than this was thought, or something else. */
export const LONGEST_MS = 8_000

/** Lines of values and of words that a calibration needs, of the six and two of the sound check. */
const LEAST = { value: 4, word: 1 } as const

/** From the waits of the sound check, in ms; undefined where too few lines were read. */
export function calibratedBy(waits: Readonly<Record<'value' | 'word', readonly number[]>>): LookTimes | undefined {
  const usable = (all: readonly number[]) => all.filter((ms) => ms >= SHORTEST_MS && ms <= LONGEST_MS)
  const [value, word] = [usable(waits.value), usable(waits.word)]
  if (value.length < LEAST.value || word.length < LEAST.word) return undefined
  const times = (all: readonly number[]) => all.reduce((sum, ms) => withTime(sum, ms), NO_TIMES)
  return { value: times(value), state: NO_TIMES, word: times(word) }
}
