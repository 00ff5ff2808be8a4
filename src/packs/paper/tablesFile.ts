/** A pasted table in the tables.yaml of a pack: behind those that are there, with its questions. */

import { edited } from '../forms/edits.ts'
import { readYaml } from '../yamlText.ts'
import { draftTable } from './draftTable.ts'
import { counted } from './names.ts'

export interface TablesFile {
  readonly text: string
  /** Of the table in it. */
  readonly name: string
  /** Where that stands, in characters. */
  readonly at: number
}

/**
 * `pasted` holds one table; `''` for a file that is not there yet. A name that another table has is counted on. Undefined
 * where there is no table, or the file cannot take it without touching something else.
 */
export function withPastedTable(file: string, pasted: string): TablesFile | undefined {
  const before = tablesIn(file)
  if (!before) return undefined
  const taken = new Set(Object.keys(before).map((name) => name.toLowerCase()))
  const first = draftTable(pasted)
  const name = first && counted(first.name, taken)
  const draft = name === first?.name ? first : draftTable(pasted, name)
  if (!draft) return undefined
  const text = put(file, Object.keys(before).at(-1), draft.name, draft.yaml)
  const wanted = { ...before, ...tablesIn(draft.yaml) }
  if (text === undefined || JSON.stringify(tablesIn(text)) !== JSON.stringify(wanted)) return undefined
  return { text, name: draft.name, at: text.search(new RegExp(`(?<=^ +)${draft.name}:$`, 'm')) }
}

/** By name; undefined where the file cannot be read. */
function tablesIn(file: string): Readonly<Record<string, unknown>> | undefined {
  const read = readYaml(file)
  if (!('document' in read)) return undefined
  const tables = (read.document.toJS() as { tables?: unknown } | null)?.tables ?? {}
  return tables instanceof Object && !Array.isArray(tables) ? (tables as Record<string, unknown>) : undefined
}

function put(file: string, last: string | undefined, name: string, yaml: string): string | undefined {
  if (last === undefined) {
    const rest = file.replace(/^tables:[ \t]*(?:\{[ \t]*\})?[ \t]*(?:\n|$)/m, '')
    return rest === '' || rest.endsWith('\n') ? rest + yaml : `${rest}\n${yaml}`
  }
  const marked = edited(file, { type: 'add', path: ['tables', last], value: {}, name })
  const [line, indent] = marked === undefined ? [] : (new RegExp(`^( +)${name}: \\{\\}$`, 'm').exec(marked) ?? [])
  if (marked === undefined || line === undefined || indent === undefined) return undefined
  // All below "tables:", which a draft sets in by two.
  const body = yaml
    .trimEnd()
    .split('\n')
    .slice(1)
    .map((one) => indent + one.slice(2))
  return marked.replace(line, () => body.join('\n'))
}
