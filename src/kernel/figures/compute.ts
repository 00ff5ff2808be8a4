/**
 * Inputs and a pack's figures -> every figure with its value, its reasons and what is wrong with it.
 * Figures are computed in the model's order; what rests on a missing one waits for it and is not reported again.
 */

import type { Figure, Value } from '../kinds/kind.ts'
import type { Problem } from '../problem.ts'
import { convert, fits, type Unit } from '../units.ts'
import type { Calculator, Parameter, Work, WorkUnit } from './calculator.ts'
import { calculatorFor } from './calculators.ts'
import { band, beyond, loadsProblems, valueProblems } from './entered.ts'
import { lastMinuteProblems } from './lastMinute.ts'
import type { ComputedFigure, FigureSet, Inputs, Reason } from './model.ts'
import type { Basis, Derivation, FigureDeclaration, FigureModel, Operand } from './pack.ts'
import { roundTo, stepOf } from './rounding.ts'
import { countsAs } from './settle.ts'
import { showMeasured } from './showing.ts'

type Computed = Record<string, ComputedFigure>

const NO_BASIS: Basis = { order: [], units: { weight: 'kg', arm: 'm' }, tables: {}, envelopes: {}, tanks: [] }

/** Never throws for what a person entered: problems are in the set, each naming the figure, the table, the axis and its ends. */
export function compute(model: FigureModel, inputs: Inputs): FigureSet {
  const done: Computed = {}
  const problems: Problem[] = [...loadsProblems(model, inputs.loads), ...lastMinuteProblems(model, inputs)]
  const unusable = problems.some(({ code }) => code.startsWith('load.'))
  for (const name of model.basis?.order ?? Object.keys(model.declarations)) {
    const declaration = model.declarations[name]
    if (!declaration) continue
    done[name] = declaration.derived
      ? derive(model, inputs, done, declaration, declaration.derived, unusable, problems)
      : take(inputs, declaration, problems)
  }
  return { status: inputs.status, label: inputs.label ?? inputs.status, figures: done, problems }
}

/** A figure of the set with its value in the form that judging takes; undefined where it has none. */
export function figureOf(set: FigureSet, name: string): Figure | undefined {
  const figure = set.figures[name]
  if (figure?.value === undefined) return undefined
  const accept = figure.accept ? { accept: figure.accept } : {}
  return { ...figure.spec, value: figure.value, ...accept } as Figure
}

function shell(declaration: FigureDeclaration, preliminary: boolean): ComputedFigure {
  const { name, label, spec, accept, unit, measure } = declaration
  return {
    name,
    label,
    spec,
    ...(accept && { accept }),
    ...(unit && { unit }),
    ...(measure && { measure }),
    value: undefined,
    why: [],
    preliminary,
  }
}

/** An entered figure, or a constant of the pack. */
function take(inputs: Inputs, declaration: FigureDeclaration, problems: Problem[]): ComputedFigure {
  const { name, label, constant } = declaration
  const blank = shell(declaration, constant === undefined && inputs.status === 'preliminary')
  const value = inputs.values[name] ?? constant
  if (value === undefined) {
    if (declaration.required === false) return blank
    const measure = declaration.measure ? ` (${declaration.measure})` : ''
    problems.push({ code: 'input.missing', message: `${label} is not entered${measure}`, severity: 'error' })
    return { ...blank, why: [{ text: 'not entered', uses: [] }] }
  }
  const found = valueProblems(declaration, value)
  problems.push(...found)
  if (found.some(({ severity }) => severity === 'error')) {
    return { ...blank, why: found.map(({ message }) => ({ text: message, uses: [] })) }
  }
  const from = inputs.values[name] === undefined ? 'of the pack' : 'entered'
  const why = [{ text: `${from}: ${showMeasured(value, declaration.measure)}`, uses: [] }]
  return finish(blank, declaration, value, why, problems)
}

function operandsOf({ takes, at }: Derivation): readonly Operand[] {
  return [...Object.values(takes).flat(), ...Object.values(at ?? {})] as readonly Operand[]
}

/** Names of the figures that a derivation uses. */
export function usesOf(derivation: Derivation): readonly string[] {
  return [...new Set(operandsOf(derivation).filter((operand) => typeof operand === 'string'))]
}

function derive(
  model: FigureModel,
  inputs: Inputs,
  done: Computed,
  declaration: FigureDeclaration,
  derivation: Derivation,
  unusable: boolean,
  problems: Problem[],
): ComputedFigure {
  const calculator = calculatorFor(derivation.by)
  const uses = usesOf(derivation)
  const loads = calculator.needs?.includes('loads') ?? false
  const preliminary =
    (loads && inputs.status === 'preliminary') || uses.some((name) => done[name]?.preliminary === true)
  const blank = shell(declaration, preliminary)
  const waits = uses.filter((name) => done[name]?.value === undefined && !mayLack(calculator, model, derivation, name))
  if (waits.length > 0 || (loads && unusable)) {
    const missing = waits.map((name) => done[name]?.label ?? name)
    return { ...blank, why: [{ text: `waits for ${missing.join(', ') || 'the loads'}`, uses: waits }] }
  }
  const measure = declaration.measure ?? 'none'
  const work = workFor(model, inputs, done, calculator, derivation, {
    name: declaration.name,
    label: declaration.label,
    unit: measure,
  })
  const outcome = calculator.run(work)
  if ('failed' in outcome) {
    problems.push(outcome.failed)
    return { ...blank, why: [{ text: outcome.failed.message, uses }] }
  }
  if (outcome.breach) problems.push(outcome.breach)
  const given = outcome.unit ?? workUnit(model.basis ?? NO_BASIS, calculator.gives, measure)
  const value =
    typeof outcome.value === 'number' && fits(given, measure) ? convert(outcome.value, given, measure) : outcome.value
  const why = outcome.why.map((reason, index) => (index === 0 ? { ...reason, uses } : reason))
  const settled = countsAs(declaration, inputs, value)
  problems.push(...settled.problems)
  const figure = { ...blank, ...(settled.sources && { sources: settled.sources }) }
  if (settled.value === undefined) return { ...figure, why: [...why, ...settled.why] }
  return finish(figure, declaration, settled.value, [...why, ...settled.why], problems)
}

/** An optional operand may lack its value only where the pack lets the figure be left out. */
function mayLack(calculator: Calculator, model: FigureModel, derivation: Derivation, name: string): boolean {
  if (model.declarations[name]?.required !== false) return false
  return Object.entries(derivation.takes).some(
    ([parameter, operand]) => operand === name && calculator.takes[parameter]?.optional === true,
  )
}

/** Rounds, and says when a limit is broken. */
function finish(
  figure: ComputedFigure,
  declaration: FigureDeclaration,
  value: Value,
  why: readonly Reason[],
  problems: Problem[],
): ComputedFigure {
  if (typeof value === 'string') return { ...figure, value, why }
  const { limits, measure, label } = declaration
  const step = stepOf(declaration.spec)
  const round = declaration.round ?? (step === undefined ? undefined : { step, direction: 'nearest' as const })
  const spoken = round ? roundTo(value, round) : value
  if (limits && beyond(value, limits)) {
    const message = `${label} ${showMeasured(value, measure)} is beyond its limit: ${band(limits, measure)}`
    problems.push({ code: 'limit.exceeded', message, severity: 'error' })
  }
  const rounded: Reason[] =
    round && spoken !== value
      ? [{ text: `rounded ${round.direction} to ${round.step}: ${showMeasured(spoken, measure)}`, uses: [] }]
      : []
  return { ...figure, value: spoken, exact: value, why: [...why, ...rounded] }
}

/** The unit that a calculator's word for one stands for in this pack. */
export function workUnit(basis: Basis, unit: WorkUnit, own: Unit): Unit {
  switch (unit) {
    case 'weight':
      return basis.units.weight
    case 'arm':
      return basis.units.arm
    case 'moment':
      return `${basis.units.weight} ${basis.units.arm}`
    case 'same':
    case 'any':
      return own
    default:
      return unit
  }
}

function workFor(
  model: FigureModel,
  inputs: Inputs,
  done: Computed,
  calculator: Calculator,
  derivation: Derivation,
  figure: Work['figure'],
): Work {
  const basis = model.basis ?? NO_BASIS
  const read = (operand: Operand | undefined, unit: Unit | undefined): number | string => {
    if (typeof operand !== 'string') return operand ?? Number.NaN
    const { exact, value, measure } = done[operand] ?? {}
    const found = exact ?? value ?? Number.NaN
    return typeof found === 'number' && unit && measure && fits(measure, unit) ? convert(found, measure, unit) : found
  }
  const parameterOf = (name: string): Parameter => calculator.takes[name] ?? { unit: 'any' }
  const unitOf = (name: string): Unit => workUnit(basis, parameterOf(name).unit, figure.unit)
  const listOf = (name: string): readonly Operand[] => [derivation.takes[name] ?? []].flat() as readonly Operand[]
  const tell = (operand: Operand, unit: Unit): string =>
    typeof operand === 'string'
      ? `${done[operand]?.label ?? operand} ${showMeasured(read(operand, unit), unit)}`
      : showMeasured(operand, unit)
  return {
    model,
    basis,
    inputs,
    derivation,
    figure,
    number: (name) => Number(read(listOf(name)[0], unitOf(name))),
    maybe(name) {
      const [operand] = listOf(name)
      if (operand === undefined || (typeof operand === 'string' && done[operand]?.value === undefined)) return undefined
      return Number(read(operand, unitOf(name)))
    },
    numbers: (name) => listOf(name).map((operand) => Number(read(operand, unitOf(name)))),
    text: (name) => String(read(listOf(name)[0], undefined)),
    shown: (name) => listOf(name).map((operand) => tell(operand, unitOf(name)))[0] ?? '',
    shownEach: (name) => listOf(name).map((operand) => tell(operand, unitOf(name))),
    axis: (name, unit) => read(derivation.at?.[name], unit),
  }
}
