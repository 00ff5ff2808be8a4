/**
 * "Late catch": new figures open nothing by themselves, and nobody says what they change. The pilot is to notice it;
 * what is left when a list would be complete Otherseat notices, and the debrief says who did.
 */

import type { Pack } from '../../pack/checklist.ts'
import { dueList } from './dueList.ts'
import type { EventFields } from './events.ts'
import { itemState } from './progress.ts'
import { overtaken, reopenMoved } from './reopening.ts'
import type { Catch, RunState } from './state.ts'

type Revised = EventFields['figuresRevised']

/**
 * Whether a revision is kept to itself. What the pilot read or took down is known, but must not bring out what is held
 * back already; behind the last list nothing would ask.
 */
export function isHeldBack(pack: Pack, before: RunState, { crossChecked, takenDown }: Revised): boolean {
  if (before.figureStatus === undefined || !before.settings.lateCatch) return false
  const isNews = (crossChecked === undefined && takenDown === undefined) || before.heldBack !== undefined
  return isNews && dueList(pack, before) !== undefined
}

/** Notes what has moved; nothing is open again yet. `before` still has the inputs that it moved from. */
export function holdBack(before: RunState, after: RunState, moved: readonly string[]): RunState {
  const { heldBack } = before
  if (moved.length === 0) return after
  const { inputs, t, revision } = heldBack ?? { inputs: before.inputs, t: after.t, revision: after.revision }
  return { ...after, heldBack: { inputs, t, revision, moved: [...new Set([...(heldBack?.moved ?? []), ...moved])] } }
}

/** Opens what the pilot has not noticed, and says it. */
export function letGo(pack: Pack, before: RunState): { readonly state: RunState; readonly words: readonly string[] } {
  const { heldBack, ...rest } = before
  if (!heldBack) return { state: before, words: [] }
  const noticed = figuresNoticed(before)
  const left = heldBack.moved.filter((name) => !noticed.has(name))
  const { state, words } = reopenMoved(pack, rest, left, heldBack.inputs)
  const found = overtaken(pack, rest).map(({ id }) => ({
    item: id,
    changedAt: heldBack.t,
    t: before.t,
    by: 'otherseat' as const,
  }))
  return { state: { ...state, catches: [...state.catches, ...found] }, words }
}

/** Figures on which an item was answered anew since they moved. */
function figuresNoticed({ catches, heldBack, items }: RunState): ReadonlySet<string> {
  const since = catches.filter(({ by, t }) => by === 'pilot' && t >= (heldBack?.t ?? 0))
  return new Set(since.flatMap(({ item }) => Object.keys(items[item]?.expected ?? {})))
}

/**
 * An item that the pilot opened again, unasked, though it rested on an old value, was answered: right, it is the pilot's
 * catch; wrong, Otherseat's, whose refusal told. Only the first answer counts.
 */
export function answeredAnew(before: RunState, item: string, by: Catch['by']): RunState {
  const { heldBack, catches } = before
  const { expected } = itemState(before, item)
  const wasOld = Object.entries(expected).some(([name, value]) => before.values[name] !== value)
  if (!heldBack || !wasOld || catches.some((one) => one.item === item && one.t >= heldBack.t)) return before
  return { ...before, catches: [...catches, { item, changedAt: heldBack.t, t: before.t, by }] }
}
