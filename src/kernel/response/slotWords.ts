/** Words of a path's slots, and what they say of the item as a whole. */

import type { Token } from '../numbers/tokens.ts'
import type { FigureSlot, Path, WordSlot } from './path.ts'
import { ALL } from './remarkWords.ts'
import { ALSO_NAMED } from './synonyms.ts'

export const isWordSlot = (slot: Path[number]): slot is WordSlot => slot.type === 'word'
export const isFigureSlot = (slot: Path[number]): slot is FigureSlot => slot.type === 'figure'

export const LITTLE_WORDS: ReadonlySet<string> = new Set(['and', 'the', 'is', 'are', 'a'])

/** "takeoffTrim" -> takeoff, trim. */
export function nameWords(name: string): string[] {
  return name
    .replace(/([a-z])([A-Z])/g, '$1 $2')
    .toLowerCase()
    .split(/[^a-z0-9]+/)
    .filter((word) => word.length > 1)
}

/** Other names of what the challenge asks for. */
export function namesOf(challenge: readonly Token[]): readonly (readonly string[])[] {
  const asked = challenge.map(({ text }) => text)
  return ALSO_NAMED.flatMap(([name, others]) => {
    const stem = name.split(' ')
    const at = asked.findIndex((_, from) =>
      stem.every((word, i) => asked[from + i] === word || asked[from + i] === `${word}s`),
    )
    return at < 0 ? [] : others.map((other) => other.split(' '))
  })
}

const LOOSE_WORDS = new Set([...LITTLE_WORDS, 'in', 'of', 'to', 'at', 'my', 'his'])

/** For each slot that is words, the telling words of each of its wordings, where no other slot has them. */
export function bagsOf(path: Path): Map<number, string[][]> {
  const telling = path.map((slot) =>
    (slot.type === 'word' ? slot.wordings : []).map(({ words }) => words.filter((word) => !LOOSE_WORDS.has(word))),
  )
  return new Map(
    telling.map((bags, index) => {
      const others = new Set(telling.flatMap((each, other) => (other === index ? [] : each.flat())))
      return [
        index,
        bags.filter(
          (bag) =>
            bag.length > 0 && bag.every((word) => !others.has(word)) && (bag.length > 1 || ALL.has(bag[0] ?? '')),
        ),
      ]
    }),
  )
}

/** Both or all of something are asked for. */
export function isOfSeveral(path: Path, challenge: readonly Token[]): boolean {
  const words = path.filter(isWordSlot).flatMap(({ wordings }) => wordings.flatMap(({ words }) => words))
  const last = challenge.at(-1)?.text ?? ''
  return words.some((word) => ALL.has(word)) || (last.endsWith('s') && !last.endsWith('ss'))
}

/** What the challenge names several of: "doors", and one door of them. */
export function severalOf(challenge: readonly Token[]): ReadonlySet<string> {
  const names = challenge.map(({ text }) => text).filter((word) => word.endsWith('s') && !word.endsWith('ss'))
  return new Set(names.flatMap((word) => [word, word.slice(0, -1)]))
}
