/** Reading a calculator's operands: figures computed before, or numbers of the pack, in the units it works in. */

import { convert, fits, type Unit } from '../units.ts'
import type { Work, WorkUnit } from './calculator.ts'
import { formatMeasured } from './format.ts'
import type { Basis, Operand } from './pack.ts'

/** The unit that a calculator's word for one stands for in this pack. */
export function workUnit(basis: Pick<Basis, 'units'>, unit: WorkUnit, own: Unit): Unit {
  switch (unit) {
    case 'weight':
      return basis.units.weight
    case 'arm':
      return basis.units.arm
    case 'moment':
      return `${basis.units.weight} ${basis.units.arm}`
    case 'same':
    case 'any':
      return own
    default:
      return unit
  }
}

function operands(work: Work, parameter: string): readonly Operand[] {
  const found = work.derivation.takes[parameter]
  if (found === undefined) return []
  return typeof found === 'object' ? found : [found]
}

function unitOf(work: Work, parameter: string): Unit {
  return workUnit(work.basis, work.calculator.takes[parameter]?.unit ?? 'any', work.figure.unit)
}

function read(work: Work, operand: Operand | undefined, unit: Unit | undefined): number | string {
  if (typeof operand !== 'string') return operand ?? Number.NaN
  const figure = work.done[operand]
  const found = figure?.exact ?? figure?.value ?? Number.NaN
  const measure = figure?.measure
  return typeof found === 'number' && unit && measure && fits(measure, unit) ? convert(found, measure, unit) : found
}

/** In the figure's own unit, as the pilot knows it; what the calculator works in may be another. */
function tell(work: Work, operand: Operand, unit: Unit): string {
  if (typeof operand !== 'string') return formatMeasured(operand, unit)
  const figure = work.done[operand]
  return `${figure?.label ?? operand} ${formatMeasured(read(work, operand, undefined), figure?.measure)}`
}

export function number(work: Work, parameter: string): number {
  return Number(read(work, operands(work, parameter)[0], unitOf(work, parameter)))
}

/** Undefined where an optional operand was left out. */
export function maybe(work: Work, parameter: string): number | undefined {
  const [operand] = operands(work, parameter)
  if (operand === undefined) return undefined
  if (typeof operand === 'string' && work.done[operand]?.value === undefined) return undefined
  return number(work, parameter)
}

export function numbers(work: Work, parameter: string): readonly number[] {
  const unit = unitOf(work, parameter)
  return operands(work, parameter).map((operand) => Number(read(work, operand, unit)))
}

/** Numbers to multiply by: percent as the share that it is. */
export function factors(work: Work, parameter: string): readonly number[] {
  return operands(work, parameter).map((operand) => {
    const share = typeof operand === 'string' && work.done[operand]?.measure === 'percent' ? 100 : 1
    return Number(read(work, operand, undefined)) / share
  })
}

/** In the unit of another operand, where it has one that fits. */
export function numberIn(work: Work, parameter: string, other: string): number {
  const [like] = operands(work, other)
  const unit = typeof like === 'string' ? work.done[like]?.measure : undefined
  return Number(read(work, operands(work, parameter)[0], unit))
}

/** "takeoff weight 28,412 kg". */
export function shown(work: Work, parameter: string): string {
  return shownEach(work, parameter)[0] ?? ''
}

/** What stands for a figure of text, as a choice; undefined where it was left out. */
export function word(work: Work, parameter: string): string | undefined {
  const [operand] = operands(work, parameter)
  const value = typeof operand === 'string' ? work.done[operand]?.value : undefined
  return value === undefined ? undefined : String(value)
}

/** "takeoff CG"; empty for a number of the pack. */
export function labelOf(work: Work, parameter: string): string {
  const [operand] = operands(work, parameter)
  return typeof operand === 'string' ? (work.done[operand]?.label ?? operand) : ''
}

/** The same for each of a list. */
export function shownEach(work: Work, parameter: string): readonly string[] {
  const unit = unitOf(work, parameter)
  return operands(work, parameter).map((operand) => tell(work, operand, unit))
}

/** What stands at a table's axis, in the axis's unit, or as text where the axis has choices. */
export function standsAt(work: Work, axis: string, unit: Unit | undefined): number | string {
  return read(work, work.derivation.at?.[axis], unit)
}
