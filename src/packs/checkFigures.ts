/** Whether a pack's figures hold together: names meet, units fit, no figure rests on itself, every origin is clear. */

import type { WorkUnit } from '../kernel/figures/calculator.ts'
import { calculatorFor } from '../kernel/figures/calculators.ts'
import { isText, valueProblems } from '../kernel/figures/entered.ts'
import type { FigureModel, Operand } from '../kernel/figures/pack.ts'
import { workUnit } from '../kernel/figures/work.ts'
import type { Problem } from '../kernel/problem.ts'
import { dimensionOf, fits, type Unit } from '../kernel/units.ts'
import { derivationOf, measureOf } from './buildFigures.ts'
import { didYouMean } from './nearest.ts'
import type { FiguresText, FigureText, PackText, TablesText } from './schema.ts'
import type { Path, Source } from './source.ts'

type Report = (code: string, path: Path, message: string) => void

interface Texts {
  readonly pack: PackText
  readonly figures: FiguresText
  readonly tables: TablesText
}

export function checkFigures(source: Source, texts: Texts): Problem[] {
  const problems: Problem[] = []
  const report: Report = (code, path, message) =>
    problems.push({ code, message, place: source.place(path), severity: 'error' })
  for (const [name, figure] of Object.entries(texts.figures.figures)) {
    checkOrigin(name, figure, report)
    checkBands(name, figure, report)
    if (figure.derived) checkDerived(name, figure, texts, report)
  }
  checkGround(texts, report)
  checkDeal(texts, report)
  return problems
}

function checkOrigin(name: string, figure: FigureText, report: Report): void {
  const at: Path = ['figures', name]
  const origins = [figure.entered, figure.constant, figure.derived].filter((origin) => origin !== undefined)
  if (origins.length === 0) {
    report('figure.noOrigin', at, `${name} has no value; say entered, constant or derived`)
  } else if (origins.length > 1) {
    report(
      'figure.twoOrigins',
      at,
      `${name} has more than one of entered, constant, derived; to compare sources use derived with stated`,
    )
  }
  if (figure.stated && !figure.derived) {
    report(
      'figure.stated',
      [...at, 'stated'],
      `${name} is stated by sources but not derived; there is nothing to compare`,
    )
  }
}

/** Scales and bands the right way round; a constant that its kind can hold. */
function checkBands(name: string, figure: FigureText, report: Report): void {
  const bands = { limits: figure.limits, accept: figure.accept, plausible: figure.entered?.plausible, scale: figure }
  for (const [key, band] of Object.entries(bands)) {
    const { min, max } = (band ?? {}) as { min?: number; max?: number }
    if (min !== undefined && max !== undefined && min > max) {
      const path = key === 'scale' ? ['min'] : key === 'plausible' ? ['entered', 'plausible'] : [key]
      report('figure.band', ['figures', name, ...path], `${name}: min ${min} is above max ${max}`)
    }
  }
  if (figure.constant === undefined) return
  const { constant, label } = figure
  const measure = measureOf(figure)
  const spec = figure as unknown as FigureModel['declarations'][string]['spec']
  const declaration = { name, label, spec, ...(measure && { measure }), alsoCalled: [], input: false }
  for (const { code, message } of valueProblems(declaration, constant)) {
    report(code, ['figures', name, 'constant'], message)
  }
}

function checkDerived(name: string, figure: FigureText, { pack, figures, tables }: Texts, report: Report): void {
  if (!figure.derived) return
  const at: Path = ['figures', name, 'derived']
  const derivation = derivationOf(figure.derived)
  const calculator = calculatorFor(derivation.by)
  const own = measureOf(figure) ?? 'none'
  const known = Object.keys(figures.figures)

  const checkOperand = (operand: Operand, unit: Unit | undefined, path: Path): void => {
    if (typeof operand !== 'string') return
    const used = figures.figures[operand]
    if (!used) {
      report('figure.unknown', path, `no figure is called "${operand}"${didYouMean(operand, known)}`)
      return
    }
    const measure = measureOf(used)
    if (unit === undefined) return
    if (measure === undefined) {
      report('unit.misfit', path, `${operand} is text; ${derivation.by} needs ${article(unit)} here`)
    } else if (!fits(measure, unit)) {
      report('unit.misfit', path, `${operand} is in ${measure}; ${derivation.by} needs ${article(unit)} here`)
    }
  }
  const unitOf = (unit: WorkUnit): Unit | undefined => (unit === 'any' ? undefined : workUnit(pack, unit, own))

  for (const [parameter, operands] of Object.entries(derivation.takes)) {
    const unit = unitOf(calculator.takes[parameter]?.unit ?? 'any')
    if (Array.isArray(operands)) {
      for (const [index, operand] of operands.entries()) checkOperand(operand, unit, [...at, parameter, index])
    } else checkOperand(operands as Operand, unit, [...at, parameter])
  }
  if (calculator.gives !== 'any' && calculator.gives !== 'same') {
    const gives = workUnit(pack, calculator.gives, own)
    if (!fits(gives, own) && !isText(figure as never)) {
      report('unit.misfit', [...at, 'by'], `${derivation.by} gives ${article(gives)}; ${name} is in ${own}`)
    }
  }
  checkNeeds(name, figure, { pack, figures, tables }, report)
  const table = derivation.table === undefined ? undefined : tables.tables[derivation.table]
  if (!table) return
  if (!fits(table.unit as Unit, own)) {
    report('unit.misfit', [...at, 'table'], `table ${derivation.table} is in ${table.unit}; ${name} is in ${own}`)
  }
  const axes = table.axes.map((axis) => axis.name)
  for (const axis of table.axes) {
    const operand = derivation.at?.[axis.name]
    if (operand === undefined)
      report('table.axis', [...at, 'at'], `axis ${axis.name} of table ${derivation.table} is missing`)
    else checkOperand(operand, 'choices' in axis ? undefined : (axis.unit as Unit), [...at, 'at', axis.name])
  }
  for (const axis of Object.keys(derivation.at ?? {}).filter((one) => !axes.includes(one))) {
    report(
      'table.axis',
      [...at, 'at', axis],
      `table ${derivation.table} has no axis "${axis}"${didYouMean(axis, axes)}`,
    )
  }
}

/** What the calculator needs of the pack: a table, an envelope, a chord, tanks, an index formula, stations. */
function checkNeeds(name: string, figure: FigureText, { figures, tables }: Texts, report: Report): void {
  if (!figure.derived) return
  const at: Path = ['figures', name, 'derived']
  const derivation = derivationOf(figure.derived)
  const named = (what: string, given: string | undefined, known: readonly string[], path: Path): void => {
    if (given !== undefined && !known.includes(given)) {
      report(`${what}.unknown`, path, `no ${what} is called "${given}"${didYouMean(given, known)}`)
    }
  }
  const stations = Object.keys(figures.stations)
  const tanks = figures.tanks.flatMap((group) => Object.keys(group))
  for (const need of calculatorFor(derivation.by).needs ?? []) {
    switch (need) {
      case 'table':
        named('table', derivation.table, Object.keys(tables.tables), [...at, 'table'])
        break
      case 'envelope':
        named('envelope', derivation.envelope, Object.keys(figures.envelopes), [...at, 'envelope'])
        checkEnvelopeUnit(name, figure, figures, report)
        break
      case 'tank':
        named('tank', derivation.tank, tanks, [...at, 'tank'])
        break
      case 'loads':
        for (const [index, station] of (derivation.stations ?? []).entries()) {
          named('station', station, stations, [...at, 'stations', index])
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
}

function checkEnvelopeUnit(name: string, figure: FigureText, figures: FiguresText, report: Report): void {
  const envelope = figures.envelopes[derivationOf(figure.derived ?? {}).envelope ?? '']
  const own = measureOf(figure) ?? 'none'
  if (envelope && envelope.unit !== own) {
    const at: Path = ['figures', name, 'derived', 'envelope']
    report('unit.misfit', at, `the envelope is in ${envelope.unit}; ${name} is in ${own}: they must be the same`)
  }
}

function article(unit: Unit): string {
  const dimension = dimensionOf(unit)
  return `${/^[aeiou]/.test(dimension) ? 'an' : 'a'} ${dimension} (${unit})`
}

/** Envelopes and tanks: rows by rising weight or quantity, forward ahead of aft. */
function checkGround({ figures }: Texts, report: Report): void {
  for (const [name, { limits }] of Object.entries(figures.envelopes)) {
    for (const [index, row] of limits.entries()) {
      const path: Path = ['envelopes', name, 'limits', index]
      const before = limits[index - 1]
      if (before && row.weight <= before.weight) {
        report(
          'envelope.notRising',
          [...path, 'weight'],
          `weight ${row.weight} stands behind ${before.weight}; weights must rise`,
        )
      }
      if (row.forward >= row.aft)
        report('envelope.crossed', [...path, 'forward'], `forward limit ${row.forward} is not ahead of aft ${row.aft}`)
    }
  }
  for (const [group, tanks] of figures.tanks.entries()) {
    for (const [name, { arm, capacity }] of Object.entries(tanks)) {
      if (typeof arm === 'number') continue
      for (const [index, row] of arm.entries()) {
        const before = arm[index - 1]
        if (before && row.quantity <= before.quantity) {
          report(
            'tank.notRising',
            ['tanks', group, name, 'arm', index],
            `quantity ${row.quantity} stands behind ${before.quantity}; quantities must rise`,
          )
        }
      }
      const last = arm.at(-1)?.quantity ?? 0
      if (arm[0]?.quantity !== 0 || last < capacity) {
        report(
          'tank.short',
          ['tanks', group, name, 'arm'],
          `arms of ${name} go from ${arm[0]?.quantity} to ${last}; they must go from 0 to its capacity ${capacity}`,
        )
      }
    }
  }
}

function checkDeal({ pack, figures }: Texts, report: Report): void {
  const { deal } = figures
  if (!deal) return
  const check = (path: Path, given: string, known: readonly string[], what: string): void => {
    if (!known.includes(given))
      report(`${what}.unknown`, path, `no ${what} is called "${given}"${didYouMean(given, known)}`)
  }
  const names = Object.keys(figures.figures)
  for (const station of Object.keys(deal.loads))
    check(['deal', 'loads', station], station, Object.keys(figures.stations), 'station')
  for (const name of Object.keys(deal.values)) check(['deal', 'values', name], name, names, 'figure')
  for (const name of Object.keys(deal.situation))
    check(['deal', 'situation', name], name, Object.keys(pack.situations), 'situation')
  for (const [index, trap] of deal.traps.entries()) {
    check(['deal', 'traps', index, 'figure'], trap.figure, names, 'figure')
    for (const name of trap.also) check(['deal', 'traps', index, 'also'], name, names, 'figure')
  }
}

/** Figures in an order in which each comes after what it rests on; a problem for each cycle, with its names. */
export function orderOf(
  source: Source,
  figures: FiguresText,
): { readonly order: string[]; readonly problems: Problem[] } {
  const order: string[] = []
  const problems: Problem[] = []
  const done = new Set<string>()
  const open: string[] = []
  const visit = (name: string): void => {
    const begin = open.indexOf(name)
    if (begin >= 0) {
      const cycle = [...open.slice(begin), name].join(' -> ')
      const message = `these figures rest on each other: ${cycle}; one of them must be entered or derived otherwise`
      problems.push({ code: 'figure.cycle', message, place: source.place(['figures', name]), severity: 'error' })
      return
    }
    const figure = figures.figures[name]
    if (done.has(name) || !figure) return
    open.push(name)
    for (const used of figure.derived ? derivationOf(figure.derived).uses : []) visit(used)
    open.pop()
    done.add(name)
    order.push(name)
  }
  for (const name of Object.keys(figures.figures)) visit(name)
  return { order, problems }
}
