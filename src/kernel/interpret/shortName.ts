/** What a pilot means by less than its whole name: "trim" for "takeoff trim", "the signs" for "seat belt signs". */

import { phrase } from '../hearing/phrases.ts'
import { isStateWord } from '../response/lexicon.ts'

const LITTLE = new Set(['the', 'a', 'an', 'our', 'my', 'that', 'item', 'and', 'of'])

/** One that is called so; else the only one that has all these words in its name. Undefined where none or several do. */
export function meantByName<T>(all: readonly T[], nameOf: (one: T) => string, name: string): T | undefined {
  const said = phrase(name)
  const whole = all.find((one) => phrase(nameOf(one)) === said)
  if (whole !== undefined) return whole
  const words = wordsOf(said).filter((word) => !LITTLE.has(word))
  if (words.length === 0 || words.every(isStateWord)) return undefined
  const found = all.filter((one) => {
    const own = new Set(wordsOf(phrase(nameOf(one))))
    return words.every((word) => own.has(word))
  })
  return found.length === 1 ? found[0] : undefined
}

/** One and many are the same here: "sign", "signs". */
const wordsOf = (text: string) => text.split(' ').map((word) => (word.length > 3 ? word.replace(/s$/, '') : word))
