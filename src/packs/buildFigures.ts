/** figures.yaml and tables.yaml in their shape -> the figures as the kernel knows them. Names are checked in `checkFigures.ts`. */

import type {
  Basis,
  DealRules,
  Derivation,
  FigureDeclaration,
  FigureModel,
  Operand,
  Table,
} from '../kernel/figures/pack.ts'
import { KINDS, type KindSpec } from '../kernel/kinds/kind.ts'
import { showUnit, type Unit } from '../kernel/units.ts'
import type { FiguresText, FigureText } from './figuresSchema.ts'
import type { PackText } from './packSchema.ts'
import { present } from './present.ts'
import type { TablesText } from './tablesSchema.ts'

/** The unit in which a figure is entered and computed; none for text. */
export function measureOf(figure: FigureText): Unit | undefined {
  const kind = KINDS[figure.kind]
  if (kind.values === 'text') return undefined
  return typeof kind.measure === 'object' || kind.measure === 'unitOfSpec' ? figure.unit : kind.measure
}

/** What of a figure is its kind's; of a unit that the pack may choose only what is spoken. */
export function specOf(figure: FigureText): KindSpec {
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
const NOT_OPERANDS = new Set(['by', 'table', 'at', 'envelope', 'stations', 'tank'])

export function derivationOf(derived: Readonly<Record<string, unknown>>): Derivation {
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

function declarationOf(name: string, figure: FigureText): FigureDeclaration {
  const { label, alsoCalled, accept, entered, given, constant, derived, round, limits, gross, stated } = figure
  const measure = measureOf(figure)
  return present({
    name,
    label,
    spec: specOf(figure),
    accept: accept && present(accept),
    unit: measure && showUnit(measure),
    measure,
    alsoCalled,
    input: entered !== undefined || given !== undefined,
    group: entered?.group ?? given?.group,
    required: given ? false : entered?.required,
    given: given?.from,
    later: entered?.later && present(entered.later),
    constant,
    derived: derived && derivationOf(derived),
    round,
    plausible: entered?.plausible && present(entered.plausible),
    limits: limits && present(limits),
    gross,
    stated: stated && present(stated),
  })
}

function tableOf(name: string, text: TablesText['tables'][string]): Table {
  const axes = text.axes.map((axis) => {
    const label = axis.label ?? axis.name
    return 'choices' in axis
      ? { name: axis.name, label, choices: axis.choices }
      : { name: axis.name, label, unit: axis.unit as Unit, at: axis.at }
  })
  return {
    name,
    label: text.label,
    unit: text.unit as Unit,
    axes,
    cells: (text.cells as unknown[]).flat(3) as number[],
  }
}

/** `order` comes from the check for cycles. */
export function figureModel(
  pack: PackText,
  figures: FiguresText,
  tables: TablesText,
  order: readonly string[],
): FigureModel {
  const map = <T, R>(entries: Readonly<Record<string, T>>, make: (name: string, entry: T) => R): Record<string, R> =>
    Object.fromEntries(Object.entries(entries).map(([name, entry]) => [name, make(name, entry)]))
  const basis: Basis = present({
    order,
    units: pack.units,
    mac: figures.mac,
    tables: map(tables.tables, tableOf),
    envelopes: map(figures.envelopes, (name, { label, unit, limits }) => ({ name, label, unit: unit as Unit, limits })),
    tanks: figures.tanks.map((group) =>
      Object.entries(group).map(([name, { label, capacity, arm }]) => {
        return { name, label, capacity, arms: typeof arm === 'number' ? [{ quantity: 0, arm }] : arm }
      }),
    ),
    index: figures.index,
    lastMinute: figures.lastMinute,
    deal:
      figures.deal && ({ ...figures.deal, traps: figures.deal.traps.map((trap) => present(trap)) } satisfies DealRules),
  })
  return {
    declarations: map(figures.figures, declarationOf),
    stations: Object.entries(figures.stations).map(([name, station]) => present({ name, ...station })),
    basis,
  }
}
