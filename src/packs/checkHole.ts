/** Whether a station could have to say a figure that has no value, since somebody may leave it out. */

import { CALCULATORS } from '../kernel/figures/calculators.ts'
import { derivationOf } from './buildFigures.ts'
import { type Checking, report } from './checking.ts'
import type { Path } from './source.ts'

export function checkHole(checking: Checking, names: readonly string[], path: Path): void {
  for (const name of names) {
    const left = leftOut(checking.figures ?? {}, name)
    if (left === undefined) continue
    const may = left === name ? 'may be left out' : `rests on ${left}, which may be left out`
    report(
      checking,
      'wording.hole',
      path,
      `${name} ${may}: nothing would be said for it; make ${left} required or given`,
    )
  }
}

/** The figure under this one, or itself, that need not be entered and without which this one has no value. */
function leftOut(
  figures: NonNullable<Checking['figures']>,
  name: string,
  open: readonly string[] = [],
): string | undefined {
  const figure = Object.hasOwn(figures, name) ? figures[name] : undefined
  if (!figure || open.includes(name)) return undefined
  if (figure.entered?.required === false) return name
  if (!figure.derived) return undefined
  const { by, takes, at = {} } = derivationOf(figure.derived)
  const parameters = Object.hasOwn(CALCULATORS, by) ? CALCULATORS[by]?.takes : undefined
  const needed = Object.entries(takes).filter(([parameter]) => parameters?.[parameter]?.optional !== true)
  const operands = [...needed.flatMap(([, operand]) => operand), ...Object.values(at)]
  for (const operand of operands) {
    const left = typeof operand === 'string' ? leftOut(figures, operand, [...open, name]) : undefined
    if (left !== undefined) return left
  }
  return undefined
}
