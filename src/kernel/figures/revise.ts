/** Two revisions -> what changed and by how much, what rests on it, and whether a change is probably a gross error. */

import { ownOf } from '../own.ts'
import type { Problem } from '../problem.ts'
import { formatMeasured } from './format.ts'
import type { ComputedFigure, FigureChange, FigureSet } from './model.ts'
import type { FigureModel } from './pack.ts'

/**
 * Figures whose value, spoken or unrounded, is another one now; all that have a value where there was no revision
 * before. Unrounded changes below a billionth are the arithmetic's, not the departure's.
 */
export function changesBetween(before: FigureSet | undefined, after: FigureSet): FigureChange[] {
  const names = new Set([...Object.keys(before?.figures ?? {}), ...Object.keys(after.figures)])
  return [...names].flatMap((figure) => {
    const [old, now] = [ownOf(before?.figures, figure), ownOf(after.figures, figure)]
    const spoken = old?.value !== now?.value
    if (!spoken && !exactMoved(old, now)) return []
    return [{ figure, label: now?.label ?? old?.label ?? figure, from: old?.value, to: now?.value, spoken }]
  })
}

function exactMoved(old: ComputedFigure | undefined, now: ComputedFigure | undefined): boolean {
  if (old?.exact === undefined || now?.exact === undefined) return old?.exact !== now?.exact
  return Math.abs(old.exact - now.exact) > 1e-9 * Math.max(1, Math.abs(old.exact))
}

/** Ids of what rests on a figure whose spoken value changed, in their order. */
export function itemsResting(
  items: readonly { readonly id: string; readonly restsOn: readonly string[] }[],
  changes: readonly FigureChange[],
): string[] {
  const moved = new Set(changes.flatMap(({ figure, spoken }) => (spoken ? [figure] : [])))
  return items.filter(({ restsOn }) => restsOn.some((name) => moved.has(name))).map(({ id }) => id)
}

/** Changes larger than the pack expects from one revision to the next: advice to look for a slip before believing them. */
export function grossErrors(model: FigureModel, before: FigureSet, after: FigureSet): Problem[] {
  return Object.values(model.declarations).flatMap(({ name, label, gross, measure }) => {
    const [old, now] = [before.figures[name]?.exact, after.figures[name]?.exact]
    if (gross === undefined || old === undefined || now === undefined || Math.abs(now - old) <= gross) return []
    const [from, to] = [formatMeasured(old, measure), formatMeasured(now, measure)]
    const message = `${label} changes from ${from} to ${to}, more than ${formatMeasured(gross, measure)}: is it a slip?`
    return [{ code: 'revision.gross', message, short: `${label} large change`, severity: 'advice' as const }]
  })
}
