/** One of two, where both are asked for, and each of two in another state. */

import type { Frame } from './frame.ts'
import { isStateWord } from './lexicon.ts'
import { ALL, COUNTED_THINGS, SIDES, SIGNS } from './remarkWords.ts'
import { type Atom, wordOf } from './scan.ts'

const ALL_WELL: ReadonlySet<string> = new Set('good right fine ok okay set yours done well'.split(' '))

const BOTH_SEATS: ReadonlySet<string> = new Set('my our matching matches same'.split(' '))

/** "All the way forward" is no place. */
const FULLY: ReadonlySet<string> = new Set('full fully way well right hard'.split(' '))

/** Only one of a pair was named. */
export function isOneOfPair(frame: Frame, atoms: readonly Atom[]): boolean {
  const said = atoms.flatMap((atom) => {
    switch (atom.type) {
      case 'unknown':
        return [atom.token.text]
      case 'harmless':
      case 'phrase':
        return atom.tokens.map(({ text }) => text)
      default:
        return []
    }
  })
  const isOwn = (word: string) => (frame.vocabulary.has(word) || frame.harmless.has(word)) && !ALL.has(word)
  // "The two switches" are both.
  const isFull = (word: string, at: number) => word === 'forward' && FULLY.has(said[at - 1] ?? '')
  const words = said.filter(
    (word, at) => !isOwn(word) && !isFull(word, at) && !(word === 'two' && COUNTED_THINGS.has(said[at + 1] ?? '')),
  )
  // "All good" is not all of them.
  const isAll = (word: string, at: number) => ALL.has(word) && !(word === 'all' && ALL_WELL.has(said[at + 1] ?? ''))
  if (said.some(isAll)) return false
  const pairs = frame.harmless.has('signs') ? [...SIDES, SIGNS] : SIDES
  const isSaid = (side: ReadonlySet<string>) => words.some((word) => side.has(word))
  // "My side … and yours", "matching yours": both seats.
  const isBoth = (side: ReadonlySet<string>) =>
    side.has('yours') && (frame.figureCount > 1 || said.some((word) => BOTH_SEATS.has(word)))
  return pairs.some(([one, other]) => isSaid(one) !== isSaid(other) && !(isSaid(other) && isBoth(other)))
}

/** "Pump on" of the pumps: one of them, and which is not said. */
export function isSingular({ several, figureCount, asked, own }: Frame, atoms: readonly Atom[]): boolean {
  const said = atoms.flatMap((atom) => ('token' in atom ? [atom.token] : atom.tokens)).map(({ text }) => text)
  const isTold = said.some(
    (word) => ALL.has(word) || TELLING_WHICH.has(word) || SIDES.flat().some((side) => side.has(word)),
  )
  const isOne = (at: number) => several.has(wordOf(atoms[at])) && several.has(`${wordOf(atoms[at])}s`)
  const isState = (atom: Atom | undefined) => atom?.type === 'phrase' && atom.known.type === 'own'
  return (
    figureCount === 0 &&
    // "Door" for "doors" is soon heard, or said; where both are asked for it is one.
    [...ALL].some((word) => own.has(word)) &&
    // Of "harness and doors" the door is mine, and a sign has a name.
    !asked.has('and') &&
    !asked.has('signs') &&
    !isTold &&
    atoms.some(
      (_, at) => isOne(at) && (isState(atoms[at + 1]) || (wordOf(atoms[at + 1]) === 'is' && isState(atoms[at + 2]))),
    )
  )
}
/** How many there are, or each by its number. */
const TELLING_WHICH: ReadonlySet<string> = new Set('three four five six'.split(' '))

/** "Left on, right off": each its own state. */
export function isMixed(frame: Frame, atoms: readonly Atom[]): boolean {
  return SIDES.some((pair) => {
    const states = pair.map((side) => {
      const at = atoms.findIndex((atom) => side.has(wordOf(atom)) && !frame.vocabulary.has(wordOf(atom)))
      const next =
        at < 0 ? undefined : atoms.slice(at + 1).find((atom) => atom.type === 'phrase' && isStateWord(wordOf(atom)))
      return wordOf(next)
    })
    return states.every((state) => state !== '') && new Set(states).size > 1
  })
}
