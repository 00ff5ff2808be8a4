/** figures.yaml and tables.yaml in their shape -> the figures as the kernel knows them. Names are checked in `checkFigures.ts`. */

import { namesIn } from '../kernel/figures/condition.ts'
import type {
  Axis,
  Basis,
  DealRange,
  DealRules,
  DealTrap,
  Derivation,
  Envelope,
  FigureDeclaration,
  FigureModel,
  GivenRule,
  LaterRule,
  Operand,
  Station,
  Table,
  Tank,
} from '../kernel/figures/pack.ts'
import { CASES } from '../kernel/figures/pack.ts'
import { type Accept, KINDS, type KindName, type KindSpec } from '../kernel/kinds/kind.ts'
import type { Rounding } from '../kernel/numbers/rounding.ts'
import { showUnit, type Unit } from '../kernel/units.ts'
import { conditionOf } from './conditions.ts'
import type { FiguresText, FigureText } from './figuresSchema.ts'
import type { PackText } from './packSchema.ts'
import { exactly, nothingMore, present } from './present.ts'
import type { TablesText } from './tablesSchema.ts'

/** The unit in which a figure is entered and computed; none for text. */
export function measureOf(figure: FigureText): Unit | undefined {
  const kind = KINDS[figure.kind]
  if (kind.values === 'text') return undefined
  return typeof kind.measure === 'object' || kind.measure === 'unitOfSpec' ? figure.unit : kind.measure
}

/** The fields that a figure has from its kind; a unit that the pack may choose counts only where it is spoken. */
export function specOf(figure: { readonly kind: KindName }): KindSpec {
  const kind = KINDS[figure.kind]
  const names = new Set(['kind', ...Object.keys(kind.fields)])
  const spec = Object.fromEntries(
    Object.entries(figure).filter(([name, value]) => names.has(name) && value !== undefined),
  )
  if (kind.values === 'text' || typeof kind.measure !== 'object') return spec as unknown as KindSpec
  const { unit, ...rest } = spec
  return { ...rest, ...kind.measure.said(unit as Unit) } as KindSpec
}

/** Keys of a derivation that are not operands. */
const NOT_OPERANDS = new Set(['by', 'when', 'table', 'at', 'envelope', 'stations', 'tank'])

/** Of cases each with its condition, by the names that they all use. */
export function derivationOf(derived: DerivedText): Derivation {
  if (!Array.isArray(derived)) return oneDerivation(derived as OneDerived)
  const cases = derived.map((one) => present({ when: conditionOf(one.when), derivation: oneDerivation(one) }))
  const named = cases.flatMap(({ when, derivation }) => [...namesIn(when), ...derivation.uses])
  return { by: CASES, takes: {}, uses: [...new Set(named)], cases }
}

export type DerivedText = NonNullable<FigureText['derived']>
type OneDerived = Exclude<DerivedText, readonly unknown[]>

function oneDerivation(derived: OneDerived): Derivation {
  const entries = Object.entries(derived).filter(([key, value]) => !NOT_OPERANDS.has(key) && value !== undefined)
  const takes = Object.fromEntries(entries) as Record<string, Operand | readonly Operand[]>
  const { by, table, envelope, stations, tank } = derived
  const at = derived.at as Record<string, Operand> | undefined
  const operands = [...Object.values(takes).flat(), ...Object.values(at ?? {})] as Operand[]
  return present({
    by: String(by),
    takes,
    uses: [...new Set(operands.filter((operand) => typeof operand === 'string'))],
    table: table as string | undefined,
    at,
    envelope: envelope as string | undefined,
    stations: stations as string[] | undefined,
    tank: tank as string | undefined,
  })
}

const asDeclaration = exactly<FigureDeclaration>()
const asOfKind = exactly<KindSpec | { readonly unit?: Unit }>()
const asAccept = exactly<Accept>()
const asBand = exactly<NonNullable<FigureDeclaration['plausible']>>()
const asLimit = exactly<NonNullable<FigureDeclaration['limits']>>()
const asRead = exactly<NonNullable<FigureDeclaration['read']>>()
const asRounding = exactly<Rounding>()
const asStated = exactly<NonNullable<FigureDeclaration['stated']>>()
const asLater = exactly<LaterRule>()

function declarationOf(name: string, figure: FigureText): FigureDeclaration {
  const { label, alsoCalled, constant, gross, ownFirst, ...rest } = figure
  const { accept, entered, given, derived, read, round, limits, stated, ...ofKind } = rest
  const measure = measureOf(figure)
  return asDeclaration({
    ...{ name, label, alsoCalled, constant, gross, ownFirst, measure },
    spec: specOf(asOfKind(ofKind)),
    unit: measure && showUnit(measure),
    input: entered !== undefined || given !== undefined,
    ...(entered && enteredOf(entered, figure.kind === 'altimeter' ? measure : undefined)),
    ...(given && givenOf(given)),
    accept: accept && asAccept(accept),
    derived: derived && derivationOf(derived),
    read: read && asRead(read),
    round: round && asRounding(round),
    limits: limits && asLimit(limits),
    stated: stated && asStated(stated),
  })
}

/**
 * Altimeter settings that are usual where the author does not say: nobody enters hectopascals in a field of inches. Just beyond the
 * lowest and highest pressures at sea level on record (870 and 1084 hPa, from memory).
 */
const USUAL: Readonly<Partial<Record<Unit, NonNullable<FigureDeclaration['plausible']>>>> = {
  hPa: { min: 850, max: 1090 },
  inHg: { min: 25, max: 32.2 },
}

function enteredOf(
  { group, required, plausible, later, ...rest }: NonNullable<FigureText['entered']>,
  altimeterUnit: Unit | undefined,
) {
  nothingMore(rest)
  const usual = plausible ? asBand(plausible) : altimeterUnit && USUAL[altimeterUnit]
  return { group, required, plausible: usual, later: later && asLater(later) }
}

const asRange = exactly<DealRange>()
const asBy = exactly<Extract<GivenRule, { by: string }>>()

/** What a station gives may be left out by a person. */
function givenOf({ group, from, ...rest }: NonNullable<FigureText['given']>) {
  nothingMore(rest)
  const given: GivenRule = Array.isArray(from) ? from : 'by' in from ? asBy(from) : asRange(from)
  return { group, given, required: false }
}

const asTable = exactly<Table>()
const asAxis = exactly<Axis>()

/** `trend` is what `checkTables.ts` holds the cells against; nothing is computed with it. */
function tableOf(name: string, { trend: _, unit, axes, cells, ...same }: TablesText['tables'][string]): Table {
  return asTable({
    name,
    unit: unit as Unit,
    axes: axes.map(axisOf),
    // "---" is no number.
    cells: (cells as unknown[]).flat(3).map(Number),
    ...same,
  })
}

function axisOf(text: TablesText['tables'][string]['axes'][number]): Axis {
  const label = text.label ?? text.name
  return 'choices' in text ? asAxis({ ...text, label }) : asAxis({ ...text, label, unit: text.unit as Unit })
}

const asEnvelope = exactly<Envelope>()
const asLimits = exactly<Envelope['limits'][number]>()

function envelopeOf(name: string, { unit, limits, ...same }: FiguresText['envelopes'][string]): Envelope {
  return asEnvelope({ name, unit: unit as Unit, limits: limits.map((row) => asLimits(row)), ...same })
}

const asTank = exactly<Tank>()
const asArm = exactly<Tank['arms'][number]>()

function tankOf(name: string, { arm, ...same }: FiguresText['tanks'][number][string]): Tank {
  const arms = typeof arm === 'number' ? [{ quantity: 0, arm }] : arm.map((row) => asArm(row))
  return asTank({ name, arms, ...same })
}

const asDeal = exactly<DealRules>()
const asTrap = exactly<DealTrap>()

function dealOf({ loads, values, traps, ...same }: NonNullable<FiguresText['deal']>): DealRules {
  return asDeal({
    loads: mapped(loads, (_, range) => asRange(range)),
    values: mapped(values, (_, from) => (Array.isArray(from) ? from : asRange(from))),
    traps: traps.map((trap) => asTrap(trap)),
    ...same,
  })
}

const asBasis = exactly<Basis>()
const asUnits = exactly<Basis['units']>()
const asMac = exactly<NonNullable<Basis['mac']>>()
const asIndex = exactly<NonNullable<Basis['index']>>()
const asLastMinute = exactly<NonNullable<Basis['lastMinute']>>()
const asStation = exactly<Station>()

/** `order` comes from the check for cycles. */
export function figureModel(
  pack: PackText,
  text: FiguresText,
  { tables, ...more }: TablesText,
  order: readonly string[],
): FigureModel {
  const { figures, stations, mac, index, lastMinute, envelopes, tanks, orders, deal, ...rest } = text
  nothingMore(rest)
  nothingMore(more)
  return {
    declarations: mapped(figures, declarationOf),
    stations: Object.entries(stations).map(([name, station]) => asStation({ name, ...station })),
    basis: asBasis({
      order,
      orders,
      units: asUnits(pack.units),
      mac: mac && asMac(mac),
      index: index && asIndex(index),
      lastMinute: lastMinute && asLastMinute(lastMinute),
      tables: mapped(tables, tableOf),
      envelopes: mapped(envelopes, envelopeOf),
      tanks: tanks.map((group) => Object.entries(group).map(([name, tank]) => tankOf(name, tank))),
      deal: deal && dealOf(deal),
      initially: Object.fromEntries(Object.entries(pack.situations).map(([name, { initial }]) => [name, initial])),
    }),
  }
}

function mapped<T, R>(entries: Readonly<Record<string, T>>, make: (name: string, entry: T) => R): Record<string, R> {
  return Object.fromEntries(Object.entries(entries).map(([name, entry]) => [name, make(name, entry)]))
}
