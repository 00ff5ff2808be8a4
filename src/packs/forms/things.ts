/** What of a pack's file has a form: where it stands, what it is called, and what a new one begins with. */

import type { Path } from '../source.ts'
import type { Written } from './written.ts'

export interface ThingKind {
  /** As a person calls it. */
  readonly name: string
  readonly way: readonly string[]
  /** The field that tells it from what stands at the same place. */
  readonly by?: string
  /** That field holds words for people, and no name. */
  readonly isWorded?: boolean
  /** What a new one holds, in place of `name` its own. */
  readonly begin?: (name: string) => Written
}

const item = (name: string) => ({ item: name, challenge: '', response: '' })
const ENTRY = ['phases', '#', 'activities', '#', 'entries', '#']
const option = () => ({ label: '', say: [''] })
const figure = () => ({ label: '', kind: 'integer', entered: {} })

/** `#` is any place in a list, `*` any name. */
export const THINGS: Readonly<Record<string, readonly ThingKind[]>> = {
  'pack.yaml': [
    { name: 'option', way: ['situations', '*', 'options', '*'], begin: option },
    {
      name: 'situation',
      way: ['situations', '*'],
      begin: () => ({ label: '', initial: 'no', options: { no: option(), yes: option() } }),
    },
    { name: 'pack', way: [] },
  ],
  'figures.yaml': [
    { name: 'station', way: ['stations', '*'], begin: () => ({ label: '', arm: 0 }) },
    { name: 'tank', way: ['tanks', '#', '*'], begin: () => ({ label: '', capacity: 1, arm: 0 }) },
    { name: 'envelope', way: ['envelopes', '*'] },
    { name: 'figure', way: ['figures', '*'], begin: figure },
  ],
  'tables.yaml': [
    {
      name: 'table',
      way: ['tables', '*'],
      begin: () => ({ label: '', unit: 'none', axes: [{ name: 'x', unit: 'none', at: [0, 1] }], cells: [0, 0] }),
    },
  ],
  'procedures.yaml': [
    { name: 'item', way: ENTRY, by: 'item', begin: item },
    {
      name: 'question',
      way: ENTRY,
      by: 'question',
      begin: (name) => ({ question: name, challenge: '', decides: '' }),
    },
    { name: 'line', way: ENTRY, by: 'line', begin: (name) => ({ line: name, label: '', say: [''] }) },
    { name: 'heading', way: ENTRY, by: 'heading', isWorded: true, begin: () => ({ heading: '' }) },
    { name: 'note', way: ENTRY, by: 'note', isWorded: true, begin: () => ({ note: '' }) },
    {
      name: 'step',
      way: ['phases', '#', 'activities', '#', 'steps', '#'],
      by: 'step',
      begin: (name) => ({ step: name, text: '' }),
    },
    {
      name: 'list',
      way: ['phases', '#', 'activities', '#'],
      by: 'list',
      begin: (name) => ({ list: name, name: '', entries: [item(`${name}Item`)] }),
    },
    { name: 'flow', way: ['phases', '#', 'activities', '#'], by: 'flow' },
    { name: 'watch', way: ['phases', '#', 'activities', '#'], by: 'watch' },
    { name: 'exchange', way: ['phases', '#', 'activities', '#'], by: 'exchange' },
    { name: 'briefing', way: ['phases', '#', 'activities', '#'], by: 'briefing' },
    { name: 'phase', way: ['phases', '#'], by: 'phase' },
  ],
}

export interface Thing {
  readonly kind: ThingKind
  readonly path: Path
}

/** Names of the kinds that may be put behind one of a kind. */
export function besideOf(file: string, kind: string): readonly string[] {
  const all = THINGS[file] ?? []
  const way = all.find(({ name }) => name === kind)?.way.join(' ')
  const beside = all.filter((one) => one.begin && one.way.join(' ') === way).map(({ name }) => name)
  return beside.toSorted((one, other) => Number(other === kind) - Number(one === kind))
}

/** Names of the kinds that stand under a name of the file's own: a figure, a table. */
export function topOf(file: string): readonly string[] {
  return (THINGS[file] ?? []).filter(({ begin, way }) => begin && way.length === 2).map(({ name }) => name)
}

/** Names of the kinds that may be put into one of a kind, in a list of it. */
export function insideOf(file: string, { way, by }: ThingKind): readonly string[] {
  const inner = (by && INNER[by]) ?? ''
  const own = [...way, inner, '#'].join(' ')
  return (THINGS[file] ?? []).filter((one) => one.begin && one.way.join(' ') === own).map(({ name }) => name)
}

/** What stands in what, and where. */
export const INNER: Readonly<Record<string, string>> = { list: 'entries', flow: 'steps', phase: 'activities' }

/** What stands in it under names, each with a form of its own. */
export const INNER_NAMED: Readonly<Record<string, string>> = { situation: 'options' }

/** The innermost thing on the way to a place. */
export function thingOn(file: string, path: Path, data: unknown): Thing | undefined {
  for (const kind of THINGS[file] ?? []) {
    const start = path.slice(0, kind.way.length)
    if (start.length < kind.way.length || !kind.way.every((word, at) => isOn(word, start[at]))) continue
    const value = valueAt(data, start)
    if (!isNamed(value) || (kind.by !== undefined && !Object.hasOwn(value, kind.by))) continue
    return { kind, path: start }
  }
  return undefined
}

/** All of a file, in their order in it. */
export function thingsIn(file: string, data: unknown): Thing[] {
  const found: Thing[] = []
  const visit = (value: unknown, path: Path): void => {
    const thing = thingOn(file, path, data)
    if (thing && thing.path.length === path.length) found.push(thing)
    if (path.length >= 6) return
    if (Array.isArray(value)) for (const [index, one] of value.entries()) visit(one, [...path, index])
    else if (isNamed(value)) for (const [name, one] of Object.entries(value)) visit(one, [...path, name])
  }
  visit(data, [])
  return found
}

/** "flaps", "before start": as it is named in words, or by its name. */
export function titleOf({ kind, path }: Thing, data: unknown): string {
  const value = valueAt(data, path)
  const words = ['challenge', 'label', 'name', 'text'].map((field) => get(value, field))
  const found = words.find((one) => typeof one === 'string' && one.trim() !== '')
  const name = kind.by === undefined ? path.at(-1) : get(value, kind.by)
  return String(found ?? name ?? kind.name)
}

export function valueAt(data: unknown, path: Path): unknown {
  return path.reduce<unknown>((here, segment) => get(here, segment), data)
}

export const isNamed = (value: unknown): value is Readonly<Record<string, unknown>> =>
  value instanceof Object && !Array.isArray(value)

function get(value: unknown, field: string | number): unknown {
  return value instanceof Object && Object.hasOwn(value, field)
    ? (value as Readonly<Record<string | number, unknown>>)[field]
    : undefined
}

function isOn(word: string, segment: string | number | undefined): boolean {
  return word === '#' ? typeof segment === 'number' : word === '*' ? typeof segment === 'string' : word === segment
}
