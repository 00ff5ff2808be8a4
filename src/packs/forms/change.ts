/** What the buttons and fields of a form do to the text. */

import type { ParsedNode } from 'yaml'
import { readYaml } from '../yamlText.ts'
import { type Edit, edited, nodeAt } from './edits.ts'
import type { Field, FieldValue, Form } from './form.ts'
import { INNER, isNamed, THINGS, valueAt } from './things.ts'
import { writtenInLine } from './written.ts'

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

export type ThingChange =
  | 'delete'
  | 'up'
  | 'down'
  /** One of a kind behind it, or inside it behind all others. */
  | { readonly beside: string }
  | { readonly inside: string }

/** Another one put beside or into it, or it taken out, or moved among its like. */
export function withThing(text: string, file: string, form: Form, change: ThingChange): Changed | undefined {
  const { path, at } = form
  if (change === 'delete') {
    const next = edited(text, { type: 'remove', path, notes: true })
    const left = next === undefined ? undefined : siblings(next, path.slice(0, -1))
    const neighbour = left?.[Math.max(0, Math.min(at, left.length - 1))]
    return next === undefined ? undefined : { text: next, offset: offsetAt(next, neighbour ?? path.slice(0, -1)) }
  }
  if (typeof change !== 'string') return withNew(text, file, form, change)
  const by = change === 'up' ? -1 : 1
  const next = edited(text, { type: 'move', path, by })
  if (next === undefined) return undefined
  const last = path.at(-1)
  return { text: next, offset: offsetAt(next, typeof last === 'number' ? [...path.slice(0, -1), last + by] : path) }
}

type Addition = Exclude<ThingChange, string>

function withNew(text: string, file: string, { path, kindBy }: Form, change: Addition): Changed | undefined {
  const isInside = 'inside' in change
  const kind = isInside ? change.inside : change.beside
  const thing = (THINGS[file] ?? []).find(({ name }) => name === kind)
  const behind = isInside ? lastIn(text, [...path, INNER[kindBy ?? ''] ?? '']) : path
  const around = behind.slice(0, -1)
  const name = nameFor(kind, namesOf(text, thing?.by, around))
  const last = behind.at(-1)
  const value = thing?.begin?.(name)
  if (value === undefined) return undefined
  const edit: Edit = { type: 'add', path: behind, value, ...(typeof last === 'string' && { name }) }
  const next = edited(text, edit)
  const at = [...around, typeof last === 'number' ? last + 1 : name]
  return next === undefined ? undefined : { text: next, offset: offsetAt(next, at) }
}

/** One of a kind of the file's own behind the others of its kind, also in a file that is empty. */
export function withTop(text: string, file: string, kind: string): Changed | undefined {
  const thing = (THINGS[file] ?? []).find(({ name }) => name === kind)
  const group = thing?.way[0]
  if (!thing || group === undefined) return undefined
  const data = dataOf(text)
  const all = valueAt(data, [group])
  const names = isNamed(all) ? Object.keys(all) : []
  const name = nameFor(kind, new Set(names))
  const value = thing.begin?.(name)
  if (value === undefined) return undefined
  const last = names.at(-1)
  const begun = text === '' || text.endsWith('\n') ? text : `${text}\n`
  const next = isNamed(data)
    ? edited(
        text,
        last === undefined
          ? { type: 'set', path: [group, name], value }
          : { type: 'add', path: [group, last], value, name },
      )
    : `${begun}${group}:\n  ${name}: ${writtenInLine(value)}\n`
  return next === undefined ? undefined : { text: next, offset: offsetAt(next, [group, name]) }
}

function nameFor(kind: string, taken: ReadonlySet<string>): string {
  let number = 1
  while (taken.has(`${kind}${number}`)) number++
  return `${kind}${number}`
}

/** Place of the last one of a list; -1 in an empty one. */
function lastIn(text: string, path: readonly (string | number)[]): readonly (string | number)[] {
  const all = valueAt(dataOf(text), path)
  return [...path, (Array.isArray(all) ? all.length : 0) - 1]
}

/** Names that a new one must not have. */
function namesOf(text: string, by: string | undefined, path: readonly (string | number)[]): ReadonlySet<string> {
  const around = valueAt(dataOf(text), path)
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
