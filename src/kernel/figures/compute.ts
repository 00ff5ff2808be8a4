/**
 * Inputs and a pack's figures -> every figure with its value, its reasons and what is wrong with it.
 * Figures are computed in the model's order; what rests on a missing one waits for it and is not reported again.
 */

import { LARGEST_NUMBER } from '../bounds.ts'
import type { Figure, Value } from '../kinds/kind.ts'
import { roundTo } from '../numbers/rounding.ts'
import { ownOf } from '../own.ts'
import { isError, type Problem } from '../problem.ts'
import { convert, fits } from '../units.ts'
import type { Calculator, Work } from './calculator.ts'
import { calculatorFor } from './calculators.ts'
import { holdsSurely, namesIn } from './condition.ts'
import { loadsProblems, valueProblems } from './entered.ts'
import { formatMeasured } from './format.ts'
import { lastMinuteProblems } from './lastMinute.ts'
import { limitChecks, limitProblem } from './limits.ts'
import { type Accounts, mixedOf, mixedProblems, mixedWords, NO_ACCOUNT, STATIONS, together } from './mixed.ts'
import type { ComputedFigure, FigureSet, Inputs, Mixed, Reason } from './model.ts'
import type { Basis, Derivation, DerivedCase, FigureDeclaration, FigureModel } from './pack.ts'
import { resolveStated, statedBy } from './resolveStated.ts'
import { roundingOf } from './rounding.ts'
import { ownSource, sourceWords } from './sources.ts'
import { workUnit } from './work.ts'

const NO_BASIS: Basis = {
  order: [],
  units: { weight: 'kg', arm: 'm' },
  tables: {},
  envelopes: {},
  tanks: [],
  orders: [],
}

/** One computation on its way: what is given, what is done, what was found wrong. */
interface Job {
  readonly model: FigureModel
  readonly basis: Basis
  readonly inputs: Inputs
  readonly loads: Work['loads']
  readonly done: Record<string, ComputedFigure>
  /** Whose word on the load each of them rests on. */
  readonly accounts: Record<string, Accounts>
  readonly problems: Problem[]
  /** Loads that cannot be loads: what rests on them waits. */
  readonly badLoads: boolean
}

/** Never throws for what a person entered: problems are in the set, each naming the figure, the table, the axis and its ends. */
export function compute(model: FigureModel, inputs: Inputs): FigureSet {
  const loads = model.stations.map(({ name }) => ownOf(inputs.loads, name))
  const problems: Problem[] = [...loadsProblems(model, inputs.loads, loads), ...lastMinuteProblems(model, inputs)]
  const badLoads = problems.some(({ code }) => code.startsWith('load.'))
  const job: Job = { model, basis: model.basis ?? NO_BASIS, inputs, loads, done: {}, accounts: {}, problems, badLoads }
  for (const name of model.basis?.order ?? Object.keys(model.declarations)) {
    const declaration = model.declarations[name]
    // What is read off a gauge has no value but in the run.
    if (!declaration || declaration.read) continue
    const { derived } = declaration
    job.done[name] = derived ? derive(job, declaration, derived) : take(job, declaration)
  }
  if (inputs.settled) problems.push(...mixedProblems(model, job.done))
  problems.push(...limitChecks(model, job.done).flatMap(limitProblem))
  problems.push(...job.basis.orders.flatMap((order) => orderProblems(order, job.done)))
  return { status: inputs.status, label: inputs.label ?? inputs.status, figures: job.done, problems }
}

/** Where a figure is above the one that comes after it, as they are spoken. One without a value is left out. */
function orderProblems(order: readonly string[], done: Job['done']): Problem[] {
  const known = order.flatMap((name) => done[name] ?? []).filter(({ value }) => typeof value === 'number')
  const shown = ({ label, value = 0, measure }: ComputedFigure) => `${label} ${formatMeasured(value, measure)}`
  return known.slice(1).flatMap((higher, index) => {
    const lower = known[index]
    if (!lower || Number(lower.value) <= Number(higher.value)) return []
    const right = known.map(({ label }) => label).join(', ')
    const message = `${shown(lower)} is above ${shown(higher)}; they must rise in this order: ${right}`
    const short = `${lower.label} above ${higher.label}`
    return [{ code: 'limit.order', message, short, severity: 'error' as const }]
  })
}

/** A figure of the set with its value in the form that judging takes; undefined where it has none. */
export function figureOf(set: FigureSet, name: string): Figure | undefined {
  const figure = ownOf(set.figures, name)
  if (figure?.value === undefined) return undefined
  const accept = figure.accept ? { accept: figure.accept } : {}
  return { ...figure.spec, value: figure.value, ...accept } as Figure
}

/** A figure while it is being made. */
type Draft = { -readonly [K in keyof ComputedFigure]: ComputedFigure[K] }

function shell(declaration: FigureDeclaration, preliminary: boolean): Draft {
  const { name, label, spec, accept, unit, measure } = declaration
  const draft: Draft = { name, label, spec, value: undefined, why: [], preliminary }
  if (accept) draft.accept = accept
  if (unit !== undefined) draft.unit = unit
  if (measure) draft.measure = measure
  return draft
}

/** An entered figure, or a constant of the pack. */
function take(job: Job, declaration: FigureDeclaration): ComputedFigure {
  const { inputs, problems } = job
  const { name, label, constant, measure } = declaration
  const blank = shell(declaration, constant === undefined && inputs.status === 'preliminary')
  const entered = ownOf(inputs.values, name)
  const value = entered ?? constant
  if (value === undefined) {
    if (declaration.required === false) return blank
    const message = `${label} is not entered${measure ? ` (${measure})` : ''}`
    problems.push({ code: 'input.missing', message, severity: 'error' })
    return { ...blank, why: [{ text: 'not entered', uses: [] }] }
  }
  const found = valueProblems(declaration, value)
  problems.push(...found)
  if (found.some(isError)) return { ...blank, why: found.map(({ message }) => ({ text: message, uses: [] })) }
  const from = entered === undefined ? 'of the pack' : 'entered'
  const why = [{ text: `${from}: ${formatMeasured(value, measure)}`, uses: [] }]
  return withStated(job, declaration, blank, value, why)
}

function derive(job: Job, declaration: FigureDeclaration, written: Derivation): ComputedFigure {
  const { model, basis, inputs, loads, done, problems } = job
  const { name, label, measure: unit = 'none' } = declaration
  const derivation = written.cases ? caseOf(job, written.cases) : written
  if ('waitsFor' in derivation) {
    const missing = derivation.waitsFor.map((one) => done[one]?.label ?? one)
    return {
      ...shell(declaration, false),
      why: [{ text: `waits for ${missing.join(', ')}`, uses: derivation.waitsFor }],
    }
  }
  const { uses } = derivation
  const calculator = calculatorFor(derivation.by)
  const onLoads = calculator.needs?.includes('loads') ?? false
  const isPreliminary = (onLoads && inputs.status === 'preliminary') || uses.some((used) => done[used]?.preliminary)
  const blank = shell(declaration, isPreliminary)
  const accounts = accountsOf(job, uses, onLoads)
  const waits = uses.filter((used) => done[used]?.value === undefined && !mayLack(calculator, model, derivation, used))
  const mixed = mixedIn(job, calculator, waits, accounts)
  if (mixed && !(onLoads && job.badLoads)) return ofSource(job, declaration, { ...blank, mixed }, mixed)
  if (waits.length > 0 || (onLoads && job.badLoads)) {
    const missing = waits.map((used) => done[used]?.label ?? used)
    return { ...blank, why: [{ text: `waits for ${missing.join(', ') || 'the loads'}`, uses: waits }] }
  }
  const outcome = calculator.run({
    model,
    basis,
    inputs,
    loads,
    done,
    calculator,
    derivation,
    figure: { name, label, unit },
  })
  if ('failed' in outcome) {
    problems.push(outcome.failed)
    return { ...blank, why: [{ text: outcome.failed.message, uses }] }
  }
  if (outcome.breach) problems.push(outcome.breach)
  const given = outcome.unit ?? workUnit(basis, calculator.gives, unit)
  const isOther = typeof outcome.value === 'number' && given !== unit && fits(given, unit)
  const value = isOther ? convert(Number(outcome.value), given, unit) : outcome.value
  if (typeof value === 'number' && !(Math.abs(value) <= LARGEST_NUMBER)) {
    const message = `${label} cannot be computed: no number comes of what it rests on`
    problems.push({ code: 'figure.noNumber', message, severity: 'error' })
    return { ...blank, why: [{ text: message, uses }] }
  }
  const why = outcome.why.map((reason, index) => (index === 0 ? { ...reason, uses } : reason))
  return withStated(job, declaration, blank, value, why, accounts)
}

/** Nothing can be mixed where nothing is settled. */
function accountsOf({ inputs, accounts }: Job, uses: readonly string[], onLoads: boolean): Accounts {
  if (!inputs.settled) return NO_ACCOUNT
  return together([...uses.map((used) => ownOf(accounts, used) ?? NO_ACCOUNT), onLoads ? STATIONS : NO_ACCOUNT])
}

/** It waits for nothing but what is mixed, or is of a weight and of another one's moment. */
function mixedIn(
  { done }: Job,
  calculator: Calculator,
  waits: readonly string[],
  accounts: Accounts,
): Mixed | undefined {
  const [first, ...others] = waits
  if (first === undefined) return calculator.ofOneLoad ? mixedOf(accounts) : undefined
  return others.every((one) => done[one]?.mixed) ? done[first]?.mixed : undefined
}

/** What the source states that the weight was settled on; without a value where it states nothing. */
function ofSource(job: Job, declaration: FigureDeclaration, blank: Draft, mixed: Mixed): ComputedFigure {
  const text = mixedWords(mixed)
  const { source, settled, another } = mixed
  const isStated = declaration.stated?.sources.includes(source) && another === undefined
  const stated = isStated ? statedBy(job.inputs, source, declaration.name) : undefined
  if (stated === undefined) return { ...blank, why: [{ text, uses: [] }] }
  const given = `the ${sourceWords(source)} states ${formatMeasured(stated, declaration.measure)}`
  const why = [{ text: `${text}; ${given}`, uses: [] }]
  return withStated(job, declaration, blank, stated, why, new Map([[source, settled]]), source)
}

/** The first case that applies in this situation, with these figures; what it waits for where a figure without a value decides. */
function caseOf(
  { basis, inputs, done }: Job,
  cases: readonly DerivedCase[],
): Derivation | { readonly waitsFor: readonly string[] } {
  const values = Object.fromEntries(
    Object.values(done).flatMap(({ name, value }) => (value === undefined ? [] : [[name, value]])),
  )
  const ground = { situation: { ...basis.initially, ...inputs.situation }, values }
  for (const { when = {}, derivation } of cases) {
    const applies = holdsSurely(when, ground)
    if (applies) return derivation
    if (applies === undefined) {
      return { waitsFor: namesIn(when).filter((name) => done[name] && done[name].value === undefined) }
    }
  }
  return { waitsFor: ['another situation'] }
}

/** Our own value beside what others state: which one counts, if any. */
function withStated(
  job: Job,
  declaration: FigureDeclaration,
  blank: Draft,
  own: Value,
  reasons: readonly Reason[],
  accounts = NO_ACCOUNT,
  by = ownSource(declaration),
): ComputedFigure {
  const resolved = resolveStated(declaration, job.inputs, own, by)
  job.problems.push(...resolved.problems)
  const { use = by } = resolved
  // What is settled on another's word rests on that, and no more on the loads as they stand here.
  job.accounts[declaration.name] = use === by || accounts.size === 0 ? accounts : new Map([[use, declaration.label]])
  const why = [...reasons, ...resolved.why]
  if (resolved.sources) blank.sources = resolved.sources
  return resolved.value === undefined ? { ...blank, why } : finish(blank, declaration, resolved.value, why)
}

/** An optional operand may lack its value only where the pack lets the figure be left out. */
function mayLack(calculator: Calculator, model: FigureModel, derivation: Derivation, name: string): boolean {
  if (model.declarations[name]?.required !== false) return false
  return Object.entries(derivation.takes).some(
    ([parameter, operand]) => operand === name && calculator.takes[parameter]?.optional === true,
  )
}

/** Rounds. */
function finish(draft: Draft, declaration: FigureDeclaration, value: Value, why: readonly Reason[]): ComputedFigure {
  draft.value = value
  draft.why = why
  if (typeof value === 'string') return draft
  const { measure } = declaration
  draft.exact = value
  const round = roundingOf(declaration)
  if (!round) return draft
  const spoken = roundTo(value, round)
  draft.value = spoken
  if (round.carried) draft.exact = spoken
  // 576 computed as 575.9999999999 is no rounding to tell of.
  if (Math.abs(spoken - value) > 1e-9 * Math.max(1, Math.abs(value))) {
    const text = `rounded ${round.direction} to ${round.step}: ${formatMeasured(spoken, measure)}`
    draft.why = [...why, { text, uses: [] }]
  }
  return draft
}
