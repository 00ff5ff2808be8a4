/**
 * The number words: what each one is worth, and how freely it may stand. Radio forms (tree, fife, niner) are as
 * good as the plain ones; `oh` and its like are tolerated outside standard phraseology; words that only sound
 * like a number (`to`, `for`, `ate`) count as one only where a number must stand.
 */

export type DigitForm = 'plain' | 'radio' | 'oh' | 'homophone'

export type NumberWord =
  | { readonly type: 'digit'; readonly digits: string; readonly form: DigitForm }
  /** ten to nineteen. */
  | { readonly type: 'teen'; readonly digits: string }
  /** twenty to ninety. */
  | { readonly type: 'tens'; readonly digits: string }
  | { readonly type: 'hundred' }
  | { readonly type: 'thousand' }
  | { readonly type: 'point' }
  | { readonly type: 'repeat'; readonly times: 2 | 3 }
  /** Says an amount that no kind reads (half, dozen): never harmless. */
  | { readonly type: 'amount' }

export const DIGIT_WORDS = ['zero', 'one', 'two', 'three', 'four', 'five', 'six', 'seven', 'eight', 'nine'] as const
/** ICAO and FAA forms as a recogniser or a typist writes them. */
const RADIO_WORDS = { wun: 1, tree: 3, fower: 4, fife: 5, ait: 8, niner: 9 } as const
const OH_WORDS = ['oh', 'o', 'nought', 'naught', 'ought'] as const
const HOMOPHONES = { won: 1, to: 2, too: 2, for: 4, fore: 4, ate: 8 } as const
export const TEEN_WORDS = [
  'ten',
  'eleven',
  'twelve',
  'thirteen',
  'fourteen',
  'fifteen',
  'sixteen',
  'seventeen',
  'eighteen',
  'nineteen',
] as const
export const TENS_WORDS = ['twenty', 'thirty', 'forty', 'fifty', 'sixty', 'seventy', 'eighty', 'ninety'] as const
const AMOUNTS = [
  'half',
  'halves',
  'quarter',
  'quarters',
  'third',
  'thirds',
  'dozen',
  'hundreds',
  'thousands',
  'tens',
  'million',
  'billion',
  'once',
  'twice',
  'pair',
  'couple',
] as const

function makeWords(): ReadonlyMap<string, NumberWord> {
  const words = new Map<string, NumberWord>()
  const digit = (word: string, value: number, form: DigitForm) =>
    words.set(word, { type: 'digit', digits: String(value), form })
  DIGIT_WORDS.forEach((word, value) => {
    digit(word, value, 'plain')
  })
  for (const [word, value] of Object.entries(RADIO_WORDS)) digit(word, value, 'radio')
  for (const word of OH_WORDS) digit(word, 0, 'oh')
  for (const [word, value] of Object.entries(HOMOPHONES)) digit(word, value, 'homophone')
  TEEN_WORDS.forEach((word, index) => {
    words.set(word, { type: 'teen', digits: String(10 + index) })
  })
  TENS_WORDS.forEach((word, index) => {
    words.set(word, { type: 'tens', digits: String(20 + 10 * index) })
  })
  words.set('fourty', { type: 'tens', digits: '40' })
  words.set('hundred', { type: 'hundred' })
  for (const word of ['thousand', 'tousand']) words.set(word, { type: 'thousand' })
  for (const word of ['point', 'decimal', 'dot']) words.set(word, { type: 'point' })
  words.set('double', { type: 'repeat', times: 2 })
  for (const word of ['triple', 'treble']) words.set(word, { type: 'repeat', times: 3 })
  for (const word of AMOUNTS) words.set(word, { type: 'amount' })
  return words
}

export const NUMBER_WORDS = makeWords()

/** True for a number word that is understood anywhere; words that only sound like one are none. */
export function isNumberWord(text: string): boolean {
  const word = NUMBER_WORDS.get(text)
  return word !== undefined && !(word.type === 'digit' && word.form === 'homophone')
}
