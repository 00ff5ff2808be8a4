/** What is told in a run of a figure that could not be computed: which table has nothing, and where. */

import { compute } from '../../kernel/figures/compute.ts'
import { formatMeasured } from '../../kernel/figures/format.ts'
import { mixedWords } from '../../kernel/figures/mixed.ts'
import type { FigureDeclaration } from '../../kernel/figures/pack.ts'
import { ownOf } from '../../kernel/own.ts'
import type { Pack } from '../../kernel/pack/checklist.ts'
import { readBackOf } from '../../kernel/pack/rests.ts'
import type { RunState } from '../../kernel/run/core/state.ts'

/** "table torque has nothing at pressure altitude 8,000 ft and this flap": what an item asks for is not given away. */
export function uncomputedWords(pack: Pack, run: RunState, { name: root, derived, label }: FigureDeclaration): string {
  const { values, inputs } = run
  const mixed = inputs && compute(pack.figures, inputs).figures[root]?.mixed
  if (mixed) return mixedWords(mixed)
  const table = derived?.table === undefined ? undefined : ownOf(pack.figures.basis?.tables ?? {}, derived.table)
  if (!table) return `${label} cannot be computed; the figures page says why`
  const asked = readBackOf(pack)
  const entries = Object.entries(derived?.at ?? {}).map(([axis, operand]) => {
    const declared = typeof operand === 'string' ? ownOf(pack.figures.declarations, operand) : undefined
    const name = declared?.label ?? table.axes.find((one) => one.name === axis)?.label ?? axis
    if (declared && asked.includes(declared.name)) return `this ${name}`
    const value = typeof operand === 'string' ? ownOf(values, operand) : operand
    return value === undefined ? name : `${name} ${formatMeasured(value, declared?.measure)}`
  })
  return `table ${table.label} has nothing at ${entries.join(', ')}`
}
