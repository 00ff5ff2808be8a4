/**
 * How numbers may be spoken, for the kinds to choose from: sequences of signs, one for each class of number words
 * (`hearing/numberShapes.ts`). d digit, e teen, y tens, h hundred, k thousand, r double or triple, n and, . point.
 */

/** Two digits as one word or two: a teen, tens, tens and a digit. */
const PAIR = ['e', 'y', 'yd']
/** Two digits: singly, or as a pair. */
export const TWIN = ['dd', ...PAIR]
/** 0 to 999: digits, "twenty six", "one twenty eight", "one hundred [and] twenty eight". */
export const WHOLE = [
  'd',
  ...TWIN,
  'ddd',
  'de',
  'dy',
  'dyd',
  'dh',
  ...['', 'n'].flatMap((and) => after(`dh${and}`, ['d', ...PAIR])),
]
export const THOUSANDS = after(['d', ...TWIN], ['k', 'kdh', 'kddd', 'khd'])
/** Always three digits: "zero eight nine", "one twenty". */
export const THREE_DIGITS = ['ddd', 'de', 'dy', 'dyd']

export function after(heads: string | readonly string[], tails: readonly string[]): string[] {
  return [heads].flat().flatMap((head) => tails.map((tail) => head + tail))
}

/** With a fraction of so many digits behind a whole number; the whole number alone where there are none. */
export function withFraction(decimals: number, wholes: readonly string[]): string[] {
  if (decimals === 0) return [...wholes]
  return after(after(wholes, ['.']), decimals === 2 ? TWIN : ['d'.repeat(decimals)])
}

/** Four digits also in twos, as a whole thousand or hundreds, and with doubled ones. */
export function digitStrings(length: number): string[] {
  if (length !== 4) return ['d'.repeat(length)]
  return [...after(TWIN, TWIN), 'dk', 'eh', 'rddd', 'drdd', 'ddrd', 'rdrd', 'rdd', 'drd']
}
