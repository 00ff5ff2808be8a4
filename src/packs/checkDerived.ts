/** Whether a derived figure can be computed: what its calculator takes is there and in units that fit. */

import type { Need, WorkUnit } from '../kernel/figures/calculator.ts'
import { calculatorFor } from '../kernel/figures/calculators.ts'
import type { Derivation, Operand } from '../kernel/figures/pack.ts'
import { workUnit } from '../kernel/figures/work.ts'
import { ownOf } from '../kernel/own.ts'
import { quoted } from '../kernel/quoted.ts'
import { dimensionOf, fits, type Unit } from '../kernel/units.ts'
import { derivationOf, measureOf } from './buildFigures.ts'
import { checkCondition } from './checkCondition.ts'
import type { When } from './conditions.ts'
import type { FiguresText, FigureText } from './figuresSchema.ts'
import { nearest } from './nearest.ts'
import type { PackText } from './packSchema.ts'
import { readOnly } from './readOnly.ts'
import type { Report } from './reporting.ts'
import { openSituation } from './situations.ts'
import type { Path } from './source.ts'
import type { TablesText } from './tablesSchema.ts'

export interface Texts {
  readonly pack: PackText
  readonly figures: FiguresText
  readonly tables: TablesText
}

/** One derived figure under check. */
interface Case {
  readonly name: string
  readonly derivation: Derivation
  /** The unit of the figure itself. */
  readonly own: Unit
  readonly texts: Texts
  /** Where its derivation stands. */
  readonly at: Path
  readonly report: Report
  readonly misfits: Set<string>
}

/** Figures whose own unit is not what their calculator gives: to be mended there, not where they are used. */
export function misfitsOf({ pack, figures }: Texts): Set<string> {
  const wrong = Object.entries(figures.figures).filter(([, figure]) => {
    const own = measureOf(figure)
    const calculators = derivationsOf(figure).map(({ derivation }) => calculatorFor(derivation.by))
    return own !== undefined && calculators.some(({ gives }) => misfit(pack, gives, own))
  })
  return new Set(wrong.map(([name]) => name))
}

/** The unit that a calculator gives, where it is none of the figure's. */
function misfit(pack: PackText, gives: WorkUnit, own: Unit): Unit | undefined {
  if (gives === 'any' || gives === 'same') return undefined
  const given = workUnit(pack, gives, own)
  return fits(given, own) ? undefined : given
}

/** `misfits` are figures whose wrong unit is told already, and grows by those that are told here. */
export function checkDerived(
  name: string,
  figure: FigureText,
  texts: Texts,
  report: Report,
  misfits: Set<string>,
): void {
  if (!figure.derived) return
  const at: Path = ['figures', name, 'derived']
  const own = measureOf(figure)
  if (own === undefined) {
    report('figure.text', at, `${name} is text; calculators give numbers, so it must be entered or constant`)
    return
  }
  for (const { derivation, path } of derivationsOf(figure)) {
    const one: Case = { name, derivation, own, texts, at: [...at, ...path], report, misfits }
    checkOperands(one)
    checkResult(one)
    for (const need of calculatorFor(derivation.by).needs ?? []) checkNeed(one, need)
    checkTable(one)
  }
  if (Array.isArray(figure.derived)) checkCases(name, figure.derived, texts, at, report)
}

/** The one, or each of the cases, with the way to it. */
function derivationsOf({ derived }: FigureText): { readonly derivation: Derivation; readonly path: Path }[] {
  if (!derived) return []
  const derivation = derivationOf(derived)
  if (!derivation.cases) return [{ derivation, path: [] }]
  return derivation.cases.map((one, index) => ({ derivation: one.derivation, path: [index] }))
}

/** Each condition is one on what there is, and one case applies whatever is so. */
function checkCases(
  name: string,
  cases: readonly { readonly when?: When }[],
  { pack, figures: { figures } }: Texts,
  at: Path,
  report: Report,
): void {
  let isSound = true
  const watching: Report = (...told) => {
    isSound = false
    report(...told)
  }
  for (const [index, { when }] of cases.entries()) {
    checkCondition({ pack, figures, report: watching }, when, [...at, index, 'when'])
  }
  const open = isSound
    ? openSituation(
        { pack, figures },
        [],
        cases.map(({ when }) => [when]),
      )
    : undefined
  if (open !== undefined)
    report('derived.uncovered', at, `${name} has no case for ${open}; add a last one without when`)
}

function checkOperands(one: Case): void {
  const { derivation, texts, own, at } = one
  const { takes } = calculatorFor(derivation.by)
  const unitOf = (unit: WorkUnit): Unit | undefined => (unit === 'any' ? undefined : workUnit(texts.pack, unit, own))
  for (const [parameter, operands] of Object.entries(derivation.takes)) {
    const unit = unitOf(takes[parameter]?.unit ?? 'any')
    if (typeof operands !== 'object') checkOperand(one, operands, unit, [...at, parameter])
    else for (const [index, operand] of operands.entries()) checkOperand(one, operand, unit, [...at, parameter, index])
  }
}

function checkOperand(
  { texts, derivation, report, misfits }: Case,
  operand: Operand,
  unit: Unit | undefined,
  path: Path,
  needs = (right: Unit) => `${derivation.by} needs ${described(right)} here`,
): void {
  if (typeof operand !== 'string') return
  const { figures } = texts.figures
  const used = ownOf(figures, operand)
  if (!used) {
    const meant = { name: operand, known: () => Object.keys(figures) }
    report('figure.unknown', path, `no figure is called ${quoted(operand)}`, meant)
    return
  }
  if (used.read) {
    report('read.used', path, readOnly(operand, 'nothing can be computed from it'))
    return
  }
  const measure = measureOf(used)
  if (unit === undefined || (measure !== undefined && fits(measure, unit)) || misfits.has(operand)) return
  misfits.add(operand)
  const is = measure === undefined ? 'is text' : measure === 'none' ? 'has no unit' : `is in ${measure}`
  report('unit.misfit', path, `${operand} ${is}; ${needs(unit)}`)
}

function checkResult({ name, derivation, own, texts, at, report }: Case): void {
  const given = misfit(texts.pack, calculatorFor(derivation.by).gives, own)
  if (given === undefined) return
  const is = own === 'none' ? `has no unit; write unit: ${given}` : `is in ${own}`
  report('unit.misfit', [...at, 'by'], `${derivation.by} gives ${described(given)}; ${name} ${is}`)
}

/** "a length (m)". */
function described(unit: Unit): string {
  const dimension = dimensionOf(unit)
  return `${/^[aeiou]/.test(dimension) ? 'an' : 'a'} ${dimension} (${unit})`
}

/** What the calculator needs of the pack: a table, an envelope, a chord, tanks, an index formula, stations. */
function checkNeed(one: Case, need: Need): void {
  const { derivation, texts, at, report } = one
  const { figures, tables } = texts
  const stations = Object.keys(figures.stations)
  const tanks = figures.tanks.flatMap((group) => Object.keys(group))
  switch (need) {
    case 'table':
      checkNamed(one, 'table', derivation.table, Object.keys(tables.tables), [...at, 'table'])
      break
    case 'envelope':
      checkNamed(one, 'envelope', derivation.envelope, Object.keys(figures.envelopes), [...at, 'envelope'])
      checkEnvelopeUnit(one)
      break
    case 'tank':
      checkNamed(one, 'tank', derivation.tank, tanks, [...at, 'tank'])
      break
    case 'loads':
      for (const [index, station] of (derivation.stations ?? []).entries()) {
        checkNamed(one, 'station', station, stations, [...at, 'stations', index])
      }
      if (stations.length === 0) report('station.none', at, `${derivation.by} needs stations; the pack has none`)
      break
    case 'mac':
      if (!figures.mac) report('mac.missing', at, `${derivation.by} needs mac: {leadingEdge, length}`)
      break
    case 'index':
      if (!figures.index) report('index.missing', at, `${derivation.by} needs index: {reference, divisor, constant}`)
      break
    case 'tanks':
      if (tanks.length === 0) report('tank.none', at, `${derivation.by} needs tanks; the pack has none`)
      break
  }
}

function checkNamed(
  { report }: Case,
  what: string,
  given: string | undefined,
  known: readonly string[],
  path: Path,
): void {
  if (given === undefined || known.includes(given)) return
  report(`${what}.unknown`, path, `no ${what} is called ${quoted(given)}`, { name: given, known: () => known })
}

function checkEnvelopeUnit({ name, derivation, own, texts, at, report }: Case): void {
  const envelope = texts.figures.envelopes[derivation.envelope ?? '']
  if (!envelope || envelope.unit === own) return
  const message = `the envelope is in ${envelope.unit}; ${name} is in ${own}: they must be the same`
  report('unit.misfit', [...at, 'envelope'], message)
}

/** The table's unit and axes against the figure and what stands at them. */
function checkTable(one: Case): void {
  const { name, derivation, own, texts, at, report } = one
  const table = derivation.table === undefined ? undefined : texts.tables.tables[derivation.table]
  if (!table) return
  const { unit, axes } = table
  if (!fits(unit as Unit, own)) {
    report('unit.misfit', [...at, 'table'], `table ${derivation.table} is in ${unit}; ${name} is in ${own}`)
  }
  const names = axes.map((axis) => axis.name)
  const strange = Object.keys(derivation.at ?? {}).filter((given) => !names.includes(given))
  for (const axis of strange) {
    const message = `table ${derivation.table} has no axis ${quoted(axis)}`
    report('table.axis', [...at, 'at', axis], message, { name: axis, known: () => names })
  }
  const misspelt = strange.map((axis) => nearest(axis, names))
  for (const axis of axes) {
    const operand = derivation.at?.[axis.name]
    const wanted = 'choices' in axis ? undefined : (axis.unit as Unit)
    const isIn = (unit: Unit) =>
      `axis ${axis.name} of table ${derivation.table} is in ${unit}; one of them should be otherwise`
    if (operand !== undefined) checkOperand(one, operand, wanted, [...at, 'at', axis.name], isIn)
    else if (!misspelt.includes(axis.name)) {
      report('table.axis', [...at, 'at'], `axis ${axis.name} of table ${derivation.table} is missing`)
    }
  }
}
