/**
 * A departure dealt by seed: invented loads, weather, runway and late final figures with one buried trap, so that a
 * solo pilot can be surprised. Same seed, same departure. What is drawn is kept only if it computes without a problem
 * and if the trap changes what it should and nothing else that is read back.
 */

import type { Value } from '../kinds/kind.ts'
import { showValue } from '../kinds/table.ts'
import { roundTo } from '../numbers/rounding.ts'
import { ownOf } from '../own.ts'
import { isError } from '../problem.ts'
import { type Seeded, seeded } from '../seeded.ts'
import { compute } from './compute.ts'
import { formatMeasured } from './format.ts'
import type { FigureSet, Inputs } from './model.ts'
import type { DealRange, DealRules, DealTrap, FigureModel } from './pack.ts'
import { sourceWords } from './sources.ts'

export interface Departure {
  readonly seed: number
  readonly preliminary: Inputs
  readonly final: Inputs
  /** From the start of the run until the final figures come in. */
  readonly finalAfterMinutes: number
  readonly trap: Trap
}

/** Told only in the debrief. */
export interface Trap {
  readonly kind: DealTrap['kind']
  /** Figures that are read back and have another value in the final figures: the trap, and nothing besides. */
  readonly figures: readonly string[]
  readonly told: string
}

/** A wrong total is off by at most so many times what is to be noticed. */
const MOST_OFF = 2

/** Draws before a pack's rules are given up as too narrow. */
const MOST_DRAWS = 4000

/** `readBack` names the figures said in the pack's items. Undefined where the pack has no rules or they leave nothing. */
export function deal(model: FigureModel, readBack: readonly string[], seed: number): Departure | undefined {
  const rules = model.basis?.deal
  if (!rules) return undefined
  const chance = seeded(seed)
  const trap = chance.pick(rules.traps)
  for (let draw = 0; draw < MOST_DRAWS; draw++) {
    const drawn = drawInputs(rules, chance)
    const before = compute(model, drawn)
    if (before.problems.some(isError) || !isFavoured(rules, before)) continue
    const preliminary = withSheets(model, drawn, before, sourcesOf(rules))
    // Several finals for one preliminary: most departures have one within a few tries.
    for (let attempt = 0; attempt < 20; attempt++) {
      const dealt = spring(model, rules, trap, { preliminary, before }, readBack, chance)
      if (dealt) return { seed, ...dealt, finalAfterMinutes: 2 + chance.below(7) }
    }
  }
  return undefined
}

/** No figure lies below what the pack wants of every draw. */
export function isFavoured({ atLeast }: DealRules, { figures }: FigureSet): boolean {
  return Object.entries(atLeast).every(([name, least]) => Number(figures[name]?.value ?? least) >= least)
}

/** A total that is off by less is within what any operator lets pass. */
function isNoticeable({ figure, least = 0 }: DealTrap, before: FigureSet, after: FigureSet): boolean {
  const [old, now] = [Number(before.figures[figure]?.exact), Number(after.figures[figure]?.exact)]
  return Math.abs(now - old) >= least * now
}

export function drawNumber(range: DealRange, chance: Seeded): number {
  const steps = Math.floor((range.max - range.min) / range.step + 1e-9)
  return roundTo(range.min + chance.below(steps + 1) * range.step, {
    step: Math.min(range.step, 1),
    direction: 'nearest',
  })
}

function drawInputs(rules: DealRules, chance: Seeded): Inputs {
  const loads = Object.fromEntries(
    Object.entries(rules.loads).map(([station, range]) => [station, drawNumber(range, chance)]),
  )
  const values = Object.fromEntries(
    Object.entries(rules.values).map(([name, rule]): [string, Value] =>
      'min' in rule ? [name, drawNumber(rule, chance)] : [name, chance.pick(rule)],
    ),
  )
  const situation = Object.fromEntries(
    Object.entries(rules.situation).map(([name, options]) => [name, chance.pick(options)]),
  )
  return { status: 'preliminary', label: 'preliminary load sheet', loads, values, situation }
}

/** The sheets that come with every departure of the pack: those that one of its traps is about. */
function sourcesOf(rules: DealRules): string[] {
  return [...new Set(rules.traps.flatMap(({ source }) => source ?? []))]
}

/** With what honest sheets of this departure would state. */
export function withSheets(model: FigureModel, inputs: Inputs, set: FigureSet, sources: readonly string[]): Inputs {
  if (sources.length === 0) return inputs
  const stated = sources.map((source): [string, Record<string, Value>] => {
    const values = Object.values(model.declarations).flatMap(({ name, stated: by }): [string, Value][] => {
      const value = set.figures[name]?.value
      return by?.sources.includes(source) && value !== undefined ? [[name, value]] : []
    })
    return [source, Object.fromEntries(values)]
  })
  return { ...inputs, stated: Object.fromEntries(stated) }
}

/** Nothing wrong with it, its sheet included. */
function isSound(model: FigureModel, inputs: Inputs): boolean {
  return !compute(model, inputs).problems.some(isError)
}

interface Before {
  readonly preliminary: Inputs
  readonly before: FigureSet
}

/** Final figures with the trap in them; undefined where they would change too little, too much, or break a limit. */
function spring(
  model: FigureModel,
  rules: DealRules,
  trap: DealTrap,
  { preliminary, before }: Before,
  readBack: readonly string[],
  chance: Seeded,
): Pick<Departure, 'preliminary' | 'final' | 'trap'> | undefined {
  const total = Number(before.figures[trap.figure]?.exact ?? 0)
  const changed = change(model, rules, trap, preliminary, total, chance)
  if (!changed) return undefined
  const { stated: _, ...rest } = preliminary
  const bare: Inputs = { ...rest, ...changed.inputs, status: 'final', label: 'final load sheet' }
  const after = compute(model, bare)
  if (after.problems.some(isError) || !isFavoured(rules, after)) return undefined
  const figures = readBack.filter((name) => before.figures[name]?.value !== after.figures[name]?.value)
  const allowed = [trap.figure, ...trap.also]
  if (!figures.includes(trap.figure) || figures.some((name) => !allowed.includes(name))) return undefined
  // The other runway's speeds are the trap: they must differ, too.
  if (isOfRunway(trap) && !trap.also.some((name) => figures.includes(name))) return undefined
  const honest = withSheets(model, bare, after, sourcesOf(rules))
  if (!isSound(model, honest) || !isSound(model, preliminary)) return undefined
  const isStale = trap.kind === 'wrongTotal' || trap.kind === 'oldSheet'
  const final = isStale ? stale(honest, preliminary, trap) : honest
  if (isStale && !differs(model, final, trap)) return undefined
  if (trap.kind === 'wrongTotal' && !isNoticeable(trap, before, after)) return undefined
  const label = model.declarations[trap.figure]?.label ?? trap.figure
  const [from, to] = [before, after].map((set) => shownIn(model, set, trap.figure))
  return {
    preliminary,
    final,
    trap: { kind: trap.kind, figures, told: `${changed.told}: ${label} went from ${from} to ${to}` },
  }
}

/** As values are shown elsewhere, with the direction of a trim. */
function shownIn({ declarations }: FigureModel, { figures }: FigureSet, name: string): string {
  const [declared, value] = [declarations[name], figures[name]?.value]
  return declared && value !== undefined ? showValue({ ...declared.spec, value }) : ''
}

const isOfRunway = ({ kind }: DealTrap): boolean => kind === 'otherRunway' || kind === 'oldSheet'

interface Change {
  readonly inputs: Pick<Inputs, 'loads' | 'values'>
  readonly told: string
}

function change(
  { stations: known, basis }: FigureModel,
  rules: DealRules,
  trap: DealTrap,
  { loads, values }: Inputs,
  /** Of the trap's figure before. */
  total: number,
  chance: Seeded,
): Change | undefined {
  const stations = Object.keys(rules.loads)
  const at = (station: string) => known.find(({ name }) => name === station)?.label ?? station
  const told = (weight: number) => formatMeasured(weight, basis?.units.weight)
  switch (trap.kind) {
    case 'staleTrim': {
      const [from, to] = [chance.pick(stations), chance.pick(stations)]
      const step = rules.loads[from]?.step ?? 1
      // People move to other seats and bags to the other hold, not the one to the other.
      if (from === to || step !== rules.loads[to]?.step) return undefined
      const moved = step * (1 + chance.below(Math.max(8, Math.ceil(400 / step))))
      if (moved > (loads[from] ?? 0)) return undefined
      const after = { ...loads, [from]: (loads[from] ?? 0) - moved, [to]: (loads[to] ?? 0) + moved }
      return {
        inputs: { loads: after, values },
        told: `${told(moved)} moved from ${at(from)} to ${at(to)}, the totals stayed`,
      }
    }
    case 'otherRunway':
    case 'oldSheet': {
      const rule = rules.values[trap.figure]
      const others = Array.isArray(rule) ? rule.filter((value) => value !== values[trap.figure]) : []
      if (others.length === 0) return undefined
      const runway = chance.pick(others)
      const sheet = trap.kind === 'oldSheet' ? `, the ${sourceWords(trap.source ?? '')} is still for the old one` : ''
      return { inputs: { loads, values: { ...values, [trap.figure]: runway } }, told: `the runway changed${sheet}` }
    }
    case 'wrongTotal': {
      const station = chance.pick(stations)
      const step = rules.loads[station]?.step ?? 1
      // Up to twice what is to be noticed; where nothing is said of that, some 200 of the pack's unit.
      const most = Math.ceil((trap.least === undefined ? 200 : MOST_OFF * trap.least * total) / step)
      const added = step * (chance.below(2 * most + 1) - most)
      const after = (loads[station] ?? 0) + added
      if (added === 0 || after < 0) return undefined
      return {
        inputs: { loads: { ...loads, [station]: after }, values },
        told: `the load at ${at(station)} changed by ${told(added)}, the sheet still states the old total`,
      }
    }
  }
}

/** The final figures with what a sheet stated before: its total, or the runway and all that goes with it. */
function stale(honest: Inputs, preliminary: Inputs, { kind, figure, also, source = '' }: DealTrap): Inputs {
  const before = ownOf(preliminary.stated, source) ?? {}
  const names = kind === 'oldSheet' ? [figure, ...also] : [figure]
  const old = Object.fromEntries(Object.entries(before).filter(([name]) => names.includes(name)))
  return { ...honest, stated: { ...honest.stated, [source]: { ...ownOf(honest.stated, source), ...old } } }
}

/** Whether what is stale is far enough off that the cross-check must catch it. */
function differs(model: FigureModel, final: Inputs, { figure }: DealTrap): boolean {
  return compute(model, final).figures[figure]?.sources?.some(({ within }) => !within) ?? false
}
