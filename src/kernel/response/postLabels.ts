/** Labels said behind their numbers: "six two on the left, six four on the right". Each is moved before its own. */

import { isNumberToken } from '../numbers/tokens.ts'
import { type Atom, beforeArticle, isPlain, wordOf } from './scan.ts'

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

/** One number by itself has its label behind it only after "on" or "for": "sixty four on the right". */
export function withLateLabel(all: readonly Atom[]): readonly Atom[] {
  const [run, label, ...more] = all.filter((atom) => isRun(atom) || isLabel(atom))
  if (!run || !label || more.length > 0 || !isRun(run) || !isLabel(label)) return all
  const at = all.indexOf(label)
  const before = beforeArticle(all, at)
  if (!isPlain(all[before]) || !LEADS.has(wordOf(all[before]))) return all
  return all.flatMap((atom, index) => (atom === run ? [label, run] : index === before || atom === label ? [] : [atom]))
}
const LEADS: ReadonlySet<string> = new Set(['on', 'for'])
