/** The tables of the author's guide that follow from the schemas: kinds, units, calculators, and every key of every file. */

import type { z } from 'zod'
import type { Calculator } from '../kernel/figures/calculator.ts'
import { CALCULATORS } from '../kernel/figures/calculators.ts'
import type { Field } from '../kernel/kinds/fields.ts'
import { type Figure, KIND_NAMES, KINDS, type KindName } from '../kernel/kinds/kind.ts'
import { sayValue } from '../kernel/kinds/table.ts'
import { dimensionOf, UNIT_NAMES } from '../kernel/units.ts'
import { SCHEMAS } from '../packs/schema.ts'
import { MARKS } from '../packs/shapeKeys.ts'

export const GUIDE_TABLES: Readonly<Record<string, () => string>> = {
  kinds: kindsTable,
  units: unitsTable,
  calculators: calculatorsTable,
  keys: keysTable,
}

function table(head: readonly string[], rows: readonly (readonly string[])[]): string {
  const line = (cells: readonly string[]) => `| ${cells.join(' | ')} |`
  return [line(head), line(head.map(() => '---')), ...rows.map(line)].join('\n')
}

const code = (text: string) => `\`${text}\``
const list = (texts: readonly string[]) => texts.map(code).join(', ')

/** A value of each kind, to be said aloud. */
const SAMPLES: { readonly [K in KindName]: Extract<Figure, { kind: K }> } = {
  decimal: { kind: 'decimal', decimals: 1, value: 26.4 },
  trim: { kind: 'trim', decimals: 1, value: 5.2 },
  integer: { kind: 'integer', value: 42 },
  speed: { kind: 'speed', value: 128 },
  mach: { kind: 'mach', value: 0.78 },
  weight: { kind: 'weight', unit: 'kg', value: 8400 },
  temperature: { kind: 'temperature', unit: 'C', value: -5 },
  digits: { kind: 'digits', length: 4, value: '4271' },
  altimeter: { kind: 'altimeter', unit: 'hPa', value: 1013 },
  heading: { kind: 'heading', value: 89 },
  runway: { kind: 'runway', value: '27L' },
  altitude: { kind: 'altitude', value: 5000 },
  flightLevel: { kind: 'flightLevel', value: 350 },
  frequency: { kind: 'frequency', value: 118.1 },
  time: { kind: 'time', value: '1435' },
  identifier: { kind: 'identifier', value: 'A3' },
  callsign: { kind: 'callsign', value: 'TIDEWICK 421', telephony: ['Tidewick'] },
  wind: { kind: 'wind', value: '240/12G25' },
  route: { kind: 'route', value: 'A3 B C1' },
  choice: { kind: 'choice', value: '5', options: { '5': ['five'], up: ['up', 'zero'] } },
}

function kindsTable(): string {
  const rows = KIND_NAMES.map((kind) => {
    const sample = SAMPLES[kind]
    const value = typeof sample.value === 'number' ? String(sample.value) : `"${sample.value}"`
    return [code(kind), fieldsOf(kind), unitOf(kind), code(value), sayValue(sample, 'plain')]
  })
  return table(['kind', 'its own fields (needed ones bold)', 'unit', 'a value', 'said, among others'], rows)
}

function fieldsOf(kind: KindName): string {
  const fields: readonly (readonly [string, Field])[] = Object.entries(KINDS[kind].fields)
  return fields
    .filter(([name]) => name !== 'unit' || !isUnitOpen(kind))
    .map(([name, field]) => {
      const values = field.type === 'oneOf' ? ` (${field.values.join(', ')})` : ''
      const isNeeded = !field.optional && !(kind === 'weight' && name === 'unit')
      return `${isNeeded ? `**${code(name)}**` : code(name)}${values}`
    })
    .join(', ')
}

function isUnitOpen(kind: KindName): boolean {
  const definition = KINDS[kind]
  return definition.values === 'numbers' && typeof definition.measure === 'object'
}

function unitOf(kind: KindName): string {
  const definition = KINDS[kind]
  if (definition.values === 'text') return 'text'
  if (typeof definition.measure === 'object') return 'any'
  if (kind === 'weight') return "the pack's, or its own"
  return definition.measure === 'unitOfSpec' ? 'its own' : code(definition.measure)
}

function unitsTable(): string {
  const dimensions = [...new Set(UNIT_NAMES.map(dimensionOf))]
  const rows = dimensions.map((dimension) => [
    dimension,
    list(UNIT_NAMES.filter((unit) => dimensionOf(unit) === dimension)),
  ])
  return table(['what it measures', 'units'], rows)
}

const NEEDS: Readonly<Record<NonNullable<Calculator['needs']>[number], string>> = {
  table: '`table`, `at`',
  envelope: '`envelope`',
  tank: '`tank`',
  loads: '`stations` (all, if left out)',
  mac: '`mac` of the pack',
  index: '`index` of the pack',
  tanks: '`tanks` of the pack',
}

function calculatorsTable(): string {
  const rows = Object.entries(CALCULATORS).map(([name, { about, takes, needs = [], gives }]) => {
    const operands = Object.entries(takes).map(([parameter, { optional, many }]) => {
      return `${optional ? code(parameter) : `**${code(parameter)}**`}${many ? ' (a list)' : ''}`
    })
    return [
      code(name),
      [...operands, ...needs.map((need) => NEEDS[need])].join(', '),
      GIVES[gives] ?? code(gives),
      about,
    ]
  })
  return table(['`by`', 'takes (needed ones bold)', 'gives', 'which is'], rows)
}

const GIVES: Readonly<Record<string, string>> = {
  any: "the table's unit",
  same: "the figure's own unit",
  none: 'a plain number',
  arm: 'an arm',
  weight: 'a weight',
  moment: 'a moment',
}

type Schema = z.core.$ZodType

interface Def {
  readonly type: string
  readonly innerType?: Schema
  readonly options?: readonly Schema[]
  readonly element?: Schema
  readonly valueType?: Schema
  readonly shape?: Readonly<Record<string, Schema>>
  readonly entries?: Readonly<Record<string, string>>
  readonly discriminator?: string
}
const defOf = (schema: Schema) => schema._zod.def as unknown as Def

/** What stands in front of an optional thing. */
function unwrapped(schema: Schema): Schema {
  const { innerType } = defOf(schema)
  return innerType ? unwrapped(innerType) : schema
}

function keysTable(): string {
  const rows = Object.entries(SCHEMAS).flatMap(([file, schema]) => {
    const found: [string, string][] = []
    collect(schema, '', found)
    return found.map(([where, keys]) => [code(file), where === '' ? '' : code(where), keys])
  })
  return table(['file', 'in', 'keys (needed ones bold)'], rows)
}

/** Each set of names in a schema with where it stands: `situations.NAME`, `item`, `watch.calls`. */
function collect(schema: Schema, where: string, found: [string, string][]): void {
  const { type, shape, element, valueType, options, discriminator } = defOf(unwrapped(schema))
  const inside = (name: string) => (where === '' ? name : `${where}.${name}`)
  if (element) collect(element, where, found)
  else if (valueType) collect(valueType, inside('NAME'), found)
  else if (type === 'union' && discriminator) collectKinds(options ?? [], discriminator, where, found)
  else if (type === 'union') for (const option of options ?? []) collect(option, where, found)
  else if (shape) {
    const mark = MARKS.find(
      (one) => shape[one] && defOf(unwrapped(shape[one])).type === 'string' && isNeeded(shape[one]),
    )
    // Papers have headings too.
    const own = where.startsWith('papers.') ? where : (mark ?? where)
    found.push([own, keysOf(shape)])
    // A condition may hold conditions without end; the guide tells it in words.
    for (const [key, inner] of Object.entries(shape)) {
      if (key !== 'when') collect(inner, own === '' ? key : `${own}.${key}`, found)
    }
  }
}

/** Of shapes told apart by a word, what they have in common. */
function collectKinds(options: readonly Schema[], word: string, where: string, found: [string, string][]): void {
  const shapes = options.map((option) => defOf(option).shape ?? {})
  const [first = {}] = shapes
  const common = Object.fromEntries(Object.entries(first).filter(([key]) => shapes.every((shape) => key in shape)))
  const more = word === 'by' ? 'and what its calculator takes' : 'and the fields of its kind'
  found.push([where, `${keysOf(common)}, ${more}`])
  for (const [key, inner] of Object.entries(common)) {
    if (key !== word && key !== 'when') collect(inner, `${where}.${key}`, found)
  }
}

const isNeeded = (schema: Schema) => !['optional', 'default'].includes(defOf(schema).type)

function keysOf(shape: Readonly<Record<string, Schema>>): string {
  return Object.entries(shape)
    .map(([key, schema]) => {
      const { type, entries } = defOf(unwrapped(schema))
      const values =
        type === 'enum' && entries && Object.keys(entries).length < 8 ? ` (${Object.values(entries).join(', ')})` : ''
      return `${isNeeded(schema) ? `**${code(key)}**` : code(key)}${values}`
    })
    .join(', ')
}

const place = (name: string) => [`<!-- ${name}: made by npm run guide -->`, `<!-- end of ${name} -->`] as const

/** The guide with its tables as they should be; throws where it has no place for one. */
export function withTables(guide: string): string {
  return Object.entries(GUIDE_TABLES).reduce((text, [name, make]) => {
    const [begin, end] = place(name)
    const [from, to] = [text.indexOf(begin), text.indexOf(end)]
    if (from < 0 || to < from) throw new Error(`the guide has no ${begin} with an ${end} behind it`)
    return `${text.slice(0, from + begin.length)}\n\n${make()}\n\n${text.slice(to)}`
  }, guide)
}
