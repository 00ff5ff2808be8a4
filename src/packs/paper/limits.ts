/** Limits in an answer on paper: "24 V MIN", "NOT MORE THAN 200", "BELOW 685". */

export interface Limit {
  readonly side: 'min' | 'max'
  /** Whether the limit itself is right: of "at least 24" it is, of "above 24" it is not. */
  readonly isIn: boolean
}

/** A limit with how many words say it. */
export interface WrittenLimit extends Limit {
  readonly length: number
}

type Phrases = ReadonlyMap<string, Limit>

const limit = (side: Limit['side'], isIn: boolean, phrases: string) =>
  phrases.split(',').map((phrase): [string, Limit] => [phrase.trim(), { side, isIn }])

const BEFORE: Phrases = new Map([
  ...limit('min', true, 'min, minimum, at least, not less than, no less than, not below, not under, no lower than, >='),
  ...limit(
    'min',
    true,
    'not lower than, never below, never under, never less than, no fewer than, not fewer than, minimum of, min of, a minimum of',
  ),
  ...limit('min', false, 'above, over, more than, greater than, higher than, exceeding, >'),
  ...limit('max', true, 'max, maximum, at most, not more than, no more than, not above, not over, not to exceed, <='),
  ...limit(
    'max',
    true,
    'not exceeding, do not exceed, must not exceed, never exceed, never above, never over, never more than, not greater than, no greater than, not higher than, up to',
  ),
  ...limit('max', true, 'no higher than, maximum of, max of, a maximum of'),
  ...limit('max', false, 'below, under, less than, lower than, fewer than, <'),
])

const BEHIND: Phrases = new Map([
  ...limit('min', true, 'min, minimum, or more, or above, or greater, or higher, or over, and above, and up'),
  ...limit('min', true, 'and more, and over, and higher, or better, at least'),
  ...limit('max', true, 'max, maximum, or less, or below, or lower, or under, or fewer, and below, and less, at most'),
])

const MOST_WORDS = 3

function phraseAt(phrases: Phrases, tokens: readonly string[], at: number): WrittenLimit | undefined {
  for (let length = MOST_WORDS; length > 0; length--) {
    const words = tokens.slice(at, at + length).map((token) => token.toLowerCase().replace(/\.$/, ''))
    const found = words.length === length && phrases.get(words.join(' '))
    if (found) return { ...found, length }
  }
  return undefined
}

/** What stands at this token before a number. */
export const limitBefore = (tokens: readonly string[], at: number) => phraseAt(BEFORE, tokens, at)
/** What stands at this token behind a number and its unit. */
export const limitBehind = (tokens: readonly string[], at: number) => phraseAt(BEHIND, tokens, at)

/** "or", where it goes on as a limit does: "24 or more". */
export const isOrOfLimit = (next: string) => BEHIND.has(`or ${next.toLowerCase().replace(/\.$/, '')}`)
