/**
 * Where a cursor stands in the YAML of a pack's file: the way to it in the data, and what is being written there. The
 * text may be in the middle of a change: what stands behind a mistake is left out of account.
 */

import { type Document, isMap, isScalar, isSeq, type Pair, type ParsedNode, parseDocument } from 'yaml'
import type { Path } from '../source.ts'
import { readYaml } from '../yamlText.ts'

export interface Spot {
  /** `key`: the name of an entry; `value`: what stands behind one, or in a list; `figure`: a name between < and >. */
  readonly role: 'key' | 'value' | 'figure'
  /** Of a key the way to the names around it, else of the value. */
  readonly path: Path
  /** What has been written of it, and where it stands, as offsets. */
  readonly written: string
  readonly from: number
  readonly to: number
  /** The file, as plain data, without what is being written. */
  readonly data: unknown
}

/** Stands for what is being written while the text is read. */
const HOLE = 'zzHole'

/** Every meaning that a word at the cursor may have, the likelier first; none inside a comment. */
export function spotsAt(text: string, offset: number): Spot[] {
  const lineStart = text.lastIndexOf('\n', offset - 1) + 1
  const before = /[\w-]*$/.exec(text.slice(lineStart, offset))?.[0] ?? ''
  const after = /^[\w-]*/.exec(text.slice(offset))?.[0] ?? ''
  const [from, to] = [offset - before.length, offset + after.length]
  const head = text.slice(lineStart, from)
  const word = { written: before + after, from, to }
  if (/(^|\s)#/.test(unquoted(head))) return []
  if (isInQuotes(head)) {
    return head.endsWith('<') ? [{ role: 'figure', path: [], ...word, data: dataAround(text, from, to, '') }] : []
  }
  const isNamed = /^\s*:(\s|$)/.test(text.slice(to))
  const mayBeKey = !/:\s+$/.test(head)
  const keys = mayBeKey ? [isNamed ? HOLE : `${HOLE}: 0`] : []
  return [...keys, ...(isNamed ? [] : [HOLE])].flatMap((hole) => {
    const read = documentAround(text, from, to, hole)
    const found = read && holeIn(read.contents, [])
    if (!read || !found) return []
    const data = withoutHole(dataOf(read))
    return [{ role: found.isKey ? ('key' as const) : ('value' as const), path: found.path, ...word, data }]
  })
}

/** The way to what stands at an offset, or last before it: `['phases', 0, 'activities', 1]`. */
export function pathAt(text: string, offset: number): Path {
  const document = documentOf(text, offset)
  return document ? pathIn(document.contents, offset) : []
}

export function pathIn(node: unknown, offset: number): Path {
  const startOf = (one: unknown) => (one as ParsedNode | null)?.range?.[0] ?? Number.POSITIVE_INFINITY
  if (isMap(node)) {
    const pair = node.items.findLast((one) => startOf(one.key) <= offset)
    return pair ? [keyOf(pair), ...pathIn(pair.value, offset)] : []
  }
  if (isSeq(node)) {
    // A dash stands before its item.
    const at = node.items.findLastIndex((one) => startOf(one) <= offset + 2)
    return at < 0 ? [] : [at, ...pathIn(node.items[at], offset)]
  }
  return []
}

const keyOf = ({ key }: Pair) => String(isScalar(key) ? key.value : key)

function isInQuotes(head: string): boolean {
  let open = ''
  for (const sign of head.replace(/\\./g, '')) {
    if (open === '' ? sign === '"' || sign === "'" : sign === open) open = open === '' ? sign : ''
  }
  return open !== ''
}

function unquoted(head: string): string {
  return head.replace(/"(\\.|[^"\\])*("|$)/g, '""').replace(/'[^']*('|$)/g, "''")
}

function dataAround(text: string, from: number, to: number, word: string): unknown {
  const document = documentAround(text, from, to, word)
  return document && withoutHole(dataOf(document))
}

function documentAround(text: string, from: number, to: number, word: string): Document.Parsed | undefined {
  const whole = text.slice(0, from) + word + text.slice(to)
  const end = from + word.length
  return documentOf(whole, end) ?? documentOf(closed(whole, end), end)
}

/** What can be read of a text that has no mistake before `offset`. */
function documentOf(text: string, offset: number): Document.Parsed | undefined {
  const read = readYaml(text)
  if ('document' in read) return read.document
  const { mistake } = read
  if (mistake.offset <= offset) return undefined
  // Up to here it was read, and nothing in it was too deep or too long.
  return parseDocument(text.slice(0, mistake.offset), { uniqueKeys: false, prettyErrors: false, logLevel: 'silent' })
}

/** With the brackets closed that the line of the cursor leaves open. */
function closed(text: string, offset: number): string {
  const start = text.lastIndexOf('\n', offset - 1) + 1
  const found = text.indexOf('\n', offset)
  const end = found < 0 ? text.length : found
  const open: string[] = []
  for (const sign of unquoted(text.slice(start, end))) {
    if (sign === '{' || sign === '[') open.push(sign === '{' ? '}' : ']')
    else if (sign === '}' || sign === ']') open.pop()
  }
  return text.slice(0, end) + open.reverse().join('') + text.slice(end)
}

function dataOf(document: Document.Parsed): unknown {
  try {
    return document.toJS()
  } catch {
    return undefined
  }
}

function holeIn(node: unknown, path: Path): { readonly path: Path; readonly isKey: boolean } | undefined {
  if (isMap(node)) {
    for (const pair of node.items) {
      if (keyOf(pair) === HOLE) return { path, isKey: true }
      const found = holeIn(pair.value, [...path, keyOf(pair)])
      if (found) return found
    }
  } else if (isSeq(node)) {
    for (const [index, item] of node.items.entries()) {
      const found = holeIn(item, [...path, index])
      if (found) return found
    }
  } else if (isScalar(node) && node.value === HOLE) return { path, isKey: false }
  return undefined
}

function withoutHole(value: unknown): unknown {
  if (Array.isArray(value)) return value.map((one) => (one === HOLE ? undefined : withoutHole(one)))
  if (!(value instanceof Object)) return value
  const entries = Object.entries(value).filter(([key, inner]) => key !== HOLE && inner !== HOLE)
  return Object.fromEntries(entries.map(([key, inner]) => [key, withoutHole(inner)]))
}
