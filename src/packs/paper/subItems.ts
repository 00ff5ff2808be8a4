/**
 * Lines that stand further in: below a line without an answer they are parts of what it names, "Lights:" with "Landing"
 * and "Strobe" below it; below one that has an answer it is asked whether they are.
 */

import { endsInAnswer, type KnownLine } from './lineKinds.ts'

/** Columns that a line stands further in at least. */
const FURTHER = 2

export function withSubItems(lines: readonly KnownLine[]): KnownLine[] {
  const found = [...lines]
  for (const [index, line] of lines.entries()) {
    const above = namedBy(line)
    if (above === undefined || found[index]?.under) continue
    const end = endOfBlock(lines, index)
    const hasAnswer = line.kind.is === 'item'
    // One line below may be the rest of what is asked.
    const fewest = hasAnswer ? 1 : 2
    const below = lines.slice(index + 1, end).filter(isAsked)
    if (below.length < fewest) continue
    if (!hasLike(lines, index, end)) {
      const isApart = (lines[index - 1]?.text ?? '') === ''
      if (line.kind.is === 'words' && isApart)
        found[index] = { ...line, kind: { is: 'heading', text: above, sure: false } }
      continue
    }
    if (!hasAnswer) found[index] = { ...line, kind: { is: 'above' } }
    for (let at = index + 1; at < end; at++) {
      const one = lines[at]
      if (one && isAsked(one)) found[at] = { ...one, under: { text: above, hasAnswer } }
    }
  }
  return found
}

/** What a line says that others may stand below. */
function namedBy({ kind }: KnownLine): string | undefined {
  if (kind.is === 'item') return kind.cells.find((cell) => cell !== '')
  if (kind.is === 'heading') return kind.sure ? undefined : kind.text.replace(/:$/, '')
  return kind.is === 'words' && !endsInAnswer(['', kind.text]) ? kind.text.replace(/:$/, '') : undefined
}

function isAsked({ kind }: KnownLine): boolean {
  if (kind.is === 'item') return kind.cells[0] !== ''
  return kind.is === 'words' && (kind.isListed || endsInAnswer(['', kind.text]))
}

/** Behind the last line of those that stand further in, without a gap. */
function endOfBlock(lines: readonly KnownLine[], index: number): number {
  const above = lines[index]
  let end = index + 1
  while (above && lines[end] && isBelow(lines[end] as KnownLine, above)) end++
  return end
}

function isBelow(line: KnownLine, above: KnownLine): boolean {
  if (line.text === '') return false
  // "a." below "3." is further in, wherever it stands.
  const isLettered = /^\(?[a-z][.)]/.test(line.text) && /^\(?\d/.test(above.text)
  return line.indent >= above.indent + (isLettered ? 0 : FURTHER)
}

/** Whether an item stands as far out in the same list, before it or behind what is below it: so it is no heading. */
function hasLike(lines: readonly KnownLine[], index: number, end: number): boolean {
  const indent = lines[index]?.indent ?? 0
  const isLike = (line: KnownLine | undefined) =>
    line?.kind.is === 'item' && line.kind.cells[0] !== '' && Math.abs(line.indent - indent) < FURTHER
  for (let at = index - 1; at >= 0; at--) {
    const line = lines[at]
    if (line?.kind.is === 'heading' || line?.text === '') break
    if (isLike(line)) return true
  }
  return isLike(lines[end])
}
