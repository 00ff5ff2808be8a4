/** What the buttons and fields of a form do to the text. */

import type { ParsedNode } from 'yaml'
import { readYaml } from '../yamlText.ts'
import { type Edit, edited, nodeAt } from './edits.ts'
import type { Field, FieldValue, Form } from './form.ts'
import { isNamed, THINGS, valueAt } from './things.ts'

export interface Changed {
  readonly text: string
  /** Where the cursor is to stand. */
  readonly offset?: number
}

/** A field's new value; undefined takes it out of the text. */
export function withField(text: string, field: Field, value: FieldValue | undefined): string | undefined {
  if (value !== undefined) return edited(text, { type: 'set', path: field.path, value, order: field.order })
  return field.isThere ? edited(text, { type: 'remove', path: field.path }) : text
}

export function withGroup(text: string, { path, order }: Field, isWanted: boolean): string | undefined {
  return edited(text, isWanted ? { type: 'set', path, value: {}, order } : { type: 'remove', path })
}

export type ThingChange = 'add' | 'delete' | 'up' | 'down'

/** One like it behind it, or it taken out, or moved among its like. */
export function withThing(text: string, file: string, form: Form, change: ThingChange): Changed | undefined {
  const { path, at } = form
  if (change === 'delete') {
    const next = edited(text, { type: 'remove', path, notes: true })
    const left = next === undefined ? undefined : siblings(next, path.slice(0, -1))
    const neighbour = left?.[Math.max(0, Math.min(at, left.length - 1))]
    return next === undefined ? undefined : { text: next, offset: offsetAt(next, neighbour ?? path.slice(0, -1)) }
  }
  if (change === 'add') return withNew(text, file, form)
  const by = change === 'up' ? -1 : 1
  const next = edited(text, { type: 'move', path, by })
  if (next === undefined) return undefined
  const last = path.at(-1)
  return { text: next, offset: offsetAt(next, typeof last === 'number' ? [...path.slice(0, -1), last + by] : path) }
}

export function canAdd(file: string, kind: string): boolean {
  return (THINGS[file] ?? []).some(({ name, begin }) => name === kind && begin)
}

function withNew(text: string, file: string, { kind, path }: Form): Changed | undefined {
  const thing = (THINGS[file] ?? []).find(({ name }) => name === kind)
  const taken = namesOf(text, thing?.by, path)
  let number = 1
  while (taken.has(`${kind}${number}`)) number++
  const name = `${kind}${number}`
  const isInList = typeof path.at(-1) === 'number'
  const value = thing?.begin?.(name)
  if (value === undefined) return undefined
  const edit: Edit = { type: 'add', path, value, ...(!isInList && { name }) }
  const next = edited(text, edit)
  const at = isInList ? [...path.slice(0, -1), Number(path.at(-1)) + 1] : [...path.slice(0, -1), name]
  return next === undefined ? undefined : { text: next, offset: offsetAt(next, at) }
}

/** Names that a new one must not have. */
function namesOf(text: string, by: string | undefined, path: readonly (string | number)[]): ReadonlySet<string> {
  const around = valueAt(dataOf(text), path.slice(0, -1))
  if (isNamed(around)) return new Set(Object.keys(around))
  // Names of lists and of their items are looked for everywhere, since both may be asked for by them.
  const found = by === undefined ? [] : [...text.matchAll(new RegExp(`\\b${by}: *["']?(\\w+)`, 'g'))]
  return new Set(found.map(([, name = '']) => name))
}

function siblings(text: string, path: readonly (string | number)[]): (readonly (string | number)[])[] {
  const around = valueAt(dataOf(text), path)
  if (Array.isArray(around)) return around.map((_, index) => [...path, index])
  return isNamed(around) ? Object.keys(around).map((name) => [...path, name]) : []
}

function dataOf(text: string): unknown {
  const read = readYaml(text)
  return 'document' in read ? read.document.toJS() : undefined
}

function offsetAt(text: string, path: readonly (string | number)[]): number {
  const read = readYaml(text)
  const node = 'document' in read ? (nodeAt(read.document.contents, path) as ParsedNode | undefined) : undefined
  return node?.range?.[0] ?? 0
}
