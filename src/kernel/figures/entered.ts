/** Whether an entered value or load can be what it says: its shape by kind, its scale, its normal band. */

import { LARGEST_NUMBER } from '../bounds.ts'
import { type KindSpec, kindOf, type Value } from '../kinds/kind.ts'
import type { Band } from '../kinds/value.ts'
import { boundsOf, isBeyond, shouldBe } from '../kinds/written.ts'
import { ownOf } from '../own.ts'
import { isError, type Problem } from '../problem.ts'
import { quoted } from '../quoted.ts'
import type { Unit } from '../units.ts'
import { formatMeasured, formatNumber } from './format.ts'
import type { Inputs } from './model.ts'
import type { FigureDeclaration, FigureModel, Station } from './pack.ts'

function error(code: string, message: string): Problem {
  return { code, message, severity: 'error' }
}

/** What is wrong with a value for this figure; advice where it is only unusual. */
export function valueProblems(declaration: FigureDeclaration, value: Value): readonly Problem[] {
  const { spec, label } = declaration
  return kindOf(spec).values === 'text' ? textProblems(spec, label, value) : numberProblems(declaration, value)
}

function textProblems(spec: KindSpec, label: string, value: Value): readonly Problem[] {
  const should = shouldBe(spec, value)
  if (should === undefined) return []
  if (kindOf(spec).options) return [error('input.option', `${label} ${quoted(value)} should be ${should}`)]
  return [error('input.shape', `${label} ${quoted(value)} should be ${should} (in quotes)`)]
}

function numberProblems(declaration: FigureDeclaration, value: Value): readonly Problem[] {
  const { spec, label, measure, plausible } = declaration
  if (typeof value !== 'number' || !isOfAircraft(value)) {
    return [error('input.number', noNumber(label, value, measure))]
  }
  // Of a count, such as an edition's number, there is no part.
  if (spec.kind === 'integer' && (measure ?? 'none') === 'none' && !Number.isInteger(value)) {
    return [error('input.number', `${label} ${formatNumber(value)} should be a whole number`)]
  }
  const ends = boundsOf(spec)
  if (isBeyond(value, ends)) {
    return [error('input.scale', `${label} ${formatMeasured(value, measure)} is out of range: ${band(ends, measure)}`)]
  }
  if (plausible && isBeyond(value, plausible)) {
    const message = `${label} ${formatMeasured(value, measure)} is unusual; normally ${band(plausible, measure)}`
    return [{ code: 'input.implausible', message, severity: 'advice' }]
  }
  return []
}

const isOfAircraft = (value: number) => Math.abs(value) <= LARGEST_NUMBER

/** Why a value is no number that can be computed with; what was typed stands where it was typed. */
function noNumber(label: string, value: Value, unit: Unit | undefined): string {
  if (typeof value === 'number' && !Number.isNaN(value)) return `${label} is larger than anything of an aircraft`
  const given = typeof value === 'string' ? ` ${quoted(value)}` : ''
  return `${label}${given} should be a number${unit && unit !== 'none' ? ` in ${unit}` : ''}`
}

/** "2 to 9 units", "at least 2 units". */
export function band({ min, max }: Band, unit: Unit | undefined): string {
  if (min === undefined) return max === undefined ? 'any' : `at most ${formatMeasured(max, unit)}`
  if (max === undefined) return `at least ${formatMeasured(min, unit)}`
  return `${formatNumber(min)} to ${formatMeasured(max, unit)}`
}

/** What is wrong with a load: negative, not a number, or more than the station may hold. */
export function loadProblems(station: Station, load: number, unit: Unit): readonly Problem[] {
  if (!isOfAircraft(load)) return [error('load.number', noNumber(`load ${station.label}`, load, unit))]
  if (load < 0) {
    return [
      error('load.negative', `load ${station.label} ${formatMeasured(load, unit)} is negative; a load is zero or more`),
    ]
  }
  if (station.max !== undefined && load > station.max) {
    const most = formatMeasured(station.max, unit)
    return [error('limit.station', `load ${station.label} ${formatMeasured(load, unit)} is over its limit of ${most}`)]
  }
  return []
}

/**
 * Entries of a revision that are no values: text where a number belongs, a runway 37. With one of them nobody can have meant
 * the revision; a value that is only unusual, missing or over a limit is none of these.
 */
export function entryErrors(model: FigureModel, { values, loads, stated = {} }: Inputs): readonly Problem[] {
  const entered = [values, ...Object.values(stated)].flatMap((one) => Object.entries(one))
  const wrong = entered.flatMap(([name, value]) => {
    const declaration = ownOf(model.declarations, name)
    return declaration ? valueProblems(declaration, value) : []
  })
  const byStation = model.stations.map(({ name }) => ownOf(loads, name))
  const badLoads = loadsProblems(model, loads, byStation).filter(({ code }) => code.startsWith('load.'))
  return [...wrong, ...badLoads].filter(isError)
}

/** All loads of a revision; `byStation` has them again in the order of the model's stations, undefined where none is given. */
export function loadsProblems(
  model: FigureModel,
  loads: Readonly<Record<string, number>>,
  byStation: readonly (number | undefined)[],
): readonly Problem[] {
  const unit = model.basis?.units.weight ?? 'kg'
  const problems: Problem[] = []
  let known = 0
  for (const [index, station] of model.stations.entries()) {
    const load = byStation[index]
    if (load === undefined) continue
    known++
    if (!(load >= 0 && load <= (station.max ?? Infinity))) problems.push(...loadProblems(station, load, unit))
  }
  const names = Object.keys(loads)
  if (names.length === known) return problems
  const stations = new Set(model.stations.map(({ name }) => name))
  for (const name of names.filter((one) => !stations.has(one))) {
    problems.push(error('load.unknown', `no station is called ${name}; there are ${[...stations].join(', ')}`))
  }
  return problems
}
