/** From inputs to a revision as a run keeps it (spoken values, what changed, what must be acknowledged), and back from its log. */

import { compute } from '../../kernel/figures/compute.ts'
import type { FigureChange, FigureSet, Inputs } from '../../kernel/figures/model.ts'
import { changesBetween, grossErrors } from '../../kernel/figures/revise.ts'
import type { Value } from '../../kernel/kinds/kind.ts'
import type { Pack } from '../../kernel/pack/checklist.ts'
import { findItem } from '../../kernel/pack/place.ts'
import { acceptedAs } from '../../kernel/run/core/accepted.ts'
import type { EventBody } from '../../kernel/run/core/events.ts'
import type { Replayed } from '../../kernel/run/core/readLog.ts'
import type { RunState } from '../../kernel/run/core/state.ts'
import { beforeStations } from '../../kernel/run/talk/script.ts'

type Stated = EventBody<'stated'>
export type Revised = EventBody<'figuresRevised'>

/** How a revision came about, besides by hand. */
export type From = Pick<Revised, 'crossChecked' | 'takenDown' | 'sheet' | 'takenOver'>

/** The sheet that figures came with, as it is printed, and whether they were taken over from it by a button. */
export type FromSheet = Pick<From, 'sheet' | 'takenOver'>

/** Figures that came in, as they are from then on until the next do. */
export interface Revision {
  /** Of the log. */
  readonly revision: number
  /** As the pilot counts it; what a station gave has the number of what was accepted before. */
  readonly accepted: number
  readonly isGiven: boolean
  readonly inputs: Inputs
  readonly set: FigureSet
  readonly changes: readonly FigureChange[]
  /** Challenges that it opened again. */
  readonly reopened: readonly string[]
}

/** What a revision says of the sheet that it was taken over from; nothing where it was typed. */
export function fromSheet(taken: Inputs | undefined, onTable: readonly Inputs[]): FromSheet {
  if (!taken) return {}
  const isThere = onTable.some((one) => JSON.stringify(one) === JSON.stringify(taken))
  return { takenOver: true, ...(!isThere && { sheet: taken }) }
}

export function revisedBy(
  pack: Pack,
  inputs: Inputs,
  before: Pick<Revision, 'revision' | 'set'> | undefined,
  from: From = {},
): Revised {
  const set = compute(pack.figures, inputs)
  const { status, label = status } = inputs
  return {
    type: 'figuresRevised',
    revision: (before?.revision ?? 0) + 1,
    ...{ status, label, inputs, ...from },
    values: valuesOf(set),
    changes: changesBetween(before?.set, set),
    ...warningsIn(pack, before?.set, set),
  }
}

/** The revisions of a run after one more event. */
export function revisionsAfter(pack: Pack, revisions: readonly Revision[], step: Replayed): readonly Revision[] {
  const { before, event, state } = step
  if (event.type !== 'figuresRevised') return revisions
  const { revision, inputs, changes, takenDown } = event
  const reopened = Object.entries(state.items)
    .filter(([id, item]) => item.status === 'reopened' && before.items[id]?.status !== 'reopened')
    .map(([id]) => findItem(pack, id).item.challenge)
  const counted = { revision, accepted: acceptedAs(state, revision), isGiven: takenDown !== undefined }
  return [...revisions, { ...counted, inputs, set: compute(pack.figures, inputs), changes, reopened }]
}

/** A value read aloud joins what its source stated before. */
export function withStated(inputs: Inputs, { source, figure, value }: Stated): Inputs {
  const stated = { ...inputs.stated, [source]: { ...inputs.stated?.[source], [figure]: value } }
  return { ...inputs, stated }
}

/** Values that a station gave take the place of what was entered. A station's wind is magnetic: what the entered one was goes with it. */
export function withTaken(pack: Pack, inputs: Inputs, values: Readonly<Record<string, Value>>): Inputs {
  const gone = Object.values(pack.figures.declarations).flatMap(({ derived }) => {
    const { direction, reference } = derived?.takes ?? {}
    return typeof direction === 'string' && direction in values && typeof reference === 'string' ? [reference] : []
  })
  const kept = Object.entries(inputs.values).filter(([name]) => !gone.includes(name))
  return { ...inputs, values: { ...Object.fromEntries(kept), ...values } }
}

/** While stations have voices, what they give is theirs to give: neither a sheet nor a hand changes it. */
export function withoutGiven(pack: Pack, inputs: Inputs, inForce: Inputs | undefined): Inputs {
  const before = beforeStations(pack, inputs)
  const given = Object.entries(inForce?.values ?? {}).filter(([name]) => pack.figures.declarations[name]?.given)
  return { ...before, values: { ...before.values, ...Object.fromEntries(given) } }
}

/**
 * A sheet that comes in while stations have voices: what a turn gave stays, unless the sheet itself has other news than
 * the papers had before. A hand that types another value has seen what it types over.
 */
export function withoutTaken(
  pack: Pack,
  inputs: Inputs,
  run: Pick<RunState, 'fromStations' | 'inputs'> | undefined,
): Inputs {
  const kept = Object.entries(run?.fromStations ?? {}).flatMap(([name, { over }]) => {
    const value = run?.inputs?.values[name]
    return value === undefined || (inputs.values[name] ?? over) !== over ? [] : [[name, value] as const]
  })
  return kept.length === 0 ? inputs : withTaken(pack, inputs, Object.fromEntries(kept))
}

/** Spoken values of all figures that have one. */
function valuesOf({ figures }: FigureSet): Record<string, Value> {
  return Object.fromEntries(
    Object.entries(figures).flatMap(([name, { value }]) => (value === undefined ? [] : [[name, value]])),
  )
}

const OVER = 'limit.exceeded'

/** Limits broken, and changes so large that they are probably slips. */
function warningsIn(pack: Pack, before: FigureSet | undefined, set: FigureSet): Pick<Revised, 'warnings' | 'warned'> {
  const limits = set.problems.filter(({ code }) => code.startsWith('limit.'))
  const gross = before ? grossErrors(pack.figures, before, set) : []
  // Beyond its limit a weight is often beyond its envelope, too: each is told once, by how much.
  const byAmount = limits.toSorted((one, other) => Number(other.code === OVER) - Number(one.code === OVER))
  const all = [...byAmount, ...gross].filter(
    ({ short }, at, every) => short === undefined || every.findIndex((one) => one.short === short) === at,
  )
  return {
    warnings: all.map(({ message }) => message),
    ...(all.length > 0 && { warned: [...new Set(all.map(({ short }) => short ?? 'figures warning'))] }),
  }
}
