/**
 * The form of what the cursor stands in: its fields from the schema that the pack is checked by, their values from the
 * text. What it has no field for is named, and left as it stands.
 */

import { type Document, isAlias, isMap, isScalar, type ParsedNode } from 'yaml'
import type { Problem } from '../../kernel/problem.ts'
import type { PackTexts } from '../files/parts.ts'
import { type Names, namesIn } from '../hints/names.ts'
import { type JsonSchema, optionsOf, schemaOf, schemasAt } from '../hints/schemaAt.ts'
import { pathIn } from '../hints/spot.ts'
import { A_NAME } from '../schemaTerms.ts'
import type { Path } from '../source.ts'
import { readYaml } from '../yamlText.ts'
import { type Demands, isDemands } from './conditionText.ts'
import { isOverLines, nodeAt } from './edits.ts'
import { type Grid, gridOf } from './grid.ts'
import { type OpenQuestion, questionsOf } from './questions.ts'
import { INNER, INNER_NAMED, insideOf, isNamed, type Thing, thingOn, thingsIn, titleOf, valueAt } from './things.ts'

export type Shape = 'text' | 'number' | 'either' | 'choice' | 'flag' | 'texts' | 'rows' | 'pairs' | 'condition'
/** Of rows: one list of words a row; of pairs: values by their names; of a condition: demands by what they are of. */
export type FieldValue =
  | string
  | number
  | boolean
  | readonly (string | number)[]
  | readonly (readonly string[])[]
  | { readonly [name: string]: string | number }
  | Demands

export interface Field {
  readonly path: Path
  /** Names around it in the order of the schema, for where it is put in. */
  readonly order: readonly string[]
  readonly label: string
  /** What it is, and what may stand there; may be empty. */
  readonly help: string
  readonly isNeeded: boolean
  readonly shape: Shape | 'group'
  /** Of a flag: how it is where nothing is written. */
  readonly isOn: boolean
  /** Undefined where nothing is written. */
  readonly value: FieldValue | undefined
  /** Of a choice, all; of others, names that fit. */
  readonly choices: readonly string[]
  /** Choice -> what it does, where the schema says so. */
  readonly about: Readonly<Record<string, string>>
  /** Whether the text says something here; a group may be there and empty. */
  readonly isThere: boolean
  /** Of a group. */
  readonly fields: readonly Field[]
  readonly problems: readonly Problem[]
}

export interface Form {
  readonly kind: string
  /** The field that tells the kind. */
  readonly kindBy: string | undefined
  readonly title: string
  readonly path: Path
  /** What it is called in the file, where it can be renamed in the form. */
  readonly name: string | undefined
  readonly fields: readonly Field[]
  /** Names of what stands in the text and is in no field. */
  readonly leftAlone: readonly string[]
  /** What the text has of it and nothing knows. */
  readonly foreign: readonly Foreign[]
  readonly grid: Grid | undefined
  /** What a draft left open of it. */
  readonly questions: readonly OpenQuestion[]
  /** What stands in it under names and has a form of its own. */
  readonly inner: readonly ThingPlace[]
  /** Kinds of what can be added inside it. */
  readonly inside: readonly string[]
  /** Those of no field. */
  readonly problems: readonly Problem[]
  /** Its place among its like, and how many these are. */
  readonly at: number
  readonly of: number
}

export interface Foreign {
  readonly path: Path
  readonly label: string
}

export interface ThingPlace {
  readonly path: Path
  readonly kind: string
  readonly title: string
  /** How far inside others: an item stands in a list. */
  readonly depth: number
  readonly offset: number
}

export interface FormView {
  /** All that has a form in the file, in their order. */
  readonly places: readonly ThingPlace[]
  readonly form: Form | undefined
  /** Open questions about nothing that has a form. */
  readonly questions: readonly OpenQuestion[]
}

/** `problems`: those of the file. Undefined while the text cannot be read. */
export function formAt(
  files: PackTexts,
  file: string,
  offset: number,
  problems: readonly Problem[] = [],
): FormView | undefined {
  const read = readYaml(files[file] ?? '')
  const root = schemaOf(file)
  if (!('document' in read) || !root) return undefined
  const { document } = read
  const data = dataOf(document)
  const places = thingsIn(file, data).map((thing) => placeOf(thing, document, data))
  const thing = thingOn(file, pathIn(document.contents, offset), data)
  const questions = questionsOf(file, files[file] ?? '', document, data, undefined)
  return { places, form: thing && formOf(files, file, document, data, root, thing, problems), questions }
}

function formOf(
  files: PackTexts,
  file: string,
  document: Document.Parsed,
  data: unknown,
  root: JsonSchema,
  thing: Thing,
  problems: readonly Problem[],
): Form {
  const { path, kind } = thing
  const text = files[file] ?? ''
  const names = namesIn(files)
  const offsetOf = offsetsIn(text)
  const placed = problems.map((problem) => {
    const { line = 1, column = 1 } = problem.place ?? {}
    return { problem, path: pathIn(document.contents, offsetOf(line, column)) }
  })
  const here = placed.filter((one) => begins(one.path, path))
  const leftAlone: string[] = []
  const figures = names.valued.map(({ name }) => name)
  const { tables } = names
  const ofConditions = aboutConditions(names, figures)
  const context: Context = { document, data, root, here, leftAlone, foreign: [], figures, tables, ofConditions }
  const all = fieldsAt(context, path, 2).map((field) =>
    String(field.path.at(-1)) === kind.by && !kind.isWorded
      ? { ...field, help: [field.help, OF_NAMES].filter((text) => text !== '').join('. ') }
      : field,
  )
  const table = kind.name === 'table' ? gridOf(valueAt(data, path), path) : undefined
  const fields = table
    ? [...all.filter(({ path: at }) => !OF_GRIDS.has(String(at.at(-1)))), ...axisFields(context, path, data)]
    : all
  const shown = new Set(fields.flatMap(allOf).flatMap((one) => one.problems))
  const around = valueAt(data, path.slice(0, -1))
  const like = around instanceof Object ? Object.keys(around) : []
  return {
    kind: kind.name,
    kindBy: kind.by,
    title: titleOf(thing, data),
    path,
    name: kind.by === undefined && path.length > 0 ? String(path.at(-1)) : undefined,
    fields,
    foreign: context.foreign,
    leftAlone: table
      ? leftAlone.filter((name) => !OF_GRIDS.has(name))
      : leftAlone.filter((name) => !OF_THINGS.has(name) && name !== INNER_NAMED[kind.name]),
    grid: table,
    questions: questionsOf(file, text, document, data, path),
    inner:
      INNER_NAMED[kind.name] === undefined
        ? []
        : thingsIn(file, data)
            .filter(({ path: at }) => at.length > path.length && begins(at, path))
            .map((one) => placeOf(one, document, data)),
    inside: insideOf(file, kind),
    problems: here
      .filter(({ problem, path: at }) => !shown.has(problem) && isOwn(file, thing, at, data))
      .map(({ problem }) => problem),
    at: like.indexOf(String(path.at(-1))),
    of: like.length,
  }
}

const OF_NAMES = 'Letters and digits, as other places call it; these are not changed with it.'

/** What the grid of a table shows. */
const OF_GRIDS: ReadonlySet<string> = new Set(['cells', 'axes'])

/** What stands in a thing and has a form of its own. */
const OF_THINGS: ReadonlySet<string> = new Set([...Object.values(INNER), 'phases', 'situations'])

/** Whether it is this thing's own, and not of one inside it. */
function isOwn(file: string, { path }: Thing, at: Path, data: unknown): boolean {
  return thingOn(file, at, data)?.path.length === path.length
}

/** Names and units of the axes, whose entries stand in the grid. */
function axisFields(context: Context, path: Path, data: unknown): Field[] {
  const axes = valueAt(data, [...path, 'axes'])
  if (!Array.isArray(axes)) return []
  return axes.map((_, index): Field => {
    const at = [...path, 'axes', index]
    const fields = fieldsAt(context, at, 0).filter(({ path: own }) => !/^(at|choices)$/.test(String(own.at(-1))))
    const base = {
      path: at,
      order: [],
      help: '',
      isNeeded: true,
      isOn: false,
      value: undefined,
      choices: [],
      about: {},
    }
    return {
      ...base,
      label: index === 0 ? 'axis down' : 'axis across',
      shape: 'group',
      isThere: true,
      fields,
      problems: [],
    }
  })
}

interface Context {
  readonly document: Document.Parsed
  readonly data: unknown
  readonly root: JsonSchema
  readonly here: readonly { readonly problem: Problem; readonly path: Path }[]
  readonly leftAlone: string[]
  readonly foreign: Foreign[]
  readonly figures: readonly string[]
  readonly tables: Names['tables']
  /** How a condition is typed, and of which situations. */
  readonly ofConditions: string
}

/** Which axes the table that is looked up has. */
function aboutAxes({ data, tables }: Context, path: Path): string {
  const chosen = valueAt(data, [...path.slice(0, -1), 'table'])
  const { name, axes = [] } = tables.find((table) => table.name === chosen) ?? {}
  const of = axes.length > 0 ? `; axes of ${name}: ${axes.join(', ')}` : ''
  return `Each axis of the table with the figure or number that it is looked up by${of}`
}

/** More names than these are no help. */
const MOST_NAMES = 12

function aboutConditions({ situations }: Names, figures: readonly string[]): string {
  const known = situations.map(({ name, values }) => `${name} (${values.map((one) => one.name).join(', ')})`)
  const of = known.length > 0 ? `; situations are ${known.join('; ')}` : ''
  const named = figures.length > 0 ? `; figures are ${figures.slice(0, MOST_NAMES).join(', ')}` : ''
  const more = figures.length > MOST_NAMES ? ' and others' : ''
  return `Only where all of this holds: icing: yes; runway: wet, slippery (either of them); oat: at least 0, below 5${of}${named}${more}`
}

function fieldsAt(context: Context, path: Path, depth: number): Field[] {
  const { root, data, document, leftAlone, foreign } = context
  const schemas = schemasAt(root, path, data)
  const value = valueAt(data, path)
  const there = isNamed(value) ? Object.keys(value) : []
  const shapes = schemas.filter(({ properties }) => properties)
  const all = unique(shapes.flatMap(({ properties = {} }) => Object.keys(properties)))
  // Until it is told which of several shapes it has, only that is asked.
  const isFixed = (one: JsonSchema | undefined) =>
    one !== undefined && optionsOf(root, one).every((option) => option.const !== undefined)
  const telling = all.filter((key) => shapes.length > 1 && shapes.every((one) => isFixed(one.properties?.[key])))
  const order = telling.some((key) => !there.includes(key)) ? telling : all
  const fields: Field[] = []
  for (const key of unique([...order, ...there])) {
    const at = [...path, key]
    const isThere = there.includes(key)
    const node = nodeAt(document.contents, at)
    const made = isFree(node) ? fieldOf(context, at, shapes, order, depth) : undefined
    if (made) fields.push(made)
    else if (isThere && isFree(node) && shapes.length > 0 && isClosed(shapes) && !all.includes(key))
      foreign.push({ path: at, label: words(key) })
    else if (isThere) leftAlone.push(words(key))
  }
  return fields
}

/** They know all names that may stand there. */
const isClosed = (schemas: readonly JsonSchema[]) =>
  schemas.every(({ additionalProperties }) => additionalProperties === false)

function fieldOf(
  context: Context,
  path: Path,
  around: readonly JsonSchema[],
  order: readonly string[],
  depth: number,
): Field | undefined {
  const { root, data } = context
  const key = String(path.at(-1))
  const options = schemasAt(root, path, data)
  const value = valueAt(data, path)
  const isThere = value !== undefined
  const declared = around.flatMap(({ properties = {} }) => (Object.hasOwn(properties, key) ? [properties[key]] : []))
  const all = declared.flatMap((one) => (one ? optionsOf(root, one) : []))
  const told = [...new Set((all.length > 0 ? all : options).flatMap((one) => one.description ?? []))]
  // Of several shapes each has its own words, and those of a name are none of a number.
  const isName = told[0] === A_NAME && options.some(({ type }) => type === 'number' || type === 'integer')
  const description = told.length > 1 || isName ? '' : (told[0] ?? '')
  const needed = around.length > 0 && around.every(({ required = [] }) => required.includes(key))
  const base = {
    ...{ path, order, isThere, label: words(key), help: description, fields: [] as Field[], about: {} },
    isOn: all.some((one) => one.default === true),
    isNeeded: needed && all.every((one) => one.default === undefined),
    problems: context.here.filter((one) => begins(one.path, path)).map(({ problem }) => problem),
  }
  const choices = choicesFor(context, path, all.length > 0 ? all : options)
  const shape = shapeOf(root, all.length > 0 ? all : options, value)
  if (shape === 'group') {
    if (depth === 0) return undefined
    const fields = fieldsAt(context, path, depth - 1)
    return isThere && fields.length === 0 ? undefined : { ...base, shape, value: undefined, choices: [], fields }
  }
  if (!shape || (isThere && !fits(shape, value))) return undefined
  if (shape === 'condition')
    return { ...base, help: context.ofConditions, shape, choices: [], value: isThere ? (value as Demands) : undefined }
  if (key === 'at' && shape === 'pairs')
    return {
      ...base,
      help: aboutAxes(context, path),
      shape,
      choices,
      value: isThere ? (value as FieldValue) : undefined,
    }
  const about = shape === 'choice' ? aboutChoices(context, path) : {}
  return { ...base, shape, choices, about, value: isThere ? (value as FieldValue) : undefined }
}

/** Of all shapes that a place may have the one that a field can show, and that is written there. */
function shapeOf(root: JsonSchema, options: readonly JsonSchema[], value: unknown): Field['shape'] | undefined {
  const fixed = options.flatMap((one) => one.enum ?? (one.const === undefined ? [] : [one.const]))
  if (options.length === 0) return undefined
  if (fixed.length > 0 && options.every((one) => one.enum || one.const !== undefined)) {
    return fixed.every((one) => one === true) ? 'flag' : 'choice'
  }
  const types = new Set(options.map(({ type }) => (type === 'integer' ? 'number' : type)))
  if (types.has('boolean') && types.size === 1) return 'flag'
  const isNumber = types.has('number')
  const isText = types.has('string')
  const isOther = value === undefined ? !isNumber && !isText : value instanceof Object
  if (isOther && !Array.isArray(value)) {
    if (options.some(isOfDemands)) return 'condition'
    if (options.some(isOfFields)) return 'group'
    const isPairs = options.some(
      ({ type, additionalProperties }) => type === 'object' && isPlain(root, additionalProperties),
    )
    if (isPairs) return 'pairs'
  }
  if (isOther && !isNamed(value)) {
    const items = options.flatMap(({ type, items, prefixItems }) => (type === 'array' && !prefixItems ? [items] : []))
    if (items.some((one) => isPlain(root, one))) return 'texts'
    if (items.some((one) => isOfWords(root, one))) return 'rows'
  }
  if (isOther) return undefined
  return isNumber && isText ? 'either' : isNumber ? 'number' : isText ? 'text' : undefined
}

/** With names of its own alone: a condition may have any. */
function isOfFields({ type, properties = {}, additionalProperties }: JsonSchema): boolean {
  return type === 'object' && Object.keys(properties).length > 0 && typeof additionalProperties !== 'object'
}

/** Names of its own that join conditions, and beside them any. */
function isOfDemands({ properties = {}, additionalProperties }: JsonSchema): boolean {
  return (
    typeof additionalProperties === 'object' && Object.hasOwn(properties, 'any') && Object.hasOwn(properties, 'not')
  )
}

function isPlain(root: JsonSchema, schema: JsonSchema | boolean | undefined): boolean {
  return (
    typeof schema === 'object' &&
    optionsOf(root, schema).every(({ type }) => type === 'string' || type === 'number' || type === 'integer')
  )
}

/** A list of words alone. */
function isOfWords(root: JsonSchema, schema: JsonSchema | boolean | undefined): boolean {
  if (typeof schema !== 'object') return false
  return optionsOf(root, schema).every(
    ({ type, items }) =>
      type === 'array' && typeof items === 'object' && optionsOf(root, items).every((one) => one.type === 'string'),
  )
}

function fits(shape: Shape, value: unknown): boolean {
  if (shape === 'texts')
    return Array.isArray(value) && value.every((one) => typeof one === 'string' || typeof one === 'number')
  if (shape === 'rows')
    return (
      Array.isArray(value) &&
      value.every((row) => Array.isArray(row) && row.every((one) => typeof one === 'string' && !one.includes(',')))
    )
  if (shape === 'pairs')
    return isNamed(value) && Object.values(value).every((one) => typeof one === 'string' || typeof one === 'number')
  if (shape === 'condition') return isDemands(value)
  if (shape === 'flag') return typeof value === 'boolean'
  // A word where a number should be is told by its problem, and can be mended in the field.
  return typeof value === 'string' || typeof value === 'number' || value === null || typeof value === 'boolean'
}

/** All shapes that the thing around a place may have. */
const shapesAround = ({ root, data }: Context, path: Path) =>
  schemasAt(root, path.slice(0, -1), without(data, path.slice(0, -1)))

/** Where one word tells the shape: what the schema says of that shape. */
function aboutChoices(context: Context, path: Path): Record<string, string> {
  const key = String(path.at(-1))
  const told = shapesAround(context, path).flatMap(({ description = '', properties = {} }) => {
    const property = Object.hasOwn(properties, key) ? properties[key] : undefined
    const words = property ? optionsOf(context.root, property).map((one) => one.const) : []
    return description === '' ? [] : words.flatMap((word) => (word === undefined ? [] : [[String(word), description]]))
  })
  return Object.fromEntries(told)
}

/** Of what tells shapes apart, the words of all of them. */
function choicesFor(context: Context, path: Path, options: readonly JsonSchema[]): string[] {
  const { root, figures, tables } = context
  const key = String(path.at(-1))
  const isFixed = options.some((one) => one.const !== undefined)
  const all = isFixed ? shapesAround(context, path) : []
  const ofShapes = all.flatMap(({ properties = {} }) => {
    const property = Object.hasOwn(properties, key) ? properties[key] : undefined
    return property ? optionsOf(root, property) : []
  })
  const fixed = [...ofShapes, ...options].flatMap((one) => one.enum ?? (one.const === undefined ? [] : [one.const]))
  if (fixed.length > 0) return unique(fixed.map(String))
  if (key === 'table') return tables.map(({ name }) => name)
  const isOperand =
    options.some(({ pattern }) => pattern !== undefined) && options.some(({ type }) => type === 'number')
  return isOperand || key === 'restsOn' || key === 'sets' ? [...figures] : []
}

/** The data with what stands at one place left out: there any shape may stand. */
function without(data: unknown, path: Path): unknown {
  const [first, ...rest] = path
  if (first === undefined || !(data instanceof Object)) return data
  if (Array.isArray(data)) return data.map((one, index) => (index === first ? without(one, rest) : one))
  const entries = Object.entries(data)
  if (rest.length === 0) return Object.fromEntries(entries.filter(([name]) => name !== first))
  return Object.fromEntries(entries.map(([name, one]) => [name, name === first ? without(one, rest) : one]))
}

/** What a field can be laid over: no reference to another place, no text over several lines, no tag of its own. */
function isFree(node: unknown): boolean {
  if (isAlias(node)) return false
  const { anchor, tag } = (node ?? {}) as { readonly anchor?: string; readonly tag?: string }
  if (anchor !== undefined || (tag !== undefined && !tag.startsWith('tag:yaml.org'))) return false
  if (isScalar(node) && isOverLines(node)) return false
  if (node instanceof Object && 'items' in node && !isMap(node)) {
    return !(node.items as readonly unknown[]).some((one) => isAlias(one) || hasComment(one)) && !hasComment(node)
  }
  return true
}

const hasComment = (node: unknown): boolean => {
  const { comment, commentBefore } = (node ?? {}) as {
    readonly comment?: string | null
    readonly commentBefore?: string | null
  }
  return Boolean(comment || commentBefore)
}

function allOf(field: Field): Field[] {
  return [field, ...field.fields.flatMap(allOf)]
}

function placeOf(thing: Thing, document: Document.Parsed, data: unknown): ThingPlace {
  const { kind, path } = thing
  const node = nodeAt(document.contents, path) as ParsedNode | undefined
  const offset = node?.range?.[0] ?? 0
  return { path, kind: kind.name, title: titleOf(thing, data), depth: path.length, offset }
}

const begins = (path: Path, start: Path) => start.every((segment, at) => segment === path[at])

/** "alsoCalled" -> "also called". */
function words(key: string): string {
  return key.replace(/([a-z])([A-Z])/g, (_, one: string, other: string) => `${one} ${other.toLowerCase()}`)
}

function unique<T>(all: readonly T[]): T[] {
  return [...new Set(all)]
}

function offsetsIn(text: string): (line: number, column: number) => number {
  const starts = [0]
  for (const { index } of text.matchAll(/\n/g)) starts.push(index + 1)
  return (line, column) => (starts[line - 1] ?? text.length) + column - 1
}

function dataOf(document: Document.Parsed): unknown {
  try {
    return document.toJS()
  } catch {
    return undefined
  }
}
