/** Whether an entered value or load can be what it says: its shape by kind, its scale, its normal band. */

import { composedShould, isComposed } from '../kinds/composed.ts'
import type { KindSpec, Value } from '../kinds/kind.ts'
import type { Problem } from '../problem.ts'
import type { Unit } from '../units.ts'
import type { FigureDeclaration, FigureModel, Station } from './pack.ts'
import { showMeasured, showNumber } from './showing.ts'

/** Kinds whose values are text. */
const SHAPES: Partial<Record<KindSpec['kind'], { readonly shape: RegExp; readonly like: string }>> = {
  runway: {
    shape: /^(0[1-9]|[12]\d|3[0-6])[LRC]?$/,
    like: '01 to 36, with L, R or C where there are parallels: "08", "27L"',
  },
  time: { shape: /^([01]\d|2[0-3])[0-5]\d$/, like: 'four digits, hours and minutes: "0935"' },
  identifier: { shape: /^[A-Z0-9]+$/, like: 'letters and digits: "A3"' },
}

function error(code: string, message: string): Problem {
  return { code, message, severity: 'error' }
}

export function isText(spec: KindSpec): boolean {
  return spec.kind === 'choice' || spec.kind === 'digits' || isComposed(spec) || SHAPES[spec.kind] !== undefined
}

/** What is wrong with a value for this figure; advice where it is only unusual. */
export function valueProblems(declaration: FigureDeclaration, value: Value): readonly Problem[] {
  const { spec, label } = declaration
  return isText(spec) ? textProblems(spec, label, value) : numberProblems(declaration, value)
}

function textProblems(spec: KindSpec, label: string, value: Value): readonly Problem[] {
  if (spec.kind === 'choice') {
    const options = Object.keys(spec.options)
    if (options.includes(String(value))) return []
    return [error('input.option', `${label} "${value}" is none of its positions: ${options.join(', ')}`)]
  }
  if (spec.kind === 'digits') {
    if (new RegExp(`^\\d{${spec.length}}$`).test(String(value))) return []
    return [error('input.shape', `${label} "${value}" should be ${spec.length} digits in quotes`)]
  }
  if (isComposed(spec)) {
    const should = composedShould(spec, value)
    return should === undefined ? [] : [error('input.shape', `${label} "${value}" should be ${should} (in quotes)`)]
  }
  if (spec.kind === 'identifier' && spec.form === 'letter' && !/^[A-Z]$/.test(String(value))) {
    return [error('input.shape', `${label} "${value}" should be one letter: "K"`)]
  }
  const expected = SHAPES[spec.kind]
  if (!expected || (typeof value === 'string' && expected.shape.test(value))) return []
  return [error('input.shape', `${label} "${value}" should be ${expected.like} (in quotes)`)]
}

function numberProblems(declaration: FigureDeclaration, value: Value): readonly Problem[] {
  const { spec, label, measure, plausible } = declaration
  if (typeof value !== 'number' || !Number.isFinite(value)) {
    return [error('input.number', `${label} "${value}" should be a number${measure ? ` in ${measure}` : ''}`)]
  }
  if (spec.kind === 'weight' && value < 0) {
    return [error('input.negative', `${label} ${showMeasured(value, measure)} is negative; a weight is zero or more`)]
  }
  const scale = spec as { readonly min?: number; readonly max?: number }
  if (beyond(value, scale)) {
    return [error('input.scale', `${label} ${showMeasured(value, measure)} is off its scale: ${band(scale, measure)}`)]
  }
  if (plausible && beyond(value, plausible)) {
    const message = `${label} ${showMeasured(value, measure)} is unusual; normally ${band(plausible, measure)}`
    return [{ code: 'input.implausible', message, severity: 'advice' }]
  }
  return []
}

interface Band {
  readonly min?: number
  readonly max?: number
}

export function beyond(value: number, { min = -Infinity, max = Infinity }: Band): boolean {
  return value < min || value > max
}

/** "2 to 9 units", "at least 2 units". */
export function band({ min, max }: Band, unit: Unit | undefined): string {
  if (min === undefined) return max === undefined ? 'any' : `at most ${showMeasured(max, unit)}`
  if (max === undefined) return `at least ${showMeasured(min, unit)}`
  return `${showNumber(min)} to ${showMeasured(max, unit)}`
}

/** What is wrong with a load: negative, not a number, or more than the station may hold. */
export function loadProblems(station: Station, load: number, unit: Unit): readonly Problem[] {
  if (!Number.isFinite(load)) {
    return [error('load.number', `load ${station.label} "${load}" should be a number in ${unit}`)]
  }
  if (load < 0) {
    return [
      error('load.negative', `load ${station.label} ${showMeasured(load, unit)} is negative; a load is zero or more`),
    ]
  }
  if (station.max !== undefined && load > station.max) {
    const most = showMeasured(station.max, unit)
    return [error('limit.station', `load ${station.label} ${showMeasured(load, unit)} is over its limit of ${most}`)]
  }
  return []
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
