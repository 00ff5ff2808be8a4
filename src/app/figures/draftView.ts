/**
 * What the figures screen shows, made from pack, draft, revisions and run: fields to enter, values computed,
 * what the draft changes and what would open again. While a run is on it leaves out what is hidden.
 */

import type { FigureSet, Inputs } from '../../kernel/figures/model.ts'
import { changesBetween, grossErrors } from '../../kernel/figures/revise.ts'
import { shownIn } from '../../kernel/figures/shown.ts'
import type { Pack } from '../../kernel/pack/checklist.ts'
import { itemsOf, listsOf } from '../../kernel/pack/place.ts'
import { restsOf } from '../../kernel/pack/rests.ts'
import type { Problem } from '../../kernel/problem.ts'
import { itemState, listState } from '../../kernel/run/core/progress.ts'
import type { RunState } from '../../kernel/run/core/state.ts'
import type { AppState } from '../store.ts'
import { type ComputedView, computedViews } from './computedView.ts'
import { type FieldGroup, fieldGroups, type LoadField, loadFields } from './fields.ts'
import { figuresRead, type Hidden, hiddenFigures, hiddenUntilAsked } from './hiddenFigures.ts'
import { type LimitView, limitViews } from './limitsView.ts'
import { blanksOnTable } from './preview.ts'
import { type SourcedView, sourcedViews } from './sourcesView.ts'

export interface SituationField {
  readonly name: string
  readonly label: string
  readonly options: readonly { readonly value: string; readonly label: string }[]
  readonly value: string
}

export interface ChangeView {
  readonly label: string
  /** Left out where the value is hidden. */
  readonly from?: string | undefined
  readonly to?: string | undefined
  readonly hidden: boolean
}

export interface DraftView {
  readonly groups: readonly FieldGroup[]
  readonly loads: readonly LoadField[]
  readonly situations: readonly SituationField[]
  /** What entering the draft would change of them in a run: "Stand: leaves under its own power". */
  readonly situationChanges: readonly string[]
  readonly computed: readonly ComputedView[]
  readonly sourced: readonly SourcedView[]
  readonly hidden: ReadonlyMap<string, Hidden>
  /** What is left to each limit, where that gives no hidden value away. */
  readonly limits: readonly LimitView[]
  /** Labels of what has a limit and no value yet. */
  readonly untold: readonly string[]
  /** A drawn departure that is not accepted yet: there is no run in which a value could be shown. */
  readonly isDrawn: boolean
  /** Labels of what the pilot is asked for first, hidden until the figures are accepted; of a drawn departure more is. */
  readonly yours: readonly string[]
  /** Revision in force, as the pilot counts them; 0 before the first. */
  readonly revision: number
  /** Values read back or entered that are other ones than in the revision in force. */
  readonly changes: readonly ChangeView[]
  /** How many workings change besides. */
  readonly workings: number
  /** How many figures moved without another spoken value. */
  readonly unspoken: number
  /** Challenges and lists that entering the draft would open again. */
  readonly reopens: { readonly items: readonly string[]; readonly lists: readonly string[] }
  readonly problems: readonly Problem[]
  /** Of the revision in force, not acknowledged yet. */
  readonly warnings: readonly string[]
}

export function draftView(
  pack: Pack,
  state: Pick<AppState, 'draft' | 'preview' | 'revisions' | 'run' | 'settings' | 'dealt' | 'sheets'>,
): DraftView {
  const { draft, preview, revisions, run, settings, dealt } = state
  const hasStations = run?.status === 'running' ? run.script !== undefined : settings.stations
  const inForce = revisions.at(-1)
  const situation = { ...initial(pack), ...run?.situation, ...(run?.status !== 'running' && draft.situation) }
  const isDrawn = !run && dealt !== undefined
  const isAskedFirst = !run && !isDrawn && settings.ownValues
  const hiddenNow = isAskedFirst
    ? hiddenUntilAsked(pack, situation)
    : hiddenFigures(pack, run, isDrawn ? situation : undefined)
  // What stations give does not come from a sheet while they are there.
  const isGiven = (name: string) => run?.script !== undefined && pack.figures.declarations[name]?.given !== undefined
  const changes =
    inForce && preview ? changesBetween(inForce.set, preview).filter(({ figure }) => !isGiven(figure)) : []
  const slips = inForce && preview ? grossErrors(pack.figures, inForce.set, preview) : []
  const spoken = changes.filter((change) => change.spoken)
  const moved = run?.status === 'running' ? spoken.map(({ figure }) => figure) : []
  const hidden = withMoved(pack, hiddenNow, moved, figuresRead(pack, situation))
  const computed = computedViews(pack, preview, inForce?.set, hidden, situation)
  const workings = new Set(computed.filter(({ read }) => !read).map(({ name }) => name))
  const told = spoken.filter(({ figure }) => !workings.has(figure))
  return {
    groups: fieldGroups(pack, draft, inForce?.inputs, hidden, hasStations),
    loads: loadFields(pack, draft),
    situations: pack.situations.map(({ name, label, options }) => ({
      name,
      label,
      options,
      value: draft.situation?.[name] ?? situation[name] ?? '',
    })),
    situationChanges: situationChanges(pack, draft, run),
    computed,
    sourced: sourcedViews(pack, draft, preview, inForce, hidden, blanksOnTable(pack, draft, state)),
    hidden,
    limits: preview ? limitViews(pack, preview, hidden) : [],
    untold: preview ? withoutValue(pack, preview) : [],
    isDrawn,
    yours: isAskedFirst ? computed.filter((one) => one.hidden === 'own').map(({ label }) => label) : [],
    revision: inForce?.accepted ?? 0,
    changes: told.map(({ figure, label }) => {
      if (hidden.has(figure)) return { label, hidden: true }
      const [from, to] = [inForce?.set, preview].map((set) => (set && shownIn(set, figure)) ?? 'none')
      return { label, hidden: false, from, to }
    }),
    workings: spoken.length - told.length,
    unspoken: changes.length - spoken.length,
    reopens: reopens(pack, run, new Set(spoken.map(({ figure }) => figure))),
    problems: [...(preview?.problems ?? []), ...slips].map((problem) => ({
      ...problem,
      message: discreet(pack, problem, hidden),
    })),
    warnings: (run?.warnings ?? []).map((message) =>
      discreet(pack, { code: 'warning', message, severity: 'error' }, hidden),
    ),
  }
}

/** A computed value that was given belongs to the revision in force: another one is as hidden as it was. */
function withMoved(
  pack: Pack,
  hidden: ReadonlyMap<string, Hidden>,
  moved: readonly string[],
  read: ReadonlySet<string>,
): ReadonlyMap<string, Hidden> {
  const own = moved.filter((name) => pack.figures.declarations[name]?.derived && read.has(name) && !hidden.has(name))
  return new Map([...hidden, ...own.map((name) => [name, 'own'] as const)])
}

function withoutValue({ figures }: Pack, set: FigureSet): string[] {
  return Object.values(figures.declarations).flatMap(({ name, label, limits }) =>
    limits && set.figures[name]?.exact === undefined ? [label] : [],
  )
}

function initial(pack: Pack): Record<string, string> {
  return Object.fromEntries(pack.situations.map((one) => [one.name, one.initial]))
}

function situationChanges(pack: Pack, { situation = {} }: Inputs, run: RunState | undefined): string[] {
  if (run?.status !== 'running') return []
  return pack.situations.flatMap(({ name, label, options }) => {
    const [from, to] = [run.situation[name], situation[name]]
    if (to === undefined || from === to) return []
    return [`${label}: ${options.find(({ value }) => value === to)?.label ?? to}`]
  })
}

/** Items answered on a figure that changes, and lists complete over one of them. */
function reopens(pack: Pack, run: RunState | undefined, moved: ReadonlySet<string>): DraftView['reopens'] {
  if (run?.status !== 'running') return { items: [], lists: [] }
  const found = listsOf(pack).map((list) => ({
    list,
    items: itemsOf(list, run).filter(
      (item) => itemState(run, item.id).status === 'done' && restsOf(item, run).some((name) => moved.has(name)),
    ),
  }))
  return {
    items: found.flatMap(({ items }) => items.map((item) => item.challenge)),
    lists: found
      .filter(({ list, items }) => items.length > 0 && listState(run, list.id).complete)
      .map(({ list }) => list.name),
  }
}

/** A problem may name the value it is about: a hidden value is left out of it. */
function discreet(pack: Pack, problem: Problem, hidden: ReadonlyMap<string, Hidden>): string {
  if (problem.code === 'input.missing' || !/\d/.test(problem.message)) return problem.message
  const { message } = problem
  const named = [...hidden.keys()].map((name) => ({ name, label: pack.figures.declarations[name]?.label ?? name }))
  // The first one named is what it is about: "takeoff CG 34.1 % MAC is 1 aft of the envelope at takeoff weight ...".
  const [about] = named
    .filter(({ label }) => message.includes(label))
    .sort((a, b) => message.indexOf(a.label) - message.indexOf(b.label) || b.label.length - a.label.length)
  if (!about) return message
  const { name, label } = about
  // By how much is told of a value that nobody has to read back; of one that is read back it would be as good as the value.
  const [, over, by] = /^(.+ (?:over|below) .+) by (.+) \(.+\)$/.exec(message) ?? []
  if (over && by)
    return hidden.get(name) === 'near' ? `${over} by ${by}` : `${over}; show its value to read by how much`
  if (problem.code === 'source.differs') return `${label}: sources differ; choose one and say why`
  const isError = problem.severity === 'error'
  return `${label}: ${isError ? 'something is wrong with it' : 'it is worth a second look'}; show its value to read what`
}
