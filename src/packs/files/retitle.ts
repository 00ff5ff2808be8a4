/** Another name or id in pack.yaml, and not a letter changed besides. */

import { isMap, isScalar, parseDocument } from 'yaml'
import { isError } from '../../kernel/problem.ts'
import { parseSource } from '../source.ts'
import type { PackTexts } from './parts.ts'

/** Undefined where pack.yaml cannot be read, or states no such field in one line: then it is changed by hand. */
export function retitled(
  files: PackTexts,
  title: { readonly id?: string; readonly name?: string },
): PackTexts | undefined {
  let text = files['pack.yaml']
  for (const [field, value] of Object.entries(title)) {
    if (text !== undefined) text = replaced(text, field, value)
  }
  return text === undefined ? undefined : { ...files, 'pack.yaml': text }
}

function replaced(text: string, field: string, value: string): string | undefined {
  if (parseSource('pack.yaml', text).problems.some(isError)) return undefined
  const { contents } = parseDocument(text)
  const node = isMap(contents) ? contents.get(field, true) : undefined
  if (!isScalar(node) || !node.range) return undefined
  const [from, to] = node.range
  const isPlain = /^[A-Za-z][\w-]*( [A-Za-z][\w-]*)*$/.test(value) && !/^(true|false|null|yes|no|on|off)$/i.test(value)
  return text.slice(0, from) + (isPlain ? value : JSON.stringify(value)) + text.slice(to)
}

/** A copy has an id and a name of its own, where these can be read. `taken`: ids that are there. */
export function copied(
  files: PackTexts,
  { id, name }: { id: string; name: string },
  taken: ReadonlySet<string>,
): PackTexts {
  if (id === '') return files
  const base = id.replace(/-\d+$/, '')
  let number = 2
  while (taken.has(`${base}-${number}`)) number++
  return (
    retitled(files, { id: `${base}-${number}`, name: `${name} (copy${number > 2 ? ` ${number - 1}` : ''})` }) ?? files
  )
}
