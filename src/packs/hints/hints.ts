/**
 * What may be written at a place of a pack's file, and what the word there means: from the same schema that the pack is
 * checked by, and from the names that the pack has given.
 */

import { ownOf } from '../../kernel/own.ts'
import type { PackTexts } from '../files/parts.ts'
import type { Path } from '../source.ts'
import { type Named, type Names, namesIn } from './names.ts'
import { type JsonSchema, optionsOf, schemaOf, schemasAt } from './schemaAt.ts'
import { type Spot, spotsAt } from './spot.ts'

export interface Hint {
  /** As it is written. */
  readonly text: string
  readonly role: Spot['role']
  /** What it is, in a few words; may be empty. */
  readonly about: string
  readonly isNeeded: boolean
}

export interface Hints {
  /** What is written already, as offsets. */
  readonly from: number
  readonly to: number
  readonly hints: readonly Hint[]
}

export interface Help extends Hint {
  readonly from: number
  readonly to: number
  /** What may stand behind it: "one of kg, lb". */
  readonly takes: string
}

/** `files`: the whole pack, `file` as it is being written. */
export function hintsAt(files: PackTexts, file: string, offset: number): Hints | undefined {
  const root = schemaOf(file)
  if (!root) return undefined
  const names = namesIn(files)
  for (const spot of spotsAt(files[file] ?? '', offset)) {
    const hints = hintsOf(root, spot, names)
    if (hints.length > 0) return { from: spot.from, to: spot.to, hints }
  }
  return undefined
}

/** Of the word at an offset; undefined where nothing is known of it. */
export function helpAt(files: PackTexts, file: string, offset: number): Help | undefined {
  const root = schemaOf(file)
  if (!root) return undefined
  for (const spot of spotsAt(files[file] ?? '', offset)) {
    const { from, to, written, path, data } = spot
    const hint = hintsOf(root, spot, namesIn(files)).find(({ text }) => text === written)
    if (!hint) continue
    const takes = spot.role === 'key' ? takesOf(schemasAt(root, [...path, written], data)) : ''
    return { ...hint, from, to, takes }
  }
  return undefined
}

function hintsOf(root: JsonSchema, spot: Spot, names: Names): Hint[] {
  const { role, path, data, written } = spot
  if (role === 'figure') return names.figures.map((one) => hintOf(one, role))
  const schemas = schemasAt(root, path, data)
  if (role === 'key') return [...keysOf(root, schemas, valueAt(data, path), written), ...namesAt(path, names, role)]
  return unique([...valuesOf(root, path, data), ...namesAt(path, names, role, schemas)])
}

function keysOf(root: JsonSchema, schemas: readonly JsonSchema[], here: unknown, written: string): Hint[] {
  const isThere = (key: string) => key !== written && here instanceof Object && Object.hasOwn(here, key)
  const found = schemas.flatMap(({ properties = {}, required = [] }) =>
    Object.entries(properties)
      .filter(([key]) => !isThere(key))
      .map(([text, schema]): Hint => {
        const about = optionsOf(root, schema)[0]?.description ?? ''
        return { text, role: 'key', about, isNeeded: required.includes(text) }
      }),
  )
  return unique(found)
}

/** Values that the schema names one by one. A word that tells shapes apart is described by its shape. */
function valuesOf(root: JsonSchema, path: Path, data: unknown): Hint[] {
  const key = path.at(-1)
  const around = schemasAt(root, path.slice(0, -1), data)
  const ofShapes = around.flatMap(({ properties = {}, description = '' }) => {
    const property = typeof key === 'string' ? ownOf(properties, key) : undefined
    const words = property ? optionsOf(root, property) : []
    return words.flatMap(({ const: word }) => (typeof word === 'string' ? [{ text: word, about: description }] : []))
  })
  const ofSchemas = schemasAt(root, path, data).flatMap(({ enum: values, const: only, type }) => {
    const all = values ?? (only !== undefined ? [only] : type === 'boolean' ? [true, false] : [])
    return all.map((one) => ({ text: String(one), about: '' }))
  })
  return unique([...ofShapes, ...ofSchemas].map((one) => ({ ...one, role: 'value', isNeeded: false })))
}

/** Lists that hold names of figures. */
const OF_FIGURES: ReadonlySet<string> = new Set(['restsOn', 'sets', 'orders', 'figure', 'also', 'edition'])

function namesAt(path: Path, names: Names, role: Hint['role'], schemas: readonly JsonSchema[] = []): Hint[] {
  const words = path.filter((one) => typeof one === 'string')
  const [last, before] = [words.at(-1), words.at(-2)]
  const hints = (named: readonly Named[]) => named.map((one) => hintOf(one, role))
  if (role === 'key') {
    if (last === 'when' || last === 'situation') return hints(names.situations)
    if (last === 'values') return words.length === 1 ? hints(names.valued) : []
    return last === 'loads' ? hints([...names.stations, ...names.tanks]) : []
  }
  if (before === 'when' || before === 'situation') {
    return hints(names.situations.find(({ name }) => name === last)?.values ?? [])
  }
  if (last === 'table' || last === 'tables') return hints(names.tables)
  if (last === 'envelope') return hints(names.envelopes)
  if (last === 'tank') return hints(names.tanks)
  if (last === 'stations') return hints(names.stations)
  // A calculator takes a figure or a number.
  const isOperand =
    schemas.some(({ pattern }) => pattern !== undefined) && schemas.some(({ type }) => type === 'number')
  return isOperand || (last !== undefined && OF_FIGURES.has(last)) ? hints(names.valued) : []
}

function hintOf({ name, about }: Named, role: Hint['role']): Hint {
  return { text: name, about, role, isNeeded: false }
}

function unique(hints: readonly Hint[]): Hint[] {
  return [...new Map(hints.toReversed().map((one) => [one.text, one])).values()].reverse()
}

function valueAt(data: unknown, path: Path): unknown {
  return path.reduce<unknown>(
    (here, segment) => (here instanceof Object ? (here as Readonly<Record<string, unknown>>)[segment] : undefined),
    data,
  )
}

function takesOf(schemas: readonly JsonSchema[]): string {
  const values = schemas.flatMap(({ enum: all, const: only }) => all ?? (only === undefined ? [] : [only]))
  if (values.length > 0) return `${values.length > 1 ? 'one of ' : ''}${values.map(String).join(', ')}`
  const types = new Set(schemas.flatMap(({ type }) => TYPES[type ?? ''] ?? []))
  return [...types].join(', or ')
}

const TYPES: Readonly<Record<string, string>> = {
  string: 'text',
  number: 'a number',
  integer: 'a whole number',
  boolean: 'true or false',
  array: 'a list',
  object: 'names with values',
}
