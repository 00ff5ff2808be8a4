/** Words that stand beside a number, said apart from it: they go to the run of their number before anything is bound. */

import type { Affix } from '../kinds/reading.ts'
import { affixesOf, isOwnWord } from '../kinds/table.ts'
import type { Token } from '../numbers/tokens.ts'
import type { Atom } from './scan.ts'
import { hasRole, type Scene } from './scene.ts'

type Run = Extract<Atom, { type: 'run' }>

/** Directions and units said apart from their number ("five point two, and that's nose up") go to it. */
export function joinDirections(scene: Scene, atoms: readonly Atom[]): readonly Atom[] {
  const joined: Atom[] = []
  let waiting: Token[] = []
  for (const atom of atoms) {
    if (atom.type !== 'run') {
      joined.push(atom)
      continue
    }
    const at = joined.findLastIndex((each) => each.type === 'run')
    const first = atom.tokens[0]
    const isGust = at >= 0 && first !== undefined && hasRole(scene, first, 'gust')
    if (!isBeside(scene, atom) && !isGust) {
      joined.push({ ...atom, tokens: [...waiting, ...atom.tokens] })
      waiting = []
      continue
    }
    const before = joined[at]
    if (before?.type === 'run') joined[at] = { ...before, tokens: [...before.tokens, ...atom.tokens] }
    else waiting = [...waiting, ...atom.tokens]
  }
  const direction = waiting.some(({ text }) =>
    scene.specs.some((spec) => spec && affixesOf(spec).get(text)?.role === 'direction'),
  )
  if (direction) joined.push({ type: 'run', tokens: waiting, looseHead: false, looseTail: false })
  return joined
}

/** Roles of words that are a value, or a piece of one, without any number. */
const WHOLE_BY_THEMSELVES: ReadonlySet<Affix['role']> = new Set(['zero', 'letter', 'name', 'variable'])

/** Only words that stand beside a number: no value by themselves. */
function isBeside(scene: Scene, { tokens }: Run): boolean {
  return tokens.every(
    (token) =>
      !token.number &&
      scene.specs.every((spec) => {
        const role = spec && affixesOf(spec).get(token.text)?.role
        const isValue = role !== undefined && WHOLE_BY_THEMSELVES.has(role)
        return !isValue && !(spec && isOwnWord(token, spec))
      }),
  )
}
