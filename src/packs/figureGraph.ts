/**
 * What figures rest on, found once for all checks: each figure is looked at once, however they hang together. A chain
 * of all figures that a file may hold (`bounds.ts`) is not too deep for a function that calls itself.
 */

import { CALCULATORS } from '../kernel/figures/calculators.ts'
import { ownOf } from '../kernel/own.ts'
import type { Problem } from '../kernel/problem.ts'
import { derivationOf } from './buildFigures.ts'
import type { FiguresText, FigureText } from './figuresSchema.ts'
import type { Source } from './source.ts'

type Figures = FiguresText['figures']

const usesOf = ({ derived }: FigureText) => (derived ? derivationOf(derived).uses : [])

/** Figures in an order in which each comes after what it rests on; a problem for each cycle, with its names. */
export function orderOf(
  source: Source,
  { figures }: FiguresText,
): { readonly order: readonly string[]; readonly problems: Problem[] } {
  const { order, cycles } = inOrder(figures)
  return { order, problems: cycles.map((cycle) => cycleProblem(source, cycle)) }
}

interface Ordered {
  readonly order: readonly string[]
  readonly cycles: readonly (readonly string[])[]
}

function inOrder(figures: Figures): Ordered {
  const order: string[] = []
  const cycles: string[][] = []
  const done = new Set<string>()
  const open = new Set<string>()
  const inCycles = new Set<string>()
  const visit = (name: string): void => {
    if (open.has(name)) {
      const names = [...open]
      const cycle = names.slice(names.indexOf(name))
      // Cycles that share a figure have one cause.
      if (!cycle.some((one) => inCycles.has(one))) cycles.push(cycle)
      for (const one of cycle) inCycles.add(one)
      return
    }
    const figure = ownOf(figures, name)
    if (done.has(name) || !figure) return
    open.add(name)
    for (const used of usesOf(figure)) visit(used)
    open.delete(name)
    done.add(name)
    order.push(name)
  }
  for (const name of Object.keys(figures)) visit(name)
  return { order, cycles }
}

/** Names of a cycle that a message shows. */
const MOST_SHOWN = 8

function cycleProblem(source: Source, cycle: readonly string[]): Problem {
  const [first = ''] = cycle
  const shown = cycle.length > MOST_SHOWN ? [...cycle.slice(0, MOST_SHOWN), `... (${cycle.length} figures)`] : cycle
  const message =
    cycle.length === 1
      ? `${first} rests on itself; it must be entered or derived otherwise`
      : `these figures rest on each other: ${[...shown, first].join(' -> ')}; one of them must be entered or derived otherwise`
  return { code: 'figure.cycle', message, place: source.place(['figures', first]), severity: 'error' }
}

/** What lies under each figure. */
export interface Grounds {
  /** The given figures among it and all that it is computed from. */
  readonly given: ReadonlyMap<string, readonly string[]>
  /** The figure under this one, or itself, that need not be entered and without which this one has no value. */
  readonly leftOut: ReadonlyMap<string, string>
}

export function groundsOf(figures: Figures): Grounds {
  const given = new Map<string, readonly string[]>()
  const leftOut = new Map<string, string>()
  for (const name of inOrder(figures).order) {
    const figure = figures[name]
    if (!figure) continue
    const under = usesOf(figure).flatMap((used) => given.get(used) ?? [])
    given.set(name, [...new Set([...(figure.given ? [name] : []), ...under])])
    const isLeftOut = figure.entered?.required === false
    const left = isLeftOut ? name : neededBy(figure).find((used) => leftOut.has(used))
    if (left !== undefined) leftOut.set(name, leftOut.get(left) ?? left)
  }
  return { given, leftOut }
}

/** Names without which it has no value: not what a calculator can do without. */
function neededBy({ derived }: FigureText): readonly string[] {
  if (!derived) return []
  const derivation = derivationOf(derived)
  // Of cases any may be the one.
  if (derivation.cases) return derivation.uses
  const { by, takes, at = {} } = derivation
  const parameters = ownOf(CALCULATORS, by)?.takes
  const needed = Object.entries(takes).filter(([parameter]) => parameters?.[parameter]?.optional !== true)
  const operands = [...needed.flatMap(([, operand]) => operand), ...Object.values(at)]
  return operands.filter((operand) => typeof operand === 'string')
}
