/** Whether a pack's procedures hold together: ids stand once, situations and figures exist, responses parse, every case is covered. */

import type { Problem } from '../kernel/problem.ts'
import { figuresOf, parseResponse } from '../kernel/response/parse.ts'
import { conditionOf } from './buildPack.ts'
import { didYouMean } from './nearest.ts'
import type { PackText } from './packSchema.ts'
import type { FlowText, ItemText, ListText, ProceduresText, WatchText } from './proceduresSchema.ts'
import type { Path, Source } from './source.ts'

type When = ItemText['when']
type ActivityText = FlowText | ListText | WatchText

/** Too many situations named in one item to try them all. */
const MOST_COMBINATIONS = 4096

/** One file on its way: what there is to name, and what was wrong. */
interface Checking {
  readonly source: Source
  readonly problems: Problem[]
  /** Undefined where pack.yaml could not be read: then its situations are not checked. */
  readonly pack: PackText | undefined
  /** Names of the pack's figures; undefined where that file could not be read. */
  readonly figures: readonly string[] | undefined
  /** All that an interlock may come after. */
  readonly events: readonly string[]
}

export function checkProcedures(
  source: Source,
  procedures: ProceduresText,
  pack: PackText | undefined,
  figures: readonly string[] | undefined,
): Problem[] {
  const activities = procedures.phases.flatMap((phase) => phase.activities)
  const checking: Checking = { source, problems: [], pack, figures, events: activities.flatMap(eventsOf) }
  const [phases, ids, names] = [new Set<string>(), new Set<string>(), new Set<string>()]
  for (const [number, phase] of procedures.phases.entries()) {
    once(checking, phases, phase.phase, 'phase', ['phases', number, 'phase'])
    for (const [index, activity] of phase.activities.entries()) {
      const path: Path = ['phases', number, 'activities', index]
      const type = typeOf(activity)
      once(checking, ids, idOf(activity), type, [...path, type])
      for (const name of 'list' in activity ? [activity.name, ...activity.alsoCalled] : []) {
        once(checking, names, name, 'list name', [...path, 'name'])
      }
      checkActivity(checking, activity, path)
    }
  }
  return checking.problems
}

function typeOf(activity: ActivityText): 'flow' | 'list' | 'watch' {
  if ('flow' in activity) return 'flow'
  return 'list' in activity ? 'list' : 'watch'
}

function idOf(activity: ActivityText): string {
  if ('flow' in activity) return activity.flow
  return 'list' in activity ? activity.list : activity.watch
}

function eventsOf(activity: ActivityText): string[] {
  const id = idOf(activity)
  if ('flow' in activity) return activity.steps.map(({ step }) => `${id}.${step}`)
  if ('watch' in activity) return [id]
  const entries = activity.entries.map((entry) =>
    'item' in entry ? `${id}.${entry.item}` : `cleared:${entry.clearance ?? entry.line}`,
  )
  return [id, ...entries]
}

function report({ source, problems }: Checking, code: string, path: Path, message: string): void {
  problems.push({ code, message, place: source.place(path), severity: 'error' })
}

function once(checking: Checking, seen: Set<string>, id: string, what: string, path: Path): void {
  const key = id.toLowerCase()
  if (seen.has(key)) report(checking, 'id.duplicate', path, `${what} "${id}" stands twice; each must be its own`)
  seen.add(key)
}

function checkFigure(checking: Checking, name: string, path: Path): void {
  const { figures } = checking
  if (!figures || figures.includes(name)) return
  report(checking, 'figure.unknown', path, `no figure is called "${name}"${didYouMean(name, figures)}`)
}

function checkCondition(checking: Checking, when: When, path: Path): void {
  const situations = checking.pack?.situations
  if (!situations) return
  for (const [name, values] of Object.entries(conditionOf(when) ?? {})) {
    const at: Path = [...path, name]
    const options = Object.hasOwn(situations, name) ? Object.keys(situations[name]?.options ?? {}) : undefined
    if (!options) {
      const known = Object.keys(situations)
      report(checking, 'situation.unknown', at, `no situation is called "${name}"${didYouMean(name, known)}`)
      continue
    }
    for (const value of values.filter((one) => !options.includes(one))) {
      report(checking, 'situation.value', at, `situation ${name} has no "${value}"${didYouMean(value, options)}`)
    }
  }
}

function checkInterlocks(checking: Checking, interlocks: ItemText['interlocks'], path: Path): void {
  for (const [index, { after }] of (interlocks ?? []).entries()) {
    if (checking.events.includes(after)) continue
    const message = `nothing is called "${after}"${didYouMean(after, checking.events)}`
    report(checking, 'interlock.unknown', [...path, 'interlocks', index, 'after'], message)
  }
}

function checkResponse({ source, problems, figures }: Checking, text: string, path: Path): void {
  const add = (code: string, offset: number, message: string) =>
    problems.push({ code, message, place: source.placeInText(path, offset), severity: 'error' })
  const parsed = parseResponse(text)
  if ('problems' in parsed) {
    for (const { message, offset } of parsed.problems) add('response.malformed', offset, `response: ${message}`)
    return
  }
  for (const name of figuresOf(parsed.response).filter((one) => figures && !figures.includes(one))) {
    const offset = Math.max(0, text.indexOf(`<${name}>`))
    add('figure.unknown', offset, `no figure is called "${name}"${didYouMean(name, figures ?? [])}`)
  }
}

function checkActivity(checking: Checking, activity: ActivityText, path: Path): void {
  checkCondition(checking, activity.when, [...path, 'when'])
  if ('flow' in activity) checkFlow(checking, activity, path)
  else if ('list' in activity) checkList(checking, activity, path)
  else checkWatch(checking, activity, path)
}

function checkFlow(checking: Checking, { steps }: FlowText, path: Path): void {
  const ids = new Set<string>()
  for (const [index, step] of steps.entries()) {
    const at: Path = [...path, 'steps', index]
    once(checking, ids, step.step, 'step', [...at, 'step'])
    checkCondition(checking, step.when, [...at, 'when'])
    for (const [number, name] of step.sets.entries()) checkFigure(checking, name, [...at, 'sets', number])
  }
}

function checkList(checking: Checking, { entries }: ListText, path: Path): void {
  const ids = new Set<string>()
  for (const [index, entry] of entries.entries()) {
    const at: Path = [...path, 'entries', index]
    if ('item' in entry) {
      once(checking, ids, entry.item, 'item', [...at, 'item'])
      checkItem(checking, entry, at)
    } else {
      once(checking, ids, entry.line, 'line', [...at, 'line'])
      checkCondition(checking, entry.when, [...at, 'when'])
    }
  }
}

function checkItem(checking: Checking, item: ItemText, path: Path): void {
  checkCondition(checking, item.when, [...path, 'when'])
  checkInterlocks(checking, item.interlocks, path)
  for (const [index, name] of item.restsOn.entries()) checkFigure(checking, name, [...path, 'restsOn', index])
  if (typeof item.response === 'string') {
    checkResponse(checking, item.response, [...path, 'response'])
    return
  }
  for (const [index, { when, say }] of item.response.entries()) {
    checkCondition(checking, when, [...path, 'response', index, 'when'])
    checkResponse(checking, say, [...path, 'response', index, 'say'])
  }
  const cases = item.response.map(({ when }) => when)
  const open = checking.pack && uncovered(checking.pack, item.when, cases)
  if (!open) return
  report(checking, 'response.uncovered', [...path, 'response'], `item ${item.item} has no response for ${open}`)
}

function checkWatch(checking: Checking, { calls, abnormal, interlocks }: WatchText, path: Path): void {
  checkInterlocks(checking, interlocks, path)
  const ids = new Set<string>()
  for (const [index, { call }] of calls.entries()) once(checking, ids, call, 'call', [...path, 'calls', index, 'call'])
  for (const [index, { abnormal: id }] of abnormal.entries()) {
    once(checking, ids, id, 'call', [...path, 'abnormal', index, 'abnormal'])
  }
}

/** A combination of situations in which the item applies and no case does, in words. */
function uncovered(pack: PackText, applies: When, cases: readonly When[]): string | undefined {
  const conditions = cases.map((one) => conditionOf(one))
  const named = conditions.flatMap((one) => Object.keys(one ?? {}))
  let combinations: Record<string, string>[] = [{}]
  for (const name of new Set(named.filter((one) => pack.situations[one]))) {
    const options = conditionOf(applies)?.[name] ?? Object.keys(pack.situations[name]?.options ?? {})
    combinations = combinations.flatMap((one) => options.map((value) => ({ ...one, [name]: value })))
    if (combinations.length > MOST_COMBINATIONS) return undefined
  }
  const open = combinations.find((situation) =>
    conditions.every((one) =>
      Object.entries(one ?? {}).some(([name, values]) => !values.includes(situation[name] ?? '')),
    ),
  )
  return (
    open &&
    (Object.entries(open)
      .map(([name, value]) => `${name} ${value}`)
      .join(', ') ||
      'any situation')
  )
}

/** Situations of pack.yaml: the initial value is one of the options. */
export function checkSituations(source: Source, { situations }: PackText): Problem[] {
  return Object.entries(situations).flatMap(([name, { initial, options }]) => {
    const known = Object.keys(options)
    if (known.includes(initial)) return []
    const message = `situation ${name} has no "${initial}"${didYouMean(initial, known)}`
    const place = source.place(['situations', name, 'initial'])
    return [{ code: 'situation.value', message, place, severity: 'error' as const }]
  })
}
