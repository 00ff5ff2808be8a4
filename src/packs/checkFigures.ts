/** Whether a pack's figures hold together: every origin is clear, limits lie the right way round, no figure rests on itself. */

import { valueProblems } from '../kernel/figures/entered.ts'
import { COMPUTED, ENTERED } from '../kernel/figures/sources.ts'
import { KINDS, kindOf, type Value } from '../kernel/kinds/kind.ts'
import { ownOf } from '../kernel/own.ts'
import type { Problem } from '../kernel/problem.ts'
import { quoted } from '../kernel/quoted.ts'
import { fits, type Unit } from '../kernel/units.ts'
import { measureOf, specOf } from './buildFigures.ts'
import { checkDerived, misfitsOf, type Texts } from './checkDerived.ts'
import type { FiguresText, FigureText } from './figuresSchema.ts'
import { didYouMean } from './nearest.ts'
import { readOnly } from './readOnly.ts'
import { type Report, reporting } from './reporting.ts'
import type { Path, Source } from './source.ts'

export function checkFigures(source: Source, texts: Texts): Problem[] {
  const problems: Problem[] = []
  const report = reporting(source, problems)
  const misfits = misfitsOf(texts)
  for (const [name, figure] of Object.entries(texts.figures.figures)) {
    checkOrigin(name, figure, report)
    checkBands(name, figure, report)
    checkLimits(name, figure, texts, report)
    const spec = specOf(figure)
    const fault = kindOf(spec).specFault?.(spec)
    if (fault) report('figure.spec', ['figures', name, fault.field], `${name} should have ${fault.should}`)
    checkFrom(name, figure, texts, report)
    checkLater(name, figure, report)
    checkRead(name, figure, texts, report)
    checkDerived(name, figure, texts, report, misfits)
  }
  checkOrders(texts, report)
  checkGround(texts, report)
  checkDeal(texts, report)
  return problems
}

function checkOrigin(name: string, figure: FigureText, report: Report): void {
  const at: Path = ['figures', name]
  const origins = [figure.entered, figure.given, figure.read, figure.constant, figure.derived].filter(
    (origin) => origin !== undefined,
  )
  if (origins.length === 0) {
    report('figure.noOrigin', at, `${name} has no value; say entered, given, read, constant or derived`)
  } else if (origins.length > 1) {
    report(
      'figure.twoOrigins',
      at,
      `${name} has more than one of entered, given, read, constant, derived; to compare sources use one of them with stated`,
    )
  } else if (figure.stated) checkStated(name, figure, report)
}

/** Something to compare with, and how far numbers may be apart. */
function checkStated(name: string, figure: FigureText, report: Report): void {
  const at: Path = ['figures', name, 'stated']
  const { sources = [], tolerance } = figure.stated ?? {}
  if (!figure.derived && !figure.entered && !figure.given) {
    report(
      'figure.stated',
      at,
      `${name} is stated by sources but neither derived, entered nor given; there is nothing to compare`,
    )
  }
  const isNumber = measureOf(figure) !== undefined
  if (isNumber && tolerance === undefined) {
    report('figure.stated', at, `${name} has no tolerance; say how far apart its sources may be, 0 for not at all`)
  }
  if (!isNumber && tolerance !== undefined) {
    report('figure.stated', [...at, 'tolerance'], `${name} is text and is compared exactly; leave tolerance out`)
  }
  for (const [index, source] of sources.entries()) {
    if (![COMPUTED, ENTERED].includes(source)) continue
    report(
      'figure.stated',
      [...at, 'sources', index],
      `${quoted(source)} is our own value; name who else states ${name}`,
    )
  }
}

/** Scales and bands the right way round; a constant that its kind can hold. */
function checkBands(name: string, figure: FigureText, report: Report): void {
  const bands = { accept: figure.accept, plausible: figure.entered?.plausible, scale: figure }
  for (const [key, band] of Object.entries(bands)) {
    const { min, max } = (band ?? {}) as { min?: number; max?: number }
    if (min !== undefined && max !== undefined && min > max) {
      const path = key === 'scale' ? ['min'] : key === 'plausible' ? ['entered', 'plausible'] : [key]
      report('figure.band', ['figures', name, ...path], `${name}: min ${min} is above max ${max}`)
    }
  }
  const { constant, accept } = figure
  if (constant === undefined) return
  checkValue(name, figure, constant, ['constant'], report)
  const { min = -Infinity, max = Infinity } = accept ?? {}
  if (typeof constant !== 'number' || min > max || (constant >= min && constant <= max)) return
  const ends = [accept?.min === undefined ? '' : `from ${min}`, accept?.max === undefined ? '' : `to ${max}`]
  const message = `${name}: the constant ${constant} is itself not accepted; accept goes ${ends.join(' ').trim()}`
  report('figure.accept', ['figures', name, 'constant'], message)
}

/** Each limit that is a figure is one of a unit that fits; of those that are numbers the least is below the most. */
function checkLimits(name: string, figure: FigureText, { figures }: Texts, report: Report): void {
  const { limits } = figure
  if (!limits) return
  const at: Path = ['figures', name, 'limits']
  const measure = measureOf(figure)
  const numbers = (bound: 'min' | 'max') => [limits[bound] ?? []].flat().filter((one) => typeof one === 'number')
  const [min, max] = [Math.max(...numbers('min')), Math.min(...numbers('max'))]
  if (min > max) report('figure.band', [...at, 'min'], `${name}: min ${min} is above max ${max}`)
  for (const bound of ['min', 'max'] as const) {
    const given = limits[bound]
    for (const [index, operand] of [given ?? []].flat().entries()) {
      if (typeof operand !== 'string') continue
      const path: Path = Array.isArray(given) ? [...at, bound, index] : [...at, bound]
      const other = ownOf(figures.figures, operand)
      const known = () => Object.keys(figures.figures)
      const unit = other && measureOf(other)
      if (!other) report('figure.unknown', path, `no figure is called ${quoted(operand)}`, { name: operand, known })
      else if (other.read) report('read.limit', path, readOnly(operand, 'it cannot limit another figure'))
      else if (!measure || !unit || !fits(unit, measure)) {
        report('unit.misfit', path, `${operand} is in ${unit ?? 'words'}; it cannot limit ${name}`)
      }
    }
  }
}

/** `at`: where the path begins. */
function checkValue(
  name: string,
  figure: FigureText,
  value: Value,
  path: Path,
  report: Report,
  at: Path = ['figures', name],
): void {
  const { label } = figure
  const measure = measureOf(figure)
  const declaration = { name, label, spec: specOf(figure), ...(measure && { measure }), alsoCalled: [], input: false }
  for (const { code, message } of valueProblems(declaration, value)) report(code, [...at, ...path], message)
}

/** Only a number can move by steps. */
function checkLater(name: string, figure: FigureText, report: Report): void {
  const { later } = figure.entered ?? {}
  if (!later) return
  const at: Path = ['figures', name, 'entered', 'later']
  if (measureOf(figure) === undefined) {
    report(
      'later.noNumber',
      at,
      `${name} (${figure.kind}) is no number; only a number can have a later value so far away`,
    )
  } else if (later.most < later.step) {
    report('figure.band', [...at, 'most'], `${name}: most ${later.most} is below one step, ${later.step}`)
  }
  // A later value above every value there may be would never be said.
  const tops = [(figure as { max?: number }).max, figure.entered?.plausible?.max].filter((one) => one !== undefined)
  const top = Math.min(...tops)
  if (later.min === undefined || later.min <= top) return
  const message = `${name}: min ${later.min} is above ${top}, the most it may be; no later value is left`
  report('figure.band', [...at, 'min'], message)
}

/** What has a value only, and a reading has none. */
const OF_VALUES = ['accept', 'round', 'limits', 'gross', 'ownFirst', 'stated'] as const

/** A reading: one value of its kind, with ends that it can lie between. */
function checkRead(name: string, figure: FigureText, { figures }: Texts, report: Report): void {
  const { read } = figure
  if (!read) return
  const at: Path = ['figures', name]
  for (const key of OF_VALUES) {
    if (figure[key] === undefined) continue
    report(
      'read.value',
      [...at, key],
      `${name} is read off a gauge and has no value; where it must lie stands in read: {min, max}`,
    )
  }
  if (kindOf(specOf(figure)).match) {
    report(
      'read.kind',
      [...at, 'kind'],
      `${name} (${figure.kind}) is no reading of a gauge; use a number, a time, digits, a heading, a runway or a choice`,
    )
  }
  const measure = measureOf(figure)
  for (const end of ['min', 'max'] as const) {
    const limit = read[end]
    if (limit === undefined) continue
    const path: Path = [...at, 'read', end]
    if (measure === undefined)
      report('read.text', path, `${name} (${figure.kind}) is no number; nothing is above or below it`)
    else if (typeof limit === 'number') checkValue(name, figure, limit, ['read', end], report)
    else checkReadLimit(name, measure, limit, figures.figures, path, report)
  }
  const { min, max } = read
  if (typeof min === 'number' && typeof max === 'number' && min > max) {
    report('figure.band', [...at, 'read', 'min'], `${name}: min ${min} is above max ${max}`)
  }
}

function checkReadLimit(
  name: string,
  measure: Unit,
  limit: string,
  figures: FiguresText['figures'],
  path: Path,
  report: Report,
): void {
  const other = ownOf(figures, limit)
  const unit = other && measureOf(other)
  if (!other) {
    report('figure.unknown', path, `no figure is called ${quoted(limit)}`, {
      name: limit,
      known: () => Object.keys(figures),
    })
  } else if (other.read) report('read.limit', path, readOnly(limit, 'it cannot limit another figure'))
  else if (!unit || !fits(unit, measure)) {
    report('unit.misfit', path, `${limit} is in ${unit ?? 'words'}; it cannot limit ${name}`)
  }
}

/** What a station may give: each of it a value that the kind can hold, and one for every case. */
function checkFrom(name: string, figure: FigureText, { figures }: Texts, report: Report): void {
  if (!figure.given) return
  const { from } = figure.given
  const at: Path = ['given', 'from']
  const each = (values: readonly Value[], path: Path): void => {
    for (const [index, value] of values.entries()) checkValue(name, figure, value, [...path, index], report)
  }
  if (Array.isArray(from)) {
    each(from, at)
    return
  }
  if ('min' in from) {
    const { min, max } = from
    if (min > max) report('figure.band', ['figures', name, ...at, 'min'], `${name}: min ${min} is above max ${max}`)
    else for (const end of ['min', 'max'] as const) checkValue(name, figure, from[end], [...at, end], report)
    return
  }
  const other = ownOf(figures.figures, from.by)
  if (!other) {
    const meant = { name: from.by, known: () => Object.keys(figures.figures) }
    report('figure.unknown', ['figures', name, ...at, 'by'], `no figure is called ${quoted(from.by)}`, meant)
  }
  for (const [value, values] of Object.entries(from.of)) {
    const path: Path = [...at, 'of', value]
    if (other) checkValue(from.by, other, KINDS[other.kind].values === 'text' ? value : Number(value), path, report)
    each(values, path)
  }
}

/** Figures that are compared with each other: numbers in one unit, each once. */
function checkOrders({ figures }: Texts, report: Report): void {
  for (const [index, order] of figures.orders.entries()) {
    for (const [place, name] of order.entries()) {
      const at: Path = ['orders', index, place]
      const figure = ownOf(figures.figures, name)
      if (!figure) {
        const meant = { name, known: () => Object.keys(figures.figures) }
        report('figure.unknown', at, `no figure is called ${quoted(name)}`, meant)
        continue
      }
      const first = ownOf(figures.figures, order[0] ?? '')
      if (figure.read) report('read.order', at, readOnly(name, 'it has no order'))
      else if (KINDS[figure.kind].values !== 'numbers')
        report('order.text', at, `${name} is no number; it has no order`)
      else if (first && measureOf(first) !== measureOf(figure)) {
        report('order.unit', at, `${name} has another unit than ${order[0]}; they cannot be compared`)
      }
      if (order.indexOf(name) !== place) report('order.twice', at, `${name} stands in this order already`)
    }
  }
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
      report(`${what}.unknown`, path, `no ${what} is called ${quoted(given)}`, { name: given, known: () => known })
  }
  const names = Object.keys(figures.figures)
  for (const station of Object.keys(deal.loads))
    check(['deal', 'loads', station], station, Object.keys(figures.stations), 'station')
  for (const name of Object.keys(deal.values)) check(['deal', 'values', name], name, names, 'figure')
  for (const name of Object.keys(deal.situation))
    check(['deal', 'situation', name], name, Object.keys(pack.situations), 'situation')
  for (const name of Object.keys(deal.atLeast)) check(['deal', 'atLeast', name], name, names, 'figure')
  for (const [part, ranges] of Object.entries({ loads: deal.loads, values: deal.values })) {
    for (const [name, range] of Object.entries(ranges)) {
      if (Array.isArray(range) || range.min <= range.max) continue
      report('figure.band', ['deal', part, name], `${name}: min ${range.min} is above max ${range.max}`)
    }
  }
  for (const [name, values] of Object.entries(deal.values)) {
    const figure = ownOf(figures.figures, name)
    if (!figure || !Array.isArray(values)) continue
    const at: Path = ['deal', 'values', name]
    for (const [index, value] of values.entries()) checkValue(name, figure, value, [index], report, at)
  }
  for (const [index, trap] of deal.traps.entries()) {
    check(['deal', 'traps', index, 'figure'], trap.figure, names, 'figure')
    for (const name of trap.also) check(['deal', 'traps', index, 'also'], name, names, 'figure')
    checkTrapSource(figures, index, report)
  }
}

/** A sheet that is wrong or old must be one that may state the figure. */
function checkTrapSource({ figures, deal }: FiguresText, index: number, report: Report): void {
  const trap = deal?.traps[index]
  if (trap?.kind !== 'wrongTotal' && trap?.kind !== 'oldSheet') return
  const known = figures[trap.figure]?.stated?.sources ?? []
  if (trap.source !== undefined && known.includes(trap.source)) return
  const given = trap.source === undefined ? 'needs a source' : `has no source ${quoted(trap.source)}`
  const message = `the trap of ${trap.figure} ${given}${didYouMean(trap.source ?? '', known)}`
  report('source.unknown', ['deal', 'traps', index], message)
}
