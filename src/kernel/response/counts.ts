/** Numbers beside an answer that count or measure something else. */

import { affixesOf } from '../kinds/table.ts'
import { isNumberToken, type Token } from '../numbers/tokens.ts'
import { isNumberWord } from '../numbers/words.ts'
import { isPreposition } from './foreignStates.ts'
import type { Frame } from './frame.ts'
import { isStateWord } from './lexicon.ts'
import { ALL, BEFORE_VALUE, COUNTED, COUNTED_THINGS, isSide, MEASURED, PASSING } from './remarkWords.ts'
import { type Atom, beforeArticle, isPlain, wordOf } from './scan.ts'

/** Numbers that count or measure something else: "within twenty feet". */
export function withoutCounts(frame: Frame, atoms: readonly Atom[]): { atoms: readonly Atom[]; doubt: boolean } {
  const kept: Atom[] = []
  const enumerated = frame.ofSeveral && frame.figureCount === 0 ? enumeratedIn(frame, atoms) : NONE
  let doubt = false
  for (let at = 0; at < atoms.length; at++) {
    const atom = atoms[at] as Atom
    if (atom.type === 'run' && atom.tokens.some(isNumberToken)) {
      if (isMeasured(frame, atoms, at) || isHowMany(atoms, at)) {
        kept.push(beside(atom.tokens))
        continue
      }
      if (isOthers(frame, atoms, at) && !isFew(atoms, at)) doubt = true
      else if (isCounting(frame, atoms, at)) {
        kept.push(beside(atom.tokens))
        continue
      }
    }
    // "28 A": amperes, perhaps.
    if (wordOf(atom) === 'a' && atoms[at + 1] === undefined && atoms[at - 1]?.type === 'run') doubt = true
    // "Number four on" is one of four.
    if (atom.type === 'phrase' && isNumberWord(atom.tokens[0]?.text ?? '') && wordOf(atoms[at - 1]) === 'number')
      doubt = true
    // "Five point two up, off".
    if (wordOf(atom) === 'off' && atom.type === 'unknown' && atoms[at - 1]?.type === 'run' && !isPreposition(atoms, at))
      doubt = true
    if (atom.type === 'unknown' && atom.amount) {
      if (enumerated.has(at)) continue
      // "All four on".
      if (frame.ofSeveral && wordOf(atoms[at - 1]) === 'all') {
        kept.push(beside([atom.token]))
        continue
      }
      let end = at
      while (isAmount(atoms[end])) end++
      if (!isCountedAt(frame, atoms, at, end)) doubt = true
      kept.push(beside(atoms.slice(at, end).flatMap((one) => ('token' in one ? [one.token] : []))))
      at = end - 1
      continue
    }
    kept.push(atom)
  }
  return { atoms: kept, doubt }
}

const beside = (tokens: readonly Token[]): Atom => ({ type: 'harmless', tokens })

/** "All three bugged": how many there are. */
function isHowMany(atoms: readonly Atom[], at: number): boolean {
  const run = atoms[at]
  return (
    run?.type === 'run' &&
    run.tokens.length === 1 &&
    wordOf(atoms[beforeArticle(atoms, at)]) === 'all' &&
    isPlain(atoms[at + 1])
  )
}

/** Right after the name of something else a number may be that one's: "rotate one two six" to "V one?". */
function isOthers(frame: Frame, atoms: readonly Atom[], at: number): boolean {
  let before = at - 1
  while (atoms[before]?.type === 'harmless') {
    // What was said before "and we are" names nothing of what comes.
    if (BEGINNING.has(wordOf(atoms[before]))) return false
    before--
  }
  const named = atoms[before]
  if (named?.type !== 'unknown') return false
  // "Left mag ninety": the item's own name stands before that.
  const owner = atoms[before - 1]
  if (owner?.type === 'phrase' && owner.known.type === 'label') return false
  const { text } = named.token
  if (frame.isUnasked && PASSING.has(text)) return false
  return !BEFORE_VALUE.has(text) && !isStateWord(text) && !frame.initials.has(text)
}

const BEGINNING: ReadonlySet<string> = new Set(
  "we i it it's that's thats they they're we're we've i've here so".split(' '),
)

const isAmount = (atom: Atom | undefined): boolean => atom?.type === 'unknown' && atom.amount

/** "Twenty feet", "two starts": followed by what it counts, and that is no unit of the item's. */
function isCounting(frame: Frame, atoms: readonly Atom[], at: number): boolean {
  if (isFew(atoms, at)) return isPlain(atoms[at + 1])
  // "Left tank one eight zero litres", "one eight zero litres in the left": as many numbers as are asked for are those.
  if (isLabelled(atoms, at) || (isMeasure(atoms, at) && atoms.filter(isNumber).length <= frame.figureCount))
    return false
  const after = wordOf(atoms[at + 1])
  const isOfPeople = PEOPLE.has(after) && frame.vocabulary.has('board')
  const isOwn = isOfPeople || frame.vocabulary.has(after) || frame.harmless.has(after)
  return isPlain(atoms[at + 1]) && COUNTED.has(after) && !isOwn && !isUnit(frame, after)
}

const PEOPLE: ReadonlySet<string> = new Set('people persons passengers souls'.split(' '))

const isNumber = (atom: Atom) => atom.type === 'run' && atom.tokens.some(isNumberToken)
const isMeasure = (atoms: readonly Atom[], at: number) => VOLUMES.has(wordOf(atoms[at + 1]))
const VOLUMES: ReadonlySet<string> = new Set(['litres', 'liters', 'psi', 'p'])

/** A label stands before it, with nothing between that says something. */
function isLabelled(atoms: readonly Atom[], at: number): boolean {
  const before = atoms.slice(0, at).findLast((atom) => !isPlain(atom))
  return before?.type === 'phrase' && before.known.type === 'label'
}

/** "The two windows". */
function isFew(atoms: readonly Atom[], at: number): boolean {
  const run = atoms[at]
  return run?.type === 'run' && run.tokens.length === 1 && COUNTED_THINGS.has(wordOf(atoms[at + 1]))
}

const isUnit = (frame: Frame, word: string) =>
  frame.specs.some((spec) => spec !== undefined && affixesOf(spec).has(word))

/** "Within twenty", "difference is only twenty". */
function isMeasured(frame: Frame, atoms: readonly Atom[], at: number): boolean {
  const before = atoms.slice(Math.max(0, at - 3), at)
  const since = before.slice(before.findLastIndex((one) => !isPlain(one)) + 1)
  return since.some(
    (one) => MEASURED.has(wordOf(one)) && !frame.harmless.has(wordOf(one)) && !frame.asked.has(wordOf(one)),
  )
}

/** In an item without figures a number of some size, or one with its noun, is about something else. */
function isCountedAt(frame: Frame, atoms: readonly Atom[], at: number, end: number): boolean {
  // "Down, two green" to `down three green`.
  const isOwnCount = frame.path.some(
    (slot) => slot.type === 'word' && slot.wordings.some(({ words }) => words.some(isNumberWord)),
  )
  const isLarge = atoms.slice(at, end).some((atom) => /^(hundred|thousand)$/.test(wordOf(atom)))
  if (frame.figureCount > 0 || (isOwnCount && !isLarge)) return false
  const after = wordOf(atoms[end])
  const noun =
    COUNTED.has(after) || COUNTED_THINGS.has(after) || frame.harmless.has(after) ? after : wordOf(atoms[end + 1])
  // "One engine on" of several.
  if (wordOf(atoms[at]) === 'one' && frame.harmless.has(`${after}s`)) return false
  if (COUNTED.has(noun) || COUNTED_THINGS.has(noun) || frame.harmless.has(noun)) return true
  // "Pressure three thousand", "three thousand in the accumulator": and not "both on fifty two".
  if (end - at > 1) return isPlain(atoms[end]) || atoms[at - 1]?.type === 'unknown'
  const isAll = atoms.some((atom) => atom.type === 'phrase' && atom.tokens.some(({ text }) => ALL.has(text)))
  return (frame.ofSeveral && !isAll && isSide(wordOf(atoms[at]))) || wordOf(atoms[at]) === 'a'
}

/** Places of "one, two, three and four", "engine one and engine two": each of several by its number, and as many as are asked for. */
function enumeratedIn(frame: Frame, atoms: readonly Atom[]): ReadonlySet<number> {
  const places: number[] = []
  let said = 0
  for (const [at, atom] of atoms.entries()) {
    const word = NUMBERS[said]
    if (wordOf(atom) === word) {
      said++
      places.push(at)
    } else if (atom.type === 'phrase' && atom.tokens[0]?.text === word) said++
    else if (NUMBERS.includes(wordOf(atom)) && atom.type === 'unknown') return NONE
  }
  const wanted = NUMBERS.findIndex((word) => frame.own.has(word)) + 1
  return said > 1 && (wanted === 0 || said === wanted) ? new Set(places) : NONE
}
const NUMBERS = ['one', 'two', 'three', 'four', 'five', 'six']
const NONE: ReadonlySet<number> = new Set()
