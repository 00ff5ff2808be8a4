/** A revision as a person hands it in (YAML, JSON or a CSV load sheet) -> inputs, or problems with their places. */

import { loadProblems, valueProblems } from '../kernel/figures/entered.ts'
import type { Inputs, LastMinuteChange, Settlement } from '../kernel/figures/model.ts'
import type { FigureDeclaration, Station } from '../kernel/figures/pack.ts'
import { ownSource } from '../kernel/figures/sources.ts'
import type { Value } from '../kernel/kinds/kind.ts'
import { ownOf } from '../kernel/own.ts'
import type { Pack } from '../kernel/pack/checklist.ts'
import { isError, type Place, type Problem } from '../kernel/problem.ts'
import { quoted } from '../kernel/quoted.ts'
import { figuresOfStations } from '../kernel/run/talk/script.ts'
import type { Unit } from '../kernel/units.ts'
import { csvSource } from './csv.ts'
import { type InputsText, inputsFile } from './inputsSchema.ts'
import { exactly, nothingMore } from './present.ts'
import { quantityIn } from './quantity.ts'
import { readOnly } from './readOnly.ts'
import { add, type Meant } from './reporting.ts'
import { shaped } from './shape.ts'
import { type Path, parseSource, type Source } from './source.ts'
import { told } from './telling.ts'

/**
 * Inputs come back where nothing is an error; advice (an unusual value) comes beside them. Values are numbers in the
 * pack's unit, or text with a unit ("5100 lb"), which is converted where the dimension fits.
 */
export function readInputs(text: string, fileName: string, pack: Pack): ReadInputs {
  const source = fileName.endsWith('.csv') ? csvSource(fileName, text, pack) : parseSource(fileName, text)
  // Rows of a CSV that name nothing are told together with what is wrong in the others.
  const isMalformed = source.value === undefined
  const { value, problems } = shaped(isMalformed ? source : { ...source, problems: [] }, inputsFile)
  const before = isMalformed ? [] : source.problems
  if (!value) return { problems: told([...before, ...problems]) }
  const reading: Reading = { source, pack, problems: [...before] }
  const inputs = inputsOf(reading, value)
  const expected = expectedIn(reading, value.expect ?? {})
  const all = told(reading.problems)
  return all.some(isError) ? { problems: all } : { inputs, expected, problems: all }
}

export interface ReadInputs {
  readonly inputs?: Inputs
  /** What its figures must come out as, where it is a worked example. */
  readonly expected?: readonly Expected[]
  readonly problems: Problem[]
}

export interface Expected {
  readonly declaration: FigureDeclaration
  readonly value: Value
  readonly place: Place
}

/** Each in the unit of its figure. What is entered or read has nothing to come out as. */
function expectedIn(reading: Reading, expect: Readonly<Record<string, Value>>): Expected[] {
  return Object.entries(expect).flatMap(([name, given]) => {
    const path: Path = ['expect', name]
    const declaration = figureAt(reading, path)
    if (!declaration) return []
    if (!declaration.derived) {
      const origin = declaration.read ? 'read off a gauge' : declaration.input ? 'entered' : 'fixed in the pack'
      report(reading, 'expect.notComputed', path, `${name} is ${origin}, and nothing is worked out; take it out`)
      return []
    }
    const value = declaration.measure ? measured(reading, given, declaration.measure, path) : String(given)
    return value === undefined ? [] : [{ declaration, value, place: reading.source.place(path) }]
  })
}

/** One file on its way: where things stand, what they may be, what was wrong. */
interface Reading {
  readonly source: Source
  readonly pack: Pack
  readonly problems: Problem[]
}

const asSettlement = exactly<Settlement>()

function inputsOf(reading: Reading, text: InputsText): Inputs {
  const { status, label, situation, settled, values, loads, said, stated, lastMinute, expect: _, ...rest } = text
  nothingMore(rest)
  checkSituation(reading, situation ?? {})
  checkSettled(reading, settled ?? {})
  return {
    status,
    ...(label !== undefined && { label }),
    values: valuesOf(reading, values),
    loads: loadsOf(reading, loads),
    ...(situation && { situation }),
    ...(said && { said: saidOf(reading, said) }),
    ...(stated && { stated: statedOf(reading, stated) }),
    ...(settled && { settled: kept(settled, (_, one) => asSettlement(one)) }),
    ...(lastMinute && { lastMinute: lastMinuteOf(reading, lastMinute) }),
  }
}

function report({ source, problems }: Reading, code: string, path: Path, message: string, meant?: Meant): void {
  add(problems, code, () => source.place(path), message, meant)
}

/** A name that the pack does not have: at the name itself, with the one that was probably meant. */
function unknown(
  { source, problems }: Reading,
  code: string,
  path: Path,
  message: string,
  known: readonly string[],
): void {
  const name = String(path.at(-1))
  add(problems, code, () => source.placeOfKey(path.slice(0, -1), name), message, { name, known: () => known })
}

function measured(reading: Reading, given: number | string, unit: Unit | undefined, path: Path): number | undefined {
  const quantity = quantityIn(given, unit)
  if ('number' in quantity) return quantity.number
  report(reading, quantity.code, path, quantity.message)
  return undefined
}

/** The figure that a path ends in; undefined and told where there is none. */
function figureAt(reading: Reading, path: Path): FigureDeclaration | undefined {
  const { declarations } = reading.pack.figures
  const name = String(path.at(-1))
  const found = ownOf(declarations, name)
  if (!found) unknown(reading, 'figure.unknown', path, `no figure is called ${quoted(name)}`, Object.keys(declarations))
  return found
}

function figureValue(reading: Reading, declaration: FigureDeclaration, given: Value, path: Path): Value | undefined {
  const { measure } = declaration
  // A flap written 14 is the position "14"; a code written 0421 has lost its zero and is reported as too short.
  const value = measure ? measured(reading, given, measure, path) : String(given)
  if (value === undefined) return undefined
  const found = valueProblems(declaration, value)
  reading.problems.push(...found.map((problem) => ({ ...problem, place: reading.source.place(path) })))
  return found.some(isError) ? undefined : value
}

/** Keeps the entries that could be read. */
function kept<T, R>(
  entries: Readonly<Record<string, T>>,
  read: (name: string, entry: T) => R | undefined,
): Record<string, R> {
  return Object.fromEntries(
    Object.entries(entries).flatMap(([name, entry]) => {
      const value = read(name, entry)
      return value === undefined ? [] : [[name, value]]
    }),
  ) as Record<string, R>
}

function valuesOf(reading: Reading, values: InputsText['values']): Record<string, Value> {
  return kept(values, (name, given) => {
    const path: Path = ['values', name]
    const declaration = figureAt(reading, path)
    if (!declaration) return undefined
    if (declaration.input) return figureValue(reading, declaration, given, path)
    if (declaration.read) {
      report(reading, 'figure.notEntered', path, readOnly(name, 'leave it out'))
      return undefined
    }
    const origin = declaration.derived ? 'computed' : 'fixed in the pack'
    report(reading, 'figure.notEntered', path, `${name} is ${origin}, not entered; a source's value goes under stated`)
    return undefined
  })
}

/** What stations will say: of figures that some exchange says. */
function saidOf(reading: Reading, said: NonNullable<InputsText['said']>): NonNullable<Inputs['said']> {
  const known = figuresOfStations(reading.pack)
  return kept(said, (name, given) => {
    const path: Path = ['said', name]
    const declaration = figureAt(reading, path)
    if (!declaration) return undefined
    if (known.includes(name)) return figureValue(reading, declaration, given, path)
    unknown(reading, 'said.unsaid', path, `no station says ${name}`, known)
    return undefined
  })
}

function stationAt(reading: Reading, name: string, path: Path): Station | undefined {
  const { stations } = reading.pack.figures
  const found = stations.find((one) => one.name === name)
  if (found) return found
  const known = stations.map((one) => one.name)
  const message = `no station is called ${quoted(name)}`
  if (path.at(-1) === name) unknown(reading, 'load.unknown', path, message, known)
  else report(reading, 'load.unknown', path, message, { name, known: () => known })
  return undefined
}

function weightUnit({ pack }: Reading): 'kg' | 'lb' {
  return pack.figures.basis?.units.weight ?? 'kg'
}

function loadsOf(reading: Reading, loads: InputsText['loads']): Record<string, number> {
  return kept(loads, (name, given) => {
    const path: Path = ['loads', name]
    const station = stationAt(reading, name, path)
    const load = measured(reading, given, weightUnit(reading), path)
    if (!station || load === undefined) return undefined
    // An overloaded station is a broken limit, which the figures report; here only what cannot be a load.
    const found = loadProblems(station, load, weightUnit(reading)).filter(({ code }) => code !== 'limit.station')
    reading.problems.push(...found.map((problem) => ({ ...problem, place: reading.source.place(path) })))
    return load
  })
}

function checkSituation(reading: Reading, situation: Readonly<Record<string, string>>): void {
  const { situations } = reading.pack
  for (const [name, value] of Object.entries(situation)) {
    const path: Path = ['situation', name]
    const known = situations.find((one) => one.name === name)?.options.map((option) => option.value)
    if (!known) {
      const names = situations.map((one) => one.name)
      unknown(reading, 'situation.unknown', path, `no situation is called ${quoted(name)}`, names)
    } else if (!known.includes(value)) {
      report(reading, 'situation.value', path, `situation ${name} has no ${quoted(value)}`, {
        name: value,
        known: () => known,
      })
    }
  }
}

function statedOf(reading: Reading, stated: NonNullable<InputsText['stated']>): NonNullable<Inputs['stated']> {
  const { declarations } = reading.pack.figures
  const sources = [...new Set(Object.values(declarations).flatMap((one) => one.stated?.sources ?? []))]
  return kept(stated, (source, figures) => {
    if (!sources.includes(source)) {
      unknown(reading, 'source.unknown', ['stated', source], `no source is called ${quoted(source)}`, sources)
      return undefined
    }
    return kept(figures, (figure, given) => {
      const path: Path = ['stated', source, figure]
      const declaration = figureAt(reading, path)
      if (!declaration) return undefined
      const allowed = declaration.stated?.sources ?? []
      if (allowed.includes(source)) return figureValue(reading, declaration, given, path)
      unknown(reading, 'source.unknown', path, `${figure} is not compared with ${source}`, [])
      return undefined
    })
  })
}

function checkSettled(reading: Reading, settled: NonNullable<Inputs['settled']>): void {
  for (const [figure, { use }] of Object.entries(settled)) {
    const declaration = figureAt(reading, ['settled', figure])
    if (!declaration) continue
    const known = [ownSource(declaration), ...(declaration.stated?.sources ?? [])]
    if (known.includes(use)) continue
    const message = `${figure} has no source ${quoted(use)}`
    report(reading, 'source.unknown', ['settled', figure, 'use'], message, { name: use, known: () => known })
  }
}

function lastMinuteOf(reading: Reading, changes: NonNullable<InputsText['lastMinute']>): LastMinuteChange[] {
  return changes.map(({ station: name, weight, count, ...rest }, index) => {
    nothingMore(rest)
    const path: Path = ['lastMinute', index]
    const station = stationAt(reading, name, [...path, 'station'])
    if (station && weight === undefined && (count === undefined || station.each === undefined)) {
      const right = station.each === undefined ? 'the weight' : 'the weight or the count'
      report(reading, 'load.number', path, `say ${right} of the change at ${station.label}`)
    }
    const changed =
      weight === undefined ? undefined : measured(reading, weight, weightUnit(reading), [...path, 'weight'])
    return { station: name, ...(changed !== undefined && { weight: changed }), ...(count !== undefined && { count }) }
  })
}
