/** Whether a pack's procedures hold together: ids stand once, situations and figures exist, responses parse, every case is covered. */

import { namesIn } from '../kernel/figures/condition.ts'
import { ownOf } from '../kernel/own.ts'
import type { Problem } from '../kernel/problem.ts'
import { quoted } from '../kernel/quoted.ts'
import { checkCondition } from './checkCondition.ts'
import { checkBriefing, checkExchange } from './checkExchange.ts'
import { checkGiven } from './checkGiven.ts'
import { type Checking, checkFigure, checkInterlocks, checkResponse, once } from './checking.ts'
import { sayingProblems } from './checkNotation.ts'
import { checkWatch } from './checkWatch.ts'
import { conditionOf, isJoint, type When } from './conditions.ts'
import { groundsOf } from './figureGraph.ts'
import type { FiguresText } from './figuresSchema.ts'
import { didYouMean } from './nearest.ts'
import type { PackText } from './packSchema.ts'
import { partStatesIn } from './partStates.ts'
import type { ActivityText, FlowText, ItemText, ListText, ProceduresText, QuestionText } from './proceduresSchema.ts'
import { readOnly } from './readOnly.ts'
import { repeats } from './repeats.ts'
import { reporting } from './reporting.ts'
import { type Named, openSituation } from './situations.ts'
import type { Path, Source } from './source.ts'

export function checkProcedures(
  source: Source,
  procedures: ProceduresText,
  pack: PackText | undefined,
  figures: FiguresText['figures'] | undefined,
): Problem[] {
  const activities = procedures.phases.flatMap((phase) => phase.activities)
  const events = new Set(activities.flatMap(eventsOf))
  const problems: Problem[] = []
  const checking: Checking = {
    ...{ source, problems, report: reporting(source, problems), pack, figures, events },
    grounds: groundsOf(figures ?? {}),
    awaited: new Set(activities.flatMap(awaitedBy)),
  }
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
  checkGiven(checking, procedures)
  return checking.problems
}

const TYPES = ['flow', 'list', 'watch', 'exchange', 'briefing'] as const
type ActivityType = (typeof TYPES)[number]

function typeOf(activity: ActivityText): ActivityType {
  return TYPES.find((type) => type in activity) ?? 'flow'
}

function idOf(activity: ActivityText): string {
  return (activity as Partial<Record<ActivityType, string>>)[typeOf(activity)] ?? ''
}

function eventsOf(activity: ActivityText): string[] {
  const id = idOf(activity)
  if ('flow' in activity) return activity.steps.map(({ step }) => `${id}.${step}`)
  if ('watch' in activity) return [id, ...activity.calls.map(({ call }) => `${id}.${call}`)]
  if ('briefing' in activity) return [id, ...activity.topics.map(({ topic }) => `${id}.${topic}`)]
  if ('exchange' in activity) {
    return [
      ...activity.turns.flatMap(({ turn, clears }) => [`${id}.${turn}`, ...(clears ? [`cleared:${clears}`] : [])]),
    ]
  }
  const entries = activity.entries.flatMap((entry) => {
    if ('item' in entry) return repeats(entry).map((one) => `${id}.${one.id}`)
    if ('question' in entry) return [`${id}.${entry.question}`]
    return 'line' in entry ? [`cleared:${entry.clearance ?? entry.line}`] : []
  })
  return [id, ...entries]
}

function awaitedBy(activity: ActivityText): string[] {
  const entries = 'list' in activity ? activity.entries : []
  const lines = entries.flatMap((entry) => ('line' in entry ? [entry.clearance ?? entry.line] : []))
  const locked = 'exchange' in activity ? activity.turns : [...entries, activity]
  const interlocks = locked.flatMap((one) => ('interlocks' in one ? (one.interlocks ?? []) : []))
  const named = interlocks.flatMap(({ after }) =>
    after.startsWith('cleared:') ? [after.slice('cleared:'.length)] : [],
  )
  return [...lines, ...named]
}

function checkActivity(checking: Checking, activity: ActivityText, path: Path): void {
  checkCondition(checking, activity.when, [...path, 'when'])
  if ('flow' in activity) checkFlow(checking, activity, path)
  else if ('list' in activity) checkList(checking, activity, path)
  else if ('watch' in activity) {
    checkInterlocks(checking, activity.interlocks, path)
    checkWatch(checking, activity, path)
  } else if ('exchange' in activity) checkExchange(checking, activity, path)
  else checkBriefing(checking, activity, path)
}

function checkFlow(checking: Checking, { steps }: FlowText, path: Path): void {
  const ids = new Set<string>()
  for (const [index, step] of steps.entries()) {
    const at: Path = [...path, 'steps', index]
    once(checking, ids, step.step, 'step', [...at, 'step'])
    checkCondition(checking, step.when, [...at, 'when'])
    checkInterlocks(checking, step.interlocks, at)
    checking.problems.push(...sayingProblems(checking.source, step.say, [...at, 'say']))
    for (const [number, name] of step.sets.entries()) checkFigure(checking, name, [...at, 'sets', number])
  }
}

function checkList(checking: Checking, { entries }: ListText, path: Path): void {
  const ids = new Set<string>()
  for (const [index, entry] of entries.entries()) {
    const at: Path = [...path, 'entries', index]
    if ('item' in entry) {
      once(checking, ids, entry.item, 'item', [...at, 'item'])
      checkRepeats(checking, entry, at)
      checkItem(checking, entry, at)
    } else if ('question' in entry) {
      once(checking, ids, entry.question, 'item', [...at, 'question'])
      checkQuestion(checking, entry, at)
    } else if (!('line' in entry)) checkCondition(checking, entry.when, [...at, 'when'])
    else {
      once(checking, ids, entry.line, 'line', [...at, 'line'])
      checkCondition(checking, entry.when, [...at, 'when'])
      checking.problems.push(...sayingProblems(checking.source, entry.say, [...at, 'say']))
    }
  }
}

function checkItem(checking: Checking, item: ItemText, path: Path): void {
  checkPartStates(checking, item, path)
  checkCondition(checking, item.when, [...path, 'when'])
  checkInterlocks(checking, item.interlocks, path)
  for (const [index, name] of item.restsOn.entries()) checkFigure(checking, name, [...path, 'restsOn', index])
  if (typeof item.response === 'string') {
    checkBothSeats(checking, item, checkResponse(checking, item.response, [...path, 'response']), path)
    return
  }
  const before = checking.problems.length
  for (const [index, { when, say }] of item.response.entries()) {
    checkCondition(checking, when, [...path, 'response', index, 'when'])
    checkBothSeats(checking, item, checkResponse(checking, say, [...path, 'response', index, 'say']), path)
  }
  // Where a case itself is wrong, what it leaves open means nothing.
  if (checking.problems.length > before) return
  const cases = item.response.map(({ when }) => when)
  const { pack, figures } = checking
  const open = pack && uncovered({ pack, figures }, item.when, cases)
  if (!open) return
  checking.report('response.uncovered', [...path, 'response'], `item ${item.item} has no response for ${open}`)
}

/** Each has a name of its own, and one way to be several. */
function checkRepeats({ report }: Checking, item: ItemText, path: Path): void {
  const { times, each, challenge } = item
  if (times !== undefined && each !== undefined) {
    report('item.repeats', [...path, 'times'], 'times and each both say how often it is asked; take one of them out')
    return
  }
  if (times === undefined && each === undefined && challenge.includes('*')) {
    const message =
      '"*" is where the number or the name of a repeated item stands; write times or each beside it, or leave the "*" out'
    report('item.repeats', [...path, 'challenge'], message)
    return
  }
  const ids = repeats(item).map(({ id }) => id)
  const twice = (each ?? []).findIndex((_, index) => ids.indexOf(ids[index] ?? '') < index)
  if (twice < 0) return
  report('item.repeats', [...path, 'each', twice], `${quoted(each?.[twice] ?? '')} stands twice; each must be its own`)
}

function checkQuestion(checking: Checking, { decides, yes, no, when }: QuestionText, path: Path): void {
  checkCondition(checking, when, [...path, 'when'])
  if (!checking.pack) return
  const situation = ownOf(checking.pack.situations, decides)
  if (!situation) {
    const names = Object.keys(checking.pack.situations)
    const none = names.length === 0 ? '; write it under situations in pack.yaml' : ''
    const message = `no situation is called ${quoted(decides)}${none}`
    checking.report('situation.unknown', [...path, 'decides'], message, { name: decides, known: () => names })
    return
  }
  const known = Object.keys(situation.options)
  for (const [word, option] of [
    ['yes', yes],
    ['no', no],
  ] as const) {
    if (option === undefined || known.includes(option)) continue
    const message = `situation ${decides} has no ${quoted(option)}`
    checking.report('situation.value', [...path, word], message, { name: option, known: () => known })
  }
  if (yes !== undefined && yes === no) {
    const message = `yes and no both mean ${quoted(yes)}; what follows could not hang on the answer`
    checking.report('question.same', [...path, 'no'], message)
  }
}

/** Each part that has states of its own is one that a response tags. */
function checkPartStates({ report }: Checking, { states, response }: ItemText, path: Path): void {
  const texts = typeof response === 'string' ? [response] : response.map(({ say }) => say)
  const tags = texts.flatMap((text) => [...text.matchAll(/\{\s*([^{}]*?)\s*\}/g)].map(([, tag = '']) => tag))
  for (const tag of Object.keys(partStatesIn(states) ?? {})) {
    if (tags.includes(tag)) continue
    const how = tags.length === 0 ? `; write {${tag}} behind that part` : ''
    const message = `no part of the response is tagged ${quoted(tag)}${how}`
    report('states.tag', [...path, 'states', tag], message, { name: tag, known: () => tags })
  }
}

/** Otherseat sees no gauge, and cannot answer with what one shows. */
function checkBothSeats(checking: Checking, { answers }: ItemText, names: readonly string[], path: Path): void {
  const reading = answers === 'both' ? names.find((name) => ownOf(checking.figures, name)?.read) : undefined
  if (reading === undefined) return
  checking.report(
    'read.both',
    [...path, 'answers'],
    readOnly(reading, 'the other seat sees no gauge; take answers: both out'),
  )
}

/** A combination of situations in which the item applies and no case does, in words. */
function uncovered(named: Named, applies: When, cases: readonly When[]): string | undefined {
  // Only what the cases name is tried: where they are complete, what else the item asks for changes nothing.
  const names = new Set(cases.flatMap((one) => namesIn(conditionOf(one))))
  const own = Object.fromEntries(Object.entries(applies ?? {}).filter(([name]) => names.has(name) || isJoint(name)))
  return openSituation(
    named,
    [own as When],
    cases.map((one) => [one]),
  )
}

/** Situations of pack.yaml: the initial value is one of the options. */
export function checkSituations(source: Source, { situations }: PackText): Problem[] {
  return Object.entries(situations).flatMap(([name, { initial, options }]) => {
    const problems = Object.entries(options).flatMap(([value, { say }]) =>
      sayingProblems(source, say, ['situations', name, 'options', value, 'say']),
    )
    if (name === 'radio') {
      const message = 'radio is the situation of the phraseology (icao, faa), which every pack has; choose another name'
      const place = source.place(['situations', name])
      return [{ code: 'situation.radio', message, place, severity: 'error' as const }]
    }
    if (isJoint(name)) {
      const message = `${name} joins conditions and cannot be a situation; choose another name`
      const place = source.placeOfKey(['situations'], name)
      return [{ code: 'situation.joint', message, place, severity: 'error' as const }]
    }
    const known = Object.keys(options)
    if (known.includes(initial)) return problems
    const message = `situation ${name} has no ${quoted(initial)}${didYouMean(initial, known)}`
    const place = source.place(['situations', name, 'initial'])
    return [{ code: 'situation.value', message, place, severity: 'error' as const }, ...problems]
  })
}
