/** "No lights", "not needed": what is said to be absent, beside an answer. */

import { isBareState } from './foreignStates.ts'
import { ABSENT_TROUBLES, NO_AND, NOT_BAD } from './remarkWords.ts'
import { type Atom, isPlain, wordOf } from './scan.ts'

/** "No lights", "not needed", "nothing unusual": said to be absent, and not the item's. */
export function withoutDenials(atoms: readonly Atom[]): readonly Atom[] {
  const kept: Atom[] = []
  for (let at = 0; at < atoms.length; ) {
    const atom = atoms[at] as Atom
    const end = atom.type === 'not' ? denialEnd(atoms, at) : at
    kept.push(end === at ? atom : { type: 'harmless', tokens: [] })
    at = Math.max(end, at + 1)
  }
  return kept
}

const ABSENT: ReadonlySet<string> = new Set(['no', 'without', 'nothing'])

const NOTHING: ReadonlySet<string> = new Set('showing unusual changed new different wrong abnormal special'.split(' '))

/** End of what is denied harmlessly from `at` on; `at` where it may be about the item. */
function denialEnd(atoms: readonly Atom[], at: number): number {
  let next = at + 1
  if (!ABSENT.has(wordOf(atoms[at]))) {
    while (isPlain(atoms[next]) && NO_AND.has(wordOf(atoms[next]))) next++
    return isPlain(atoms[next]) && NOT_BAD.has(wordOf(atoms[next])) ? next + 1 : at
  }
  while (isPlain(atoms[next]) && NO_AND.has(wordOf(atoms[next]))) next++
  const noun = atoms[next]
  if (wordOf(atoms[at]) === 'nothing' && isPlain(noun) && NOTHING.has(wordOf(noun))) return next + 1
  if (!isPlain(noun) || !ABSENT_TROUBLES.has(wordOf(noun))) return at
  next++
  // "No lights on": the state is theirs.
  const after = atoms[next]
  const isTheirs = after?.type === 'phrase' && after.tokens.length === 1 && isBareState(after)
  return isTheirs && atoms.slice(0, at).some((one) => one.type === 'phrase' && isBareState(one)) ? next + 1 : next
}
