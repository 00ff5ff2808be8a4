/** One YAML text with its places: from a path in its value to file, line and column. */

import { type Document, isMap, isNode, isScalar, isSeq, LineCounter, type ParsedNode, parseDocument } from 'yaml'
import type { Place, Problem } from '../kernel/problem.ts'

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

export function parseSource(file: string, text: string): Source {
  const lines = new LineCounter()
  const document = parseDocument(text, { lineCounter: lines, prettyErrors: false })
  const at = (offset: number): Place => {
    const { line, col } = lines.linePos(offset)
    return { file, line: Math.max(line, 1), column: Math.max(col, 1) }
  }
  const problems = document.errors.map(({ code, message, pos }): Problem => {
    const duplicate = code === 'DUPLICATE_KEY'
    return {
      code: duplicate ? 'id.duplicate' : 'yaml.malformed',
      message: duplicate ? 'this name stands here twice; each may stand once' : `malformed YAML: ${message}`,
      place: at(pos[0]),
      severity: 'error',
    }
  })
  const value = problems.length > 0 ? undefined : plain(document, problems, at(0))
  return {
    file,
    value,
    problems,
    place: (path) => at(offsetOf(document.contents, path)),
    placeInText(path, offset) {
      const start = offsetOf(document.contents, path)
      const quoted = text[start] === '"' || text[start] === "'"
      const folded = text[start] === '|' || text[start] === '>'
      return at(folded ? start : start + offset + (quoted ? 1 : 0))
    },
    placeOfKey: (path, key) => at(offsetOf(document.contents, [...path, key], true)),
  }
}

/** As plain data. Aliases that unfold beyond all measure are refused by the library, by throwing. */
function plain(document: Document.Parsed, problems: Problem[], place: Place): unknown {
  try {
    return document.toJS()
  } catch (error) {
    const message = `malformed YAML: ${error instanceof Error ? error.message : error}`
    problems.push({ code: 'yaml.malformed', message, place, severity: 'error' })
    return undefined
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
