/**
 * Changes to the YAML of a pack's file that leave every other letter as it stands: pieces of the text are put in, taken
 * out or exchanged, and it is not written anew. What comes out is read again: where it would say anything but what the
 * change asks for, nothing is changed.
 */

import { isMap, isScalar, isSeq, Lexer, type Pair, type ParsedNode, Scalar, type YAMLMap, type YAMLSeq } from 'yaml'
import type { Path } from '../source.ts'
import { mistakesIn } from '../yamlNodes.ts'
import { readYaml } from '../yamlText.ts'
import { textWritten, type Written, writtenInLine } from './written.ts'

export type Edit =
  /** Puts a value at a place, and what is missing on the way; `order`: the names around it in the order of the schema. */
  | { readonly type: 'set'; readonly path: Path; readonly value: Written; readonly order?: readonly string[] }
  /** Of an entry with its name, or of one in a list; `notes`: with the comments above and beside it. */
  | { readonly type: 'remove'; readonly path: Path; readonly notes?: boolean }
  /** Behind the one at `path`; under `name` where they have names. */
  | { readonly type: 'add'; readonly path: Path; readonly value: Written; readonly name?: string }
  | { readonly type: 'move'; readonly path: Path; readonly by: 1 | -1 }
  | { readonly type: 'rename'; readonly path: Path; readonly name: string }

/** `[from, to)` of the text becomes `insert`. */
interface Splice {
  readonly from: number
  readonly to: number
  readonly insert: string
}

/** Undefined where the text has a mistake, or the change cannot be made without touching something else. */
export function edited(text: string, edits: Edit | readonly Edit[]): string | undefined {
  const all = [edits].flat() as readonly Edit[]
  // Cells of a table do not move one another: all of them are put in at once.
  const isAtOnce = all.length > 1 && all.every(({ type }) => type === 'set')
  if (isAtOnce) return editedAtOnce(text, all)
  return all.reduce<string | undefined>(
    (now, edit) => (now === undefined ? undefined : editedAtOnce(now, [edit])),
    text,
  )
}

function editedAtOnce(text: string, edits: readonly Edit[]): string | undefined {
  const whole = text === '' || text.endsWith('\n') ? text : `${text}\n`
  const root = rootOf(whole)
  if (!root) return undefined
  const before = root.toJS()
  const splices = edits.map((edit) => spliceOf(whole, root.contents, edit))
  if (splices.some((one) => one === undefined)) return undefined
  const sorted = (splices as readonly (readonly Splice[])[]).flat().toSorted((one, other) => other.from - one.from)
  const next = sorted.reduce((now, { from, to, insert }) => now.slice(0, from) + insert + now.slice(to), whole)
  const wanted = edits.reduce<unknown>(dataAfter, before)
  const after = rootOf(next)?.toJS()
  return same(after, wanted) ? next : undefined
}

function rootOf(text: string) {
  const read = readYaml(text)
  return 'document' in read && mistakesIn(read.document).length === 0 ? read.document : undefined
}

function spliceOf(text: string, contents: unknown, edit: Edit): readonly Splice[] | undefined {
  if (edit.type === 'set') return setSplice(text, contents, edit.path, edit.value, edit.order ?? [])
  const around = nodeAt(contents, edit.path.slice(0, -1))
  const segment = edit.path.at(-1)
  if (segment === undefined || (!isMap(around) && !isSeq(around))) return undefined
  const index = indexIn(around, segment)
  if (edit.type === 'add' && isSeq(around) && around.items.length === 0) return firstSplice(text, around, edit.value)
  if (index < 0) return undefined
  if (edit.type === 'rename') {
    const key = isMap(around) ? (around.items[index] as Pair).key : undefined
    return isScalar(key) && key.range ? [{ from: key.range[0], to: key.range[1], insert: edit.name }] : undefined
  }
  if (edit.type === 'add') return addSplice(text, around, index, edit.value, edit.name)
  if (edit.type === 'remove') return removeSplice(text, around, index, edit.notes)
  return moveSplice(text, around, index, edit.by)
}

function setSplice(
  text: string,
  contents: unknown,
  path: Path,
  value: Written,
  order: readonly string[],
): readonly Splice[] | undefined {
  const node = nodeAt(contents, path)
  if (isNodeWithRange(node)) {
    const quote = isScalar(node) && node.value !== '' ? quoteOf(node) : ''
    const [from] = node.range
    const to = endOf(node)
    // What the text says besides the value would be lost.
    if (!isScalar(node) && hasCommentIn(text.slice(from, to))) return undefined
    if (isScalar(node) && isOverLines(node)) return undefined
    const insert = writtenInLine(value, quote)
    return [{ from, to, insert: from === to ? ` ${insert}` : insert }]
  }
  const [around, name] = [path.slice(0, -1), path.at(-1)]
  if (name === undefined) return undefined
  const map = nodeAt(contents, around)
  if (isMap(map)) return addToMap(text, map, String(name), value, order)
  if (map === undefined || (isScalar(map) && map.value === null)) {
    return typeof name === 'string' ? setSplice(text, contents, around, { [name]: value }, []) : undefined
  }
  return undefined
}

/** A sign within quotes begins none. */
function hasCommentIn(text: string): boolean {
  return [...new Lexer().lex(text)].some((token) => token.startsWith('#'))
}

function addToMap(text: string, map: YAMLMap, name: string, value: Written, order: readonly string[]) {
  const before = new Set(order.slice(0, Math.max(order.indexOf(name), 0)))
  const last = map.items.findLastIndex(({ key }) => before.size === 0 || before.has(nameOf(key)))
  return addSplice(text, map, last < 0 && before.size > 0 ? 0 : last, value, name)
}

function addSplice(text: string, around: YAMLMap | YAMLSeq, index: number, value: Written, name?: string) {
  const isNamed = isMap(around)
  if (isNamed !== (name !== undefined)) return undefined
  const inLine = isNamed ? `${textWritten(name ?? '')}: ${writtenInLine(value)}` : writtenInLine(value)
  if (around.items.length === 0)
    return [{ from: (around.range?.[0] ?? 0) + 1, to: (around.range?.[0] ?? 0) + 1, insert: inLine }]
  const end = endOfEntry(around, index)
  if (end === undefined) return undefined
  if (around.flow) return [{ from: end, to: end, insert: `, ${inLine}` }]
  const start = startOfEntry(around, index)
  if (start === undefined) return undefined
  const from = lineEnd(text, end) + 1
  if (isNamed) return [{ from, to: from, insert: `${' '.repeat(columnOf(text, start))}${inLine}\n` }]
  const dash = dashBefore(text, start)
  if (dash === undefined) return undefined
  const indent = ' '.repeat(columnOf(text, dash))
  const sibling = around.items[index]
  const isBlock = isMap(sibling) && !sibling.flow && value instanceof Object && !Array.isArray(value)
  const lines = isBlock
    ? Object.entries(value as Record<string, Written>).map(([key, inner]) => `${key}: ${writtenInLine(inner)}`)
    : [inLine]
  return [{ from, to: from, insert: `${indent}- ${lines.join(`\n${indent}  `)}\n` }]
}

/** `entries: []` -> a list of one, in lines of its own, where nothing stands behind it. */
function firstSplice(text: string, around: YAMLSeq, value: Written): readonly Splice[] | undefined {
  const [from, to] = around.range ?? [0, 0]
  const indent = ' '.repeat((/^[ -]*/.exec(text.slice(lineStart(text, from)))?.[0].length ?? 0) + 2)
  const isAlone = text.slice(to, lineEnd(text, to)).trim() === ''
  if (!isAlone || !(value instanceof Object) || Array.isArray(value))
    return [{ from: from + 1, to: from + 1, insert: writtenInLine(value) }]
  const lines = Object.entries(value as Record<string, Written>).map(
    ([key, inner]) => `${key}: ${writtenInLine(inner)}`,
  )
  const begin = from - (/ *$/.exec(text.slice(0, from))?.[0].length ?? 0)
  return [{ from: begin, to, insert: `\n${indent}- ${lines.join(`\n${indent}  `)}` }]
}

function removeSplice(
  text: string,
  around: YAMLMap | YAMLSeq,
  index: number,
  isWithNotes = false,
): readonly Splice[] | undefined {
  const [start, end] = [startOfEntry(around, index), endOfEntry(around, index)]
  if (start === undefined || end === undefined) return undefined
  const next = startOfEntry(around, index + 1)
  if (around.flow) {
    if (next !== undefined) return hasNote(text, end, next) ? undefined : [{ from: start, to: next, insert: '' }]
    const before = index > 0 ? endOfEntry(around, index - 1) : undefined
    if (before !== undefined && hasNote(text, before, start)) return undefined
    return [{ from: before ?? start, to: end, insert: '' }]
  }
  const lines = linesOf(text, around, index)
  if (around.items.length === 1) {
    const first = isSeq(around) ? dashBefore(text, start) : start
    if (first === undefined) return undefined
    const insert = isSeq(around) ? '[]' : '{}'
    if (!isWithNotes || !lines) return [{ from: first, to: end, insert }]
    const indent = ' '.repeat(columnOf(text, first))
    return [{ from: ownNotesAbove(text, lines[0], indent), to: lineEnd(text, end), insert: indent + insert }]
  }
  if (lines) {
    const [from, to] = lines
    if (isWithNotes) {
      const [indent = ''] = /^ */.exec(text.slice(from)) ?? []
      return [{ from: ownNotesAbove(text, from, indent), to, insert: '' }]
    }
    if (isSeq(around)) return [{ from: asked(text, from), to, insert: '' }]
    const note = /(^|\s)(#.*)$/.exec(text.slice(end, lineEnd(text, end)))?.[2]
    return [{ from, to, insert: note === undefined ? '' : `${' '.repeat(columnOf(text, start))}${note}\n` }]
  }
  // It stands behind a dash: the next one moves up to it.
  return next === undefined || hasNote(text, end, next) ? undefined : [{ from: start, to: next, insert: '' }]
}

function moveSplice(text: string, around: YAMLMap | YAMLSeq, index: number, by: 1 | -1): readonly Splice[] | undefined {
  const first = by === 1 ? index : index - 1
  if (first < 0 || first + 1 >= around.items.length) return undefined
  const [start, end] = [startOfEntry(around, first), endOfEntry(around, first)]
  const [next, nextEnd] = [startOfEntry(around, first + 1), endOfEntry(around, first + 1)]
  if (start === undefined || end === undefined || next === undefined || nextEnd === undefined) return undefined
  if (around.flow) {
    const insert = text.slice(next, nextEnd) + text.slice(end, next) + text.slice(start, end)
    return hasNote(text, end, next) ? undefined : [{ from: start, to: nextEnd, insert }]
  }
  const [one, other] = [linesOf(text, around, first), linesOf(text, around, first + 1)]
  if (!one || !other) return undefined
  // Comments right above go with what they stand above.
  const [from, middle] = [notesAbove(text, one[0]), notesAbove(text, other[0])]
  return [
    {
      from,
      to: other[1],
      insert: text.slice(middle, other[1]) + text.slice(one[1], middle) + text.slice(from, one[1]),
    },
  ]
}

/** The whole lines of an entry, its notes on the last one included; undefined where something stands before it. */
function linesOf(text: string, around: YAMLMap | YAMLSeq, index: number): readonly [number, number] | undefined {
  const [start, end] = [startOfEntry(around, index), endOfEntry(around, index)]
  const first = start === undefined || !isSeq(around) ? start : dashBefore(text, start)
  if (first === undefined || end === undefined) return undefined
  const from = lineStart(text, first)
  return text.slice(from, first).trim() === '' ? [from, lineEnd(text, end) + 1] : undefined
}

/** Questions of a draft go with what they ask about. */
function asked(text: string, from: number): number {
  return above(text, from, /^\s*# \?/)
}

/** What is further in is of the one before, unless a draft asks it. */
function ownNotesAbove(text: string, from: number, indent: string): number {
  return above(text, from, new RegExp(`^(${indent}#|\\s*# \\?)`))
}

function notesAbove(text: string, from: number): number {
  return above(text, from, /^\s*#/)
}

function above(text: string, from: number, kind: RegExp): number {
  let at = from
  while (at > 0) {
    const start = lineStart(text, at - 1)
    if (!kind.test(text.slice(start, at - 1))) break
    at = start
  }
  return at
}

const hasNote = (text: string, from: number, to: number) => /(^|\s)#/.test(text.slice(from, to))
const lineStart = (text: string, at: number) => text.lastIndexOf('\n', at - 1) + 1
const columnOf = (text: string, at: number) => at - lineStart(text, at)

function lineEnd(text: string, at: number): number {
  // A text over several lines ends with its last line's end.
  const from = text[at - 1] === '\n' ? at - 1 : at
  const found = text.indexOf('\n', from)
  return found < 0 ? text.length : found
}

function dashBefore(text: string, at: number): number | undefined {
  const found = /-\s+([&!]\S+\s+)*$/.exec(text.slice(0, at))
  return found?.index
}

export function nodeAt(contents: unknown, path: Path): unknown {
  return path.reduce<unknown>((node, segment) => {
    if (isMap(node)) return node.items.find(({ key }) => nameOf(key) === String(segment))?.value ?? undefined
    return isSeq(node) ? node.items[Number(segment)] : undefined
  }, contents)
}

const nameOf = (key: unknown) => String(isScalar(key) ? key.value : key)

function indexIn(around: YAMLMap | YAMLSeq, segment: string | number): number {
  if (isSeq(around)) return Number(segment) < around.items.length ? Number(segment) : -1
  return around.items.findIndex(({ key }) => nameOf(key) === String(segment))
}

type Ranged = ParsedNode & { readonly range: readonly [number, number, number] }

function isNodeWithRange(node: unknown): node is Ranged {
  return node instanceof Object && Array.isArray((node as ParsedNode).range)
}

function startOfEntry(around: YAMLMap | YAMLSeq, index: number): number | undefined {
  const entry = around.items[index] as unknown
  const node = isMap(around) ? (entry as Pair | undefined)?.key : entry
  return isNodeWithRange(node) ? node.range[0] : undefined
}

function endOfEntry(around: YAMLMap | YAMLSeq, index: number): number | undefined {
  const entry = around.items[index] as unknown
  if (!isMap(around)) return isNodeWithRange(entry) ? endOf(entry) : undefined
  const { key, value } = (entry ?? {}) as Pair
  if (isNodeWithRange(value) && value.range[1] > 0) return endOf(value)
  return isNodeWithRange(key) ? key.range[1] + 1 : undefined
}

/** Of what it says, without the comments and empty lines behind it. */
function endOf(node: Ranged): number {
  if ((isMap(node) || isSeq(node)) && !node.flow) return endOfEntry(node, node.items.length - 1) ?? node.range[1]
  return node.range[1]
}

export function isOverLines({ type }: Scalar): boolean {
  return type === Scalar.BLOCK_LITERAL || type === Scalar.BLOCK_FOLDED
}

function quoteOf({ type }: Scalar): '"' | "'" | '' {
  return type === Scalar.QUOTE_DOUBLE ? '"' : type === Scalar.QUOTE_SINGLE ? "'" : ''
}

/** What the file is to say after a change. */
function dataAfter(data: unknown, edit: Edit): unknown {
  const [first, ...rest] = edit.path
  if (first === undefined) return edit.type === 'set' ? edit.value : data
  if (rest.length > 0 || edit.type === 'set') return withInner(data, first, rest, edit)
  if (Array.isArray(data)) {
    const at = Number(first)
    if (edit.type === 'add') return data.toSpliced(at + 1, 0, edit.value)
    if (edit.type === 'remove') return data.toSpliced(at, 1)
    return edit.type === 'move' ? data.toSpliced(at, 1).toSpliced(at + edit.by, 0, data[at]) : data
  }
  const entries = Object.entries(data ?? {})
  const at = entries.findIndex(([name]) => name === String(first))
  const entry = entries[at]
  if (!entry) return data
  if (edit.type === 'add') return Object.fromEntries(entries.toSpliced(at + 1, 0, [edit.name ?? '', edit.value]))
  if (edit.type === 'remove') return Object.fromEntries(entries.toSpliced(at, 1))
  if (edit.type === 'rename') return Object.fromEntries(entries.with(at, [edit.name, entry[1]]))
  return Object.fromEntries(entries.toSpliced(at, 1).toSpliced(at + edit.by, 0, entry))
}

function withInner(data: unknown, first: string | number, rest: Path, edit: Edit): unknown {
  const inner = (data as Record<string, unknown> | null | undefined)?.[first as string]
  const next = dataAfter(inner, { ...edit, path: rest } as Edit)
  if (Array.isArray(data)) return data.map((one, index) => (index === Number(first) ? next : one))
  return { ...(data as object | null), [first]: next }
}

/** Names with values are the same in any order only where nothing goes by it; here a move is just that. */
function same(one: unknown, other: unknown): boolean {
  if (!(one instanceof Object) || !(other instanceof Object)) return Object.is(one, other)
  if (Array.isArray(one) !== Array.isArray(other)) return false
  const [keys, others] = [Object.keys(one), Object.keys(other)]
  if (keys.length !== others.length) return false
  const get = (of: object, key: string) => (of as Record<string, unknown>)[key]
  return keys.every((key) => Object.hasOwn(other, key) && same(get(one, key), get(other, key)))
}
