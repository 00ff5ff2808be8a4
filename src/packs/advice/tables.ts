/** Tables against what is looked up in them: positions that lack, units that are converted, a trim that runs the wrong way. */

import type { Derivation, Operand } from '../../kernel/figures/pack.ts'
import { ownOf } from '../../kernel/own.ts'
import type { Problem } from '../../kernel/problem.ts'
import { dimensionOf, type Unit } from '../../kernel/units.ts'
import { derivationOf, measureOf } from '../buildFigures.ts'
import type { FiguresText, FigureText } from '../figuresSchema.ts'
import type { Path } from '../source.ts'
import type { TablesText } from '../tablesSchema.ts'
import { adviseCells } from './cells.ts'
import { type Advise, advising, type File, type Written } from './written.ts'

type TableText = TablesText['tables'][string]

/** A table that a figure is looked up in. */
interface Use {
  readonly name: string
  readonly figure: FigureText
  readonly derivation: Derivation
  readonly figures: FiguresText['figures']
  readonly table: TableText
  readonly tableName: string
}

export function adviseTables(written: Written): Problem[] {
  const { tables } = written
  return tables ? [...adviseUses(written, tables), ...adviseCells(tables)] : []
}

function adviseUses(written: Written, tables: File<TablesText>): Problem[] {
  const problems: Problem[] = []
  const advise = advising(tables.source, problems)
  const { figures } = written.figures.value
  const told = new Set<string>()
  for (const [name, figure] of Object.entries(figures)) {
    if (!figure.derived) continue
    const derivation = derivationOf(figure.derived)
    const { table: tableName = '' } = derivation
    const table = ownOf(tables.value.tables, tableName)
    if (!table) continue
    const use: Use = { name, figure, derivation, figures, table, tableName }
    for (const [index, axis] of table.axes.entries()) {
      const operand = derivation.at?.[axis.name]
      const used = typeof operand === 'string' ? ownOf(figures, operand) : undefined
      const key = `${tableName} ${axis.name} ${operand}`
      if (!used || told.has(key)) continue
      told.add(key)
      const at: Path = ['tables', tableName, 'axes', index]
      if ('choices' in axis) adviseChoices(use, axis.name, axis.choices, used, at, advise)
      else adviseUnit(written, use, axis.unit as Unit, axis.name, operand, used, at, advise)
      adviseTrim(use, index, operand, advise)
    }
  }
  return problems
}

function adviseChoices(
  { tableName }: Use,
  axis: string,
  choices: readonly string[],
  used: FigureText,
  at: Path,
  advise: Advise,
): void {
  if (used.kind !== 'choice') return
  const options = Object.keys(used.options)
  const lacking = options.filter((option) => !choices.includes(option))
  if (lacking.length === 0) return
  const message = `table ${tableName} has nothing for ${axis} ${lacking.join(', ')}, which ${used.label} may be; add it here, or take it out of the options`
  advise('choices', [...at, 'choices'], message)
}

/** A weight or an arm in another unit than the pack's is converted: rarely what was meant. */
function adviseUnit(
  { pack }: Written,
  { tableName }: Use,
  unit: Unit,
  axis: string,
  operand: Operand | undefined,
  used: FigureText,
  at: Path,
  advise: Advise,
): void {
  const { weight, arm } = pack.value.units
  const own = ({ weight, length: arm } as Readonly<Record<string, Unit>>)[dimensionOf(unit)]
  if (own === undefined || unit === own || measureOf(used) !== own) return
  const message = `axis ${axis} of table ${tableName} is in ${unit}, ${operand} in ${own}: it is converted; if the numbers here are ${own}, write unit: ${own}`
  advise('axisUnit', [...at, 'unit'], message)
}

/** The further aft the centre of gravity, the less nose-up trim; up is above zero. */
function adviseTrim(
  { figure, figures, table, tableName }: Use,
  along: number,
  operand: Operand | undefined,
  advise: Advise,
): void {
  if (figure.kind !== 'trim' || (figure.axis ?? 'pitch') !== 'pitch' || !isCentreOfGravity(operand, figures)) return
  const axis = table.axes[along]
  if (!axis || 'choices' in axis) return
  const ends = [0, axis.at.length - 1].map((end) => {
    const indexes = table.axes.map((_, index) => (index === along ? end : 0))
    return Number(indexes.reduce<unknown>((here, index) => (here as readonly unknown[])[index], table.cells))
  })
  const [first = 0, last = 0] = ends
  if (!(last > first)) return
  const isStated = table.trend !== undefined && Object.hasOwn(table.trend, axis.name)
  const at: Path = ['tables', tableName, ...(isStated ? ['trend', axis.name] : ['cells'])]
  const message = `table ${tableName}: the trim goes from ${first} to ${last} as ${axis.name} moves aft; up is above zero, and an aft centre of gravity needs less of it: are the rows the wrong way round, or the signs?`
  advise('trim', at, message)
}

const GIVES_CG = new Set(['centreOfGravity', 'percentMac', 'armOfPercentMac', 'shiftedCg', 'changedCg', 'cgOfIndex'])

function isCentreOfGravity(operand: Operand | undefined, figures: FiguresText['figures']): boolean {
  const figure = typeof operand === 'string' ? ownOf(figures, operand) : undefined
  if (!figure) return false
  if (figure.derived) {
    const { by, takes } = derivationOf(figure.derived)
    return GIVES_CG.has(by) || (by === 'same' && isCentreOfGravity([takes.of ?? ''].flat()[0], figures))
  }
  return /\bcg\b|cent(re|er) of gravity/i.test(figure.label)
}
