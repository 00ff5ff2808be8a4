/** One YAML text with its places: from a path in its value to file, line and column. */

import { type Document, isMap, isNode, isScalar, isSeq, LineCounter, type ParsedNode } from 'yaml'
import type { Place, Problem } from '../kernel/problem.ts'
import { mistakesIn } from './yamlNodes.ts'
import { type Mistake, readYaml } from './yamlText.ts'

export type Path = readonly (string | number)[]

export interface Source {
  readonly file: string
  /** As plain data; undefined where the text is malformed. */
  readonly value: unknown
  readonly problems: readonly Problem[]
  /** Where the thing at a path stands; for a path that does not exist, the nearest thing around it. */
  place(path: Path): Place
  /** Where a character of a one-line text stands. */
  placeInText(path: Path, offset: number): Place
  /** Where the key of an entry stands. */
  placeOfKey(path: Path, key: string): Place
}

/** A pack is read anew after each key that is pressed in one of its files: the others are as they were. */
const last = new Map<string, { readonly text: string; readonly source: Source }>()
const MOST_KEPT = 10

export function parseSource(file: string, text: string): Source {
  const before = last.get(file)
  if (before?.text === text) return before.source
  const source = sourceOf(file, text)
  last.delete(file)
  last.set(file, { text, source })
  const [oldest] = last.keys()
  if (last.size > MOST_KEPT && oldest !== undefined) last.delete(oldest)
  return source
}

function sourceOf(file: string, text: string): Source {
  const at = placesIn(file, text)
  const read = readYaml(text)
  const document = 'document' in read ? read.document : undefined
  const { value, mistakes }: Data =
    'document' in read ? dataOf(read.document) : { value: undefined, mistakes: [read.mistake] }
  const contents = document?.contents ?? null
  return {
    file,
    value,
    problems: mistakes.map(({ code = 'yaml.malformed', message, offset }) => {
      return { code, message, place: at(offset), severity: 'error' }
    }),
    place: (path) => at(offsetOf(contents, path)),
    placeInText(path, offset) {
      const start = offsetOf(contents, path)
      const quoted = text[start] === '"' || text[start] === "'"
      const folded = text[start] === '|' || text[start] === '>'
      return at(folded ? start : start + offset + (quoted ? 1 : 0))
    },
    placeOfKey: (path, key) => at(offsetOf(contents, [...path, key], true)),
  }
}

/** From an offset to its line and column. */
function placesIn(file: string, text: string): (offset: number) => Place {
  const lines = new LineCounter()
  lines.addNewLine(0)
  for (const { index } of text.matchAll(/\n/g)) lines.addNewLine(index + 1)
  return (offset) => {
    const { line, col } = lines.linePos(offset)
    return { file, line: Math.max(line, 1), column: Math.max(col, 1) }
  }
}

interface Data {
  readonly value: unknown
  readonly mistakes: readonly Mistake[]
}

/** As plain data. Aliases that unfold beyond all measure are refused by the library, by throwing. */
function dataOf(document: Document.Parsed): Data {
  const mistakes = mistakesIn(document)
  if (mistakes.length > 0) return { value: undefined, mistakes }
  try {
    return { value: document.toJS(), mistakes }
  } catch {
    const message = 'what "&" and "*" name in this file unfolds to too much; write it out where it is needed'
    return { value: undefined, mistakes: [{ offset: 0, message }] }
  }
}

/** The offset of the last node on the way that exists; keys stand for the collections behind them. */
function offsetOf(contents: ParsedNode | null, path: Path, key = false): number {
  let node: unknown = contents
  let offset = contents?.range?.[0] ?? 0
  for (const [number, segment] of path.entries()) {
    const last = number === path.length - 1
    if (isMap(node)) {
      const pair = node.items.find((item) => String(isScalar(item.key) ? item.key.value : item.key) === String(segment))
      if (!pair) return offset
      const plain = isScalar(pair.value) && pair.value.range && pair.value.value !== null
      const shown = last && plain && !key ? pair.value : pair.key
      if (isNode(shown) && shown.range) offset = shown.range[0]
      node = pair.value
    } else if (isSeq(node)) {
      const item: unknown = node.items[Number(segment)]
      if (!isNode(item)) return offset
      if (item.range) offset = item.range[0]
      node = item
    } else return offset
  }
  return offset
}
