/**
 * Where a wrong number may come from: an earlier revision, another item, the neighbouring row or column of its table,
 * another flap, another unit, or swapped digits. Every cause that fits is named; where two fit, neither is preferred.
 */

import type { Neighbour } from '../figures/neighbours.ts'
import { type Figure, type Figures, kindOf, type Value } from '../kinds/kind.ts'
import { digitsSaid, isNumeric, isSameValue } from '../kinds/table.ts'
import { sayDigits } from '../numbers/say.ts'
import { ownOf } from '../own.ts'
import type { Cause } from './model.ts'

/** Values of one revision, as spoken. */
export interface RevisionValues {
  readonly revision: number
  /** "preliminary figures". */
  readonly label: string
  readonly values: Readonly<Record<string, Value>>
}

export interface CauseSearch {
  /** Name of the figure that was read wrong. */
  readonly figure: string
  /** The value that was read. */
  readonly read: Value
  /** All figures in force; the expected value is among them. */
  readonly figures: Figures
  /** Figure -> its spoken name. */
  readonly labels?: Readonly<Record<string, string>>
  /** Oldest first; the one in force may be among them. */
  readonly history?: readonly RevisionValues[]
  /** What the figure's table and calculator would have given beside it. */
  readonly neighbours?: readonly Neighbour[]
}

/** Every cause that fits, without repetition, in the order earlier revision, other item, table, unit, swapped digits. */
export function findCauses(search: CauseSearch): readonly Cause[] {
  const { figure: name, read, figures, neighbours = [] } = search
  const figure = ownOf(figures, name)
  if (!figure || isSameValue(figure, read, figure.value)) return []
  const tables = neighbours.filter(({ value }) => isSameValue(figure, read, value))
  const causes: Cause[] = [
    ...earlierRevisions(search, figure),
    ...otherFigures(search, figure),
    ...tables.map(({ cause, detail }) => ({ cause, detail })),
    ...otherUnit(figure, read),
    ...swapped(figure, read),
  ]
  return causes.filter(
    (each, at) => causes.findIndex((other) => other.cause === each.cause && other.detail === each.detail) === at,
  )
}

function earlierRevisions({ figure: name, read, history = [] }: CauseSearch, figure: Figure): Cause[] {
  return history
    .filter(({ values }) => {
      const value = ownOf(values, name)
      return value !== undefined && isSameValue(figure, read, value)
    })
    .map(({ label }) => ({ cause: 'earlierRevision', detail: label }))
}

/** Values are comparable that are said alike: an amount of the same size, or the same text. */
function otherFigures({ figure: name, read, figures, labels = {} }: CauseSearch, figure: Figure): Cause[] {
  return Object.entries(figures)
    .filter(([other, { value }]) => other !== name && isComparable(figure, read, value))
    .map(([other]) => ({ cause: 'otherFigure', detail: ownOf(labels, other) ?? other }))
}

function isComparable(figure: Figure, read: Value, other: Value): boolean {
  if (typeof read !== typeof other) return String(read) === String(other)
  if (!isNumeric(figure)) return isSameValue(figure, read, other)
  return Math.abs(Number(read) - Number(other)) < 1e-6
}

/** The same amount in a unit that the figure does not have. */
function otherUnit(figure: Figure, read: Value): Cause[] {
  const kind = kindOf(figure)
  if (kind.values !== 'numbers') return []
  const unit = kind.otherUnitOf?.(Number(read), Number(figure.value), figure)
  return unit === undefined ? [] : [{ cause: 'otherUnit', detail: unit }]
}

/** Two neighbouring digits were swapped. */
function swapped(figure: Figure, read: Value): Cause[] {
  if (kindOf(figure).options) return []
  if (isNumeric(figure) && Math.sign(Number(read)) !== Math.sign(Number(figure.value))) return []
  const rest = (value: Value) => String(value).replace(/\d/g, '').toUpperCase()
  if (typeof read === 'string' && rest(read) !== rest(figure.value)) return []
  const said = digitsSaid(figure, read)
  const expected = digitsSaid(figure, figure.value)
  const at = [...expected].findIndex((digit, i) => digit !== said[i])
  const pair = expected.slice(at, at + 2)
  const turned = `${expected.slice(0, at)}${pair[1]}${pair[0]}${expected.slice(at + 2)}`
  return turned === said ? [{ cause: 'digitsSwapped', detail: sayDigits(pair) }] : []
}
