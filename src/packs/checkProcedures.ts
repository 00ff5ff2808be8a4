/** Whether a pack's procedures hold together: ids stand once, situations and figures exist, responses parse, every case is covered. */

import type { Problem } from '../kernel/problem.ts'
import { figuresOf, parseResponse } from '../kernel/response/parse.ts'
import { conditionOf } from './build.ts'
import { didYouMean } from './nearest.ts'
import type { FlowText, ItemText, ListText, PackText, ProceduresText } from './schema.ts'
import type { Path, Source } from './source.ts'

type When = Readonly<Record<string, string | readonly string[]>> | undefined

/** Too many situations named in one item to try them all. */
const MOST_COMBINATIONS = 4096

/** `figures` are the names of the pack's figures; undefined where that file could not be read. */
export function checkProcedures(
  source: Source,
  procedures: ProceduresText,
  pack: PackText | undefined,
  figures: readonly string[] | undefined,
): Problem[] {
  const problems: Problem[] = []
  const report = (code: string, path: Path, message: string): void => {
    problems.push({ code, message, place: source.place(path), severity: 'error' })
  }

  const once = (seen: Map<string, string>, id: string, what: string, path: Path): void => {
    const key = id.toLowerCase()
    if (seen.has(key)) report('id.duplicate', path, `${what} "${id}" stands twice; each must be its own`)
    seen.set(key, id)
  }

  const figure = (name: string, path: Path): void => {
    if (figures && !figures.includes(name)) {
      report('figure.unknown', path, `no figure is called "${name}"${didYouMean(name, figures)}`)
    }
  }

  const condition = (when: When, path: Path): void => {
    if (!pack) return
    for (const [name, values] of Object.entries(conditionOf(when) ?? {})) {
      const situation = pack.situations[name]
      if (!situation) {
        const known = Object.keys(pack.situations)
        report('situation.unknown', [...path, name], `no situation is called "${name}"${didYouMean(name, known)}`)
        continue
      }
      const options = Object.keys(situation.options)
      for (const value of values.filter((one) => !options.includes(one))) {
        report('situation.value', [...path, name], `situation ${name} has no "${value}"${didYouMean(value, options)}`)
      }
    }
  }

  const response = (text: string, path: Path): void => {
    const parsed = parseResponse(text)
    if ('problems' in parsed) {
      for (const { message, offset } of parsed.problems) {
        const place = source.placeInText(path, offset)
        problems.push({ code: 'response.malformed', message: `response: ${message}`, place, severity: 'error' })
      }
      return
    }
    for (const name of figuresOf(parsed.response).filter((one) => figures && !figures.includes(one))) {
      const place = source.placeInText(path, Math.max(0, text.indexOf(`<${name}>`)))
      const message = `no figure is called "${name}"${didYouMean(name, figures ?? [])}`
      problems.push({ code: 'figure.unknown', message, place, severity: 'error' })
    }
  }

  const item = (entry: ItemText, path: Path): void => {
    condition(entry.when, [...path, 'when'])
    if (typeof entry.response === 'string') response(entry.response, [...path, 'response'])
    else {
      for (const [index, one] of entry.response.entries()) {
        condition(one.when, [...path, 'response', index, 'when'])
        response(one.say, [...path, 'response', index, 'say'])
      }
      const open =
        pack &&
        uncovered(
          pack,
          entry.when,
          entry.response.map((one) => one.when),
        )
      if (open) report('response.uncovered', [...path, 'response'], `item ${entry.item} has no response for ${open}`)
    }
    for (const [index, name] of entry.restsOn.entries()) figure(name, [...path, 'restsOn', index])
  }

  const list = (entry: ListText, path: Path): void => {
    condition(entry.when, [...path, 'when'])
    const ids = new Map<string, string>()
    for (const [index, one] of entry.entries.entries()) {
      const at: Path = [...path, 'entries', index]
      if ('item' in one) {
        once(ids, one.item, 'item', [...at, 'item'])
        item(one, at)
      } else once(ids, one.line, 'line', [...at, 'line'])
    }
  }

  const flow = (entry: FlowText, path: Path): void => {
    condition(entry.when, [...path, 'when'])
    const ids = new Map<string, string>()
    for (const [index, step] of entry.steps.entries()) {
      const at: Path = [...path, 'steps', index]
      once(ids, step.step, 'step', [...at, 'step'])
      condition(step.when, [...at, 'when'])
      for (const [number, name] of step.sets.entries()) figure(name, [...at, 'sets', number])
    }
  }

  const [phases, activities, names] = [new Map(), new Map(), new Map()] as Map<string, string>[]
  for (const [number, phase] of procedures.phases.entries()) {
    once(phases as Map<string, string>, phase.phase, 'phase', ['phases', number, 'phase'])
    for (const [index, activity] of phase.activities.entries()) {
      const path: Path = ['phases', number, 'activities', index]
      if ('flow' in activity) {
        once(activities as Map<string, string>, activity.flow, 'flow', [...path, 'flow'])
        flow(activity, path)
        continue
      }
      once(activities as Map<string, string>, activity.list, 'list', [...path, 'list'])
      for (const name of [activity.name, ...activity.alsoCalled])
        once(names as Map<string, string>, name, 'list name', [...path, 'name'])
      list(activity, path)
    }
  }
  return problems
}

/** A combination of situations in which the item applies and no case does, in words. */
function uncovered(pack: PackText, applies: When, cases: readonly When[]): string | undefined {
  const conditions = cases.map((one) => conditionOf(one))
  const names = [...new Set(conditions.flatMap((one) => Object.keys(one ?? {})))].filter(
    (name) => pack.situations[name],
  )
  let combinations: Record<string, string>[] = [{}]
  for (const name of names) {
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
    Object.entries(open)
      .map(([name, value]) => `${name} ${value}`)
      .join(', ')
  )
}

/** Situations of pack.yaml: the initial value is one of the options. */
export function checkSituations(source: Source, { situations }: PackText): Problem[] {
  return Object.entries(situations).flatMap(([name, { initial, options }]) => {
    const known = Object.keys(options)
    if (known.includes(initial)) return []
    const message = `situation ${name} has no "${initial}"${didYouMean(initial, known)}`
    return [
      {
        code: 'situation.value',
        message,
        place: source.place(['situations', name, 'initial']),
        severity: 'error' as const,
      },
    ]
  })
}
