/** Finding things in a pack, and what of it applies in a situation. */

import { type Ground, holds, namesIn } from '../figures/condition.ts'
import type { FigureDeclaration } from '../figures/pack.ts'
import type { Figure, Gauge, Judged, Value } from '../kinds/kind.ts'
import type { Band } from '../kinds/value.ts'
import { ownOf } from '../own.ts'
import type { Least } from '../response/expansion.ts'
import type { Response } from '../response/response.ts'
import { convert } from '../units.ts'
import type { Activity, Flow, Item, Line, List, Note, Pack, Step } from './checklist.ts'

/** Activities that apply, in order, each with the number of its phase and its place in it. */
export function agenda(pack: Pack, ground: Ground): { phase: number; index: number; activity: Activity }[] {
  return pack.phases.flatMap((phase, number) =>
    phase.activities.flatMap((activity, index) =>
      holds(activity.when, ground) ? [{ phase: number, index, activity }] : [],
    ),
  )
}

export function listsOf(pack: Pack): List[] {
  return pack.phases.flatMap((phase) => phase.activities.filter((activity) => activity.type === 'list'))
}

export function flowsOf(pack: Pack): Flow[] {
  return pack.phases.flatMap((phase) => phase.activities.filter((activity) => activity.type === 'flow'))
}

/** Steps of a flow that apply. */
export function stepsOf(flow: Flow, ground: Ground): Step[] {
  return flow.steps.filter((step) => holds(step.when, ground))
}

/** A log may only name what its pack has: anything else is a bug, or another pack. */
export function listById(pack: Pack, id: string): List {
  const list = listsOf(pack).find((candidate) => candidate.id === id)
  if (!list) throw new Error(`pack ${pack.id} has no list ${id}`)
  return list
}

export function entriesOf(list: List, ground: Ground): (Item | Line)[] {
  return list.entries.filter((entry) => holds(entry.when, ground))
}

/** Entries that apply with the notes between them, as the list is read; without a ground all of them. */
export function readingOrder(list: List, ground?: Ground): (Item | Line | Note)[] {
  const applies = ({ when }: Item | Line | Note) => ground === undefined || holds(when, ground)
  const notesAt = (place: number) => (list.notes ?? []).filter((note) => note.place === place)
  const all = [...list.entries.flatMap((entry, index) => [...notesAt(index), entry]), ...notesAt(list.entries.length)]
  return all.filter(applies)
}

export function itemsOf(list: List, ground: Ground): Item[] {
  return entriesOf(list, ground).filter((entry) => entry.type === 'item')
}

export function findItem(pack: Pack, id: string): { item: Item; list: List } {
  for (const list of listsOf(pack)) {
    const item = list.entries.find((entry) => entry.type === 'item' && entry.id === id)
    if (item?.type === 'item') return { item, list }
  }
  throw new Error(`pack ${pack.id} has no item ${id}`)
}

export function findLine(list: List, id: string): Line {
  const line = list.entries.find((entry) => entry.type === 'line' && entry.id === id)
  if (line?.type !== 'line') throw new Error(`list ${list.id} has no line ${id}`)
  return line
}

/** Undefined for what the pack does not have. */
export function activityById({ phases }: Pack, id: string): Activity | undefined {
  return phases.flatMap(({ activities }) => activities).find((one) => one.id === id)
}

/** As it stands in the pack; empty for what the pack does not have. */
export function activityName(pack: Pack, id: string): string {
  return activityById(pack, id)?.name ?? ''
}

/** The first response whose condition holds. A checked pack always has one. */
export function responseOf(item: Item, ground: Ground): Response {
  const found = item.responses.find(({ when }) => holds(when, ground))
  if (!found) throw new Error(`item ${item.id} has no response for this situation and these figures`)
  return found.response
}

/** Names of the figures that decide whether an item applies, and with which response. */
export function figuresDeciding({ figures: { declarations } }: Pack, { when, responses }: Item): string[] {
  const names = [when, ...responses.map((one) => one.when)].flatMap(namesIn)
  return [...new Set(names)].filter((name) => ownOf(declarations, name))
}

/** Names of the figures said in the answer to an item. */
export function saidFigures(item: Item, ground: Ground): readonly string[] {
  return responseOf(item, ground).figures
}

/** How many figures and parts the shortest answer to an item has. */
export function saidAtLeast(item: Item, ground: Ground): Least {
  return responseOf(item, ground).least
}

/** The figures of a response that have a value, in the form that judging takes; one that is read off a gauge has none. */
export function figuresFor(
  pack: Pack,
  values: Readonly<Record<string, Value>>,
  names: readonly string[],
): Record<string, Figure> {
  return Object.fromEntries(
    names.flatMap((name) => {
      const declared = ownOf(pack.figures.declarations, name)
      const value = ownOf(values, name)
      if (!declared || value === undefined) return []
      return [[name, { ...declared.spec, value, ...(declared.accept && { accept: declared.accept }) } as Figure]]
    }),
  )
}

/** The same with those that are read off gauges; left out where what limits one has no value yet. */
export function judgedFor(pack: Pack, values: Readonly<Record<string, Value>>, names: readonly string[]): Judged {
  const gauges = names.flatMap((name): [string, Gauge][] => {
    const declared = ownOf(pack.figures.declarations, name)
    const read = declared?.read && endsOf(pack, values, declared)
    return declared && read ? [[name, { ...declared.spec, read } as Gauge]] : []
  })
  return { ...figuresFor(pack, values, names), ...Object.fromEntries(gauges) }
}

/** Where a reading must lie, in its own unit; undefined while a figure that limits it has no value. */
function endsOf(
  { figures: { declarations } }: Pack,
  values: Readonly<Record<string, Value>>,
  { read = {}, measure }: FigureDeclaration,
): Band | undefined {
  const ends: { min?: number; max?: number } = {}
  for (const end of ['min', 'max'] as const) {
    const limit = read[end]
    if (limit === undefined) continue
    const value = typeof limit === 'number' ? limit : ownOf(values, limit)
    if (typeof value !== 'number') return undefined
    const unit = typeof limit === 'string' ? ownOf(declarations, limit)?.measure : undefined
    ends[end] = unit && measure ? convert(value, unit, measure) : value
  }
  return ends
}

/** Figures without which nobody can say whether a reading is right. */
export function limitsOf({ declarations }: Pack['figures'], name: string): string[] {
  const { min, max } = ownOf(declarations, name)?.read ?? {}
  return [min, max].filter((one) => typeof one === 'string')
}

/** An activity as a place of the run, with its phase where that has another name: "Push and start, before start list". */
export function placeToBegin({ phases }: Pack, id: string): string {
  const phase = phases.find(({ activities }) => activities.some((one) => one.id === id))
  const name = phase?.activities.find((one) => one.id === id)?.name ?? ''
  return phase && phase.name.toLowerCase() !== name.toLowerCase() ? `${phase.name}, ${name}` : name
}
