/** Words said apart from the number that they belong to: attached to it before anything is filled. */

import type { Affix } from '../kinds/reading.ts'
import { affixesOf, isOwnWord } from '../kinds/table.ts'
import type { Token } from '../numbers/tokens.ts'
import { type Frame, hasRole } from './frame.ts'
import type { Atom, RunAtom } from './scan.ts'

/** Directions and units said apart from their number ("five point two, and that's nose up") become part of its run. */
export function attachDirections(frame: Frame, atoms: readonly Atom[]): readonly Atom[] {
  const attached: Atom[] = []
  // Said before any number.
  let waiting: Token[] = []
  for (const atom of atoms) {
    if (atom.type !== 'run') {
      attached.push(atom)
      continue
    }
    const at = attached.findLastIndex((each) => each.type === 'run')
    const before = attached[at]
    if (!isDependent(frame, atom, at >= 0)) {
      attached.push({ ...atom, tokens: [...waiting, ...atom.tokens] })
      waiting = []
    } else if (before?.type === 'run') attached[at] = { ...before, tokens: [...before.tokens, ...atom.tokens] }
    else waiting = [...waiting, ...atom.tokens]
  }
  if (waiting.some((token) => hasRole(frame, token, 'direction'))) {
    attached.push({ type: 'run', tokens: waiting, looseHead: false, looseTail: false })
  }
  return attached
}

/** Roles of words that are a value, or a piece of one, without any number. */
const WHOLE_BY_THEMSELVES: ReadonlySet<Affix['role']> = new Set(['zero', 'letter', 'name', 'variable'])

/** No value by itself: words that go with a number, and gusts after one. */
function isDependent(frame: Frame, { tokens }: RunAtom, hasNumberBefore: boolean): boolean {
  const [first] = tokens
  if (hasNumberBefore && first && hasRole(frame, first, 'gust')) return true
  return tokens.every((token) => !token.number && frame.specs.every((spec) => !isValueIn(token, spec)))
}

function isValueIn(token: Token, spec: Frame['specs'][number]): boolean {
  const role = spec && affixesOf(spec).get(token.text)?.role
  return (role !== undefined && WHOLE_BY_THEMSELVES.has(role)) || (spec !== undefined && isOwnWord(token, spec))
}
