/**
 * The values that a slip of the eye would have given: the next row or column of the table, another flap, another unit.
 * For the account of where a wrong number may come from, after it was judged; never for judging.
 */

import { roundTo } from '../numbers/rounding.ts'
import { convert, UNIT_NAMES, UNITS, type Unit } from '../units.ts'
import { formatMeasured } from './format.ts'
import { bracket, type Looked, look } from './lookup.ts'
import type { ComputedFigure, FigureSet } from './model.ts'
import type { Derivation, FigureDeclaration, FigureModel, Table } from './pack.ts'
import { roundingOf } from './rounding.ts'

export interface Neighbour {
  readonly cause: 'neighbourRow' | 'neighbourColumn' | 'otherFlap' | 'otherUnit'
  /** For people: "takeoff trim at flap 19"; for another unit its name. */
  readonly detail: string
  /** As it would be spoken. */
  readonly value: number
}

/** Before rounding. */
type Variant = Omit<Neighbour, 'value'> & { readonly exact: number }

/** Neighbours of a computed number whose spoken value is not the right one; none for a figure without a value. */
export function neighboursOf(model: FigureModel, set: FigureSet, name: string): Neighbour[] {
  const [declaration, figure] = [model.declarations[name], set.figures[name]]
  if (!declaration || typeof figure?.value !== 'number') return []
  const round = roundingOf(declaration)
  const spoken = (exact: number): number => (round ? roundTo(exact, round) : exact)
  const found = variantsOf(model, set, name).map(({ cause, detail, exact }) => ({
    cause,
    detail,
    value: spoken(exact),
  }))
  return [...found, ...otherUnits(declaration, figure)].filter(({ value }) => value !== figure.value)
}

/** Through sums, differences and the least of several down to the look-ups that a figure rests on directly. */
function variantsOf(model: FigureModel, set: FigureSet, name: string): Variant[] {
  const derivation = model.declarations[name]?.derived
  const [exact, measure] = [set.figures[name]?.exact, model.declarations[name]?.measure]
  if (!derivation || exact === undefined || !measure) return []
  if (derivation.by === 'lookUp') return tableVariants(model, set, derivation, measure)
  return passedOn(derivation, set).flatMap(({ operand, sign }) => {
    const [from, before] = [model.declarations[operand]?.measure, set.figures[operand]?.exact]
    if (!from || before === undefined) return []
    return variantsOf(model, set, operand).map((variant) => {
      const change = convert(variant.exact, from, measure) - convert(before, from, measure)
      return { ...variant, exact: exact + sign * change }
    })
  })
}

function passedOn(
  { by, takes }: Derivation,
  set: FigureSet,
): readonly { readonly operand: string; readonly sign: 1 | -1 }[] {
  const names = (parameter: string): string[] =>
    [takes[parameter] ?? []].flat().filter((operand): operand is string => typeof operand === 'string')
  switch (by) {
    case 'sum':
    case 'same':
      return names('of').map((operand) => ({ operand, sign: 1 }))
    case 'least': {
      // All are of one unit: a slip is seen in the one that counts.
      const exact = (operand: string) => set.figures[operand]?.exact ?? Number.POSITIVE_INFINITY
      const [least] = names('of').sort((one, other) => exact(one) - exact(other))
      return least === undefined ? [] : [{ operand: least, sign: 1 }]
    }
    case 'difference':
      return [
        ...names('of').map((operand) => ({ operand, sign: 1 as const })),
        ...names('less').map((operand) => ({ operand, sign: -1 as const })),
      ]
    default:
      return []
  }
}

function tableVariants(model: FigureModel, set: FigureSet, derivation: Derivation, measure: Unit): Variant[] {
  const table = model.basis?.tables[derivation.table ?? '']
  if (!table) return []
  const values = table.axes.map((axis) =>
    standing(set, derivation.at?.[axis.name], 'unit' in axis ? axis.unit : undefined),
  )
  return table.axes.flatMap((axis, number) => {
    const beside =
      'choices' in axis ? axis.choices.filter((choice) => choice !== values[number]) : rowsBeside(table, number, values)
    return beside.flatMap((value): Variant[] => {
      const looked: Looked = look(table, values.with(number, value))
      if (!('value' in looked)) return []
      const detail = `${table.label} at ${axis.label} ${formatMeasured(value, 'unit' in axis ? axis.unit : undefined)}`
      return [{ cause: causeOf(table, number), detail, exact: convert(looked.value, table.unit, measure) }]
    })
  })
}

/** What stands at an axis: a figure's exact value in the axis's unit, its text, or a number of the pack. */
function standing(set: FigureSet, operand: string | number | undefined, unit: Unit | undefined): number | string {
  if (typeof operand !== 'string') return operand ?? Number.NaN
  const { exact, value, measure }: Partial<ComputedFigure> = set.figures[operand] ?? {}
  if (exact !== undefined && measure && unit) return convert(exact, measure, unit)
  return value ?? Number.NaN
}

/** The entries on both sides of a value, and the next ones outside them. */
function rowsBeside(table: Table, number: number, values: readonly (number | string)[]): readonly number[] {
  const axis = table.axes[number]
  if (!axis || 'choices' in axis) return []
  const stands = bracket(axis, values[number] ?? Number.NaN)
  if (typeof stands === 'string') return []
  const { low, high } = stands
  const indexes = low === high ? [low - 1, low + 1] : [low - 1, low, high, high + 1]
  return indexes.flatMap((index) => axis.at[index] ?? [])
}

function causeOf(table: Table, number: number): Neighbour['cause'] {
  const axis = table.axes[number]
  if (axis && 'choices' in axis && /flap/i.test(axis.name)) return 'otherFlap'
  return number === 0 ? 'neighbourRow' : 'neighbourColumn'
}

/** Pairs that are confused in the cockpit; a moment in another unit is nobody's slip. */
/** Of gauges, which nobody takes for an altimeter. */
const OF_GAUGES: readonly Unit[] = ['psi', 'bar']
const CONFUSED: readonly string[] = ['weight', 'pressure', 'temperature', 'volume', 'length']

function otherUnits(declaration: FigureDeclaration, { exact }: ComputedFigure): Neighbour[] {
  const { measure } = declaration
  if (!measure || exact === undefined || !CONFUSED.includes(UNITS[measure].dimension)) return []
  const isLike = (unit: Unit) =>
    UNITS[unit].dimension === UNITS[measure].dimension && OF_GAUGES.includes(unit) === OF_GAUGES.includes(measure)
  const others = UNIT_NAMES.filter((unit) => unit !== measure && isLike(unit))
  return others.flatMap((unit) => {
    const step = unit === 'inHg' ? 0.01 : (roundingOf(declaration)?.step ?? 1)
    const value = roundTo(convert(exact, measure, unit), { step: measure === 'inHg' ? 1 : step, direction: 'nearest' })
    return [{ cause: 'otherUnit' as const, detail: unit, value }]
  })
}
