/** States beside an answer that are another thing's. */

import type { Token } from '../numbers/tokens.ts'
import { type Frame, hasRole } from './frame.ts'
import { HESITATIONS, isStateWord, OPENERS } from './lexicon.ts'
import { ALL, BESIDE_STATE, isSide } from './remarkWords.ts'
import { type Atom, isPlain, type PhraseAtom, type RunAtom, wordOf } from './scan.ts'

/** "Strobes on": a state right after the name of another thing is that thing's. */
export function withoutForeignStates(frame: Frame, atoms: readonly Atom[]): readonly Atom[] {
  const isForeign = (atom: Atom, at: number): boolean => {
    if (atom.type === 'run') return isFarDirection(frame, atoms, at, atom)
    if (atom.type !== 'phrase' || !isBareState(atom)) return false
    if (isPreposition(atoms, at)) return true
    return atom.known.type === 'own' && (isNamedBefore(frame, atoms, at) || isOfOtherPart(frame, atoms, at, atom))
  }
  return atoms.filter((atom, at) => !isForeign(atom, at))
}

export const LINKS: ReadonlySet<string> = new Set('is are now'.split(' '))

function isNamedBefore(frame: Frame, atoms: readonly Atom[], at: number): boolean {
  if (frame.isUnasked) return false
  let before = at - 1
  while (atoms[before]?.type === 'harmless' && LINKS.has(wordOf(atoms[before]))) before--
  const named = atoms[before]
  if (named?.type !== 'unknown' || named.amount) return false
  const word = named.token.text
  return !BESIDE_STATE.has(word) && !isStateWord(word) && !isSide(word) && !frame.initials.has(word)
}

/** "Tug set, brake away" for `brake set, tug away`. */
function isOfOtherPart(frame: Frame, atoms: readonly Atom[], at: number, { known }: PhraseAtom): boolean {
  let before = at - 1
  while (atoms[before]?.type === 'harmless' && LINKS.has(wordOf(atoms[before]))) before--
  const word = wordOf(atoms[before])
  const has = (slot: Frame['path'][number]) =>
    slot.type === 'word' && slot.wordings.some(({ words }) => words.includes(word))
  const own = frame.path[known.slot]
  return atoms[before]?.type === 'harmless' && word !== '' && own !== undefined && !has(own) && frame.path.some(has)
}

/** "Off the jetty", "off to the left": no state. */
export function isPreposition(atoms: readonly Atom[], at: number): boolean {
  const word = wordOf(atoms[at])
  const [next, then] = [atoms[at + 1], atoms[at + 2]]
  // "Off on both".
  if (word === 'on' && wordOf(next) === 'both' && (then === undefined || isPlain(then))) return true
  // "The radar is on standby"; "on standby" alone may be two states, and "okay on standby" is that alone.
  const isOwn = (atom: Atom | undefined) => atom?.type === 'phrase' && atom.known.type === 'own'
  const isOfThing = isPlain(atoms[at - 1]) && !OPENING.has(wordOf(atoms[at - 1]))
  if (word === 'on' && isOfThing && !isOwn(atoms[at]) && isOwn(next) && isBareState(next as PhraseAtom)) return true
  if (next?.type !== 'harmless' || !PREPOSITION_LEADS.get(word)?.has(wordOf(next))) return false
  return isPlain(then) || wordOf(next) === 'to' || (wordOf(next) === 'it' && then === undefined)
}
const OPENING: ReadonlySet<string> = new Set([
  ...OPENERS,
  ...HESITATIONS,
  ...'yes yeah yep sir captain copy roger'.split(' '),
])
const PREPOSITION_LEADS: ReadonlyMap<string, ReadonlySet<string>> = new Map([
  ['off', new Set(['the', 'to', 'of', 'our', 'my'])],
  ['on', new Set(['the', 'our', 'my', 'both', 'it'])],
  ['down', new Set(['the'])],
  ['up', new Set(['the'])],
])

/** Of a runway "right" and "left" are said at once; later they are about something else. */
function isFarDirection(frame: Frame, atoms: readonly Atom[], at: number, run: RunAtom): boolean {
  const isOnlySide = run.tokens.every((token: Token) => hasRole(frame, token, 'direction'))
  if (!isOnlySide || frame.specs.some((spec) => spec?.kind === 'trim')) return false
  const runs = atoms.slice(0, at).filter((one) => one.type === 'run')
  // After a side another one speaks against it: "two seven left, actually centre".
  const hasSide = runs.some(({ tokens }) => tokens.some((token) => hasRole(frame, token, 'direction')))
  return atoms[at - 1]?.type !== 'run' && runs.length > 0 && !hasSide
}

/** A word that is a state and nothing more: it needs a thing that it is the state of. */
export function isBareState(atom: PhraseAtom): boolean {
  const [only, ...more] = atom.tokens
  return (
    more.length === 0 &&
    only !== undefined &&
    (atom.known.type === 'own' || atom.known.type === 'state') &&
    !ALL.has(only.text) &&
    (isStateWord(only.text) || !atom.known.literal)
  )
}
