/** Labels said behind their numbers: "six two on the left, six four on the right". Each is moved before its own. */

import { isNumberToken } from '../numbers/tokens.ts'
import type { Atom } from './scan.ts'

const isRun = (atom: Atom) => atom.type === 'run' && atom.tokens.some(isNumberToken)
const isLabel = (atom: Atom) => atom.type === 'phrase' && atom.known.type === 'label'

/** Only where the answer begins with a number, ends with a label, and they take turns: otherwise labels go before. */
export function withLabelsBefore(atoms: readonly Atom[]): readonly Atom[] {
  const telling = atoms.filter((atom) => isRun(atom) || isLabel(atom))
  const takeTurns = telling.every((atom, index) => (index % 2 === 0 ? isRun(atom) : isLabel(atom)))
  if (telling.length < 4 || telling.length % 2 > 0 || !takeTurns) return atoms
  const moved: Atom[] = []
  for (const atom of atoms) {
    const at = isLabel(atom) ? moved.findLastIndex(isRun) : -1
    if (at >= 0) moved.splice(at, 0, atom)
    else moved.push(atom)
  }
  return moved
}
