/** What the account tells of a revision besides its name: what was read aloud, settled and why, warned of and acknowledged. */

import type { Settlement } from '../../figures/model.ts'
import { sourceWords } from '../../figures/sources.ts'
import type { Pack } from '../../pack/checklist.ts'
import type { RunEvent } from '../core/events.ts'
import type { RunState } from '../core/state.ts'

type Of<T extends RunEvent['type']> = Extract<RunEvent, { type: T }>

/** `read` is what was read aloud and made this revision, if that is what made it; `before` the run just before it. */
export function notesOf(
  pack: Pack,
  before: RunState,
  event: Of<'figuresRevised'>,
  read: Of<'stated'> | undefined,
): string[] {
  const label = (name: string) => pack.figures.declarations[name]?.label ?? name
  const isRead = read !== undefined && event.crossChecked === read.figure
  const outcome = isRead && event.values[read.figure] === undefined ? 'differs' : 'agrees'
  const settled = Object.entries(event.inputs.settled ?? {}).filter(
    // A choice counts only with a reason; one that stood before is told where it was made.
    ([name, made]) => made.use !== '' && made.reason.trim() !== '' && !isSame(before.inputs?.settled?.[name], made),
  )
  return [
    ...(isRead ? [`${label(read.figure)} read from the ${sourceWords(read.source)}: ${outcome}`] : []),
    ...settled.map(([name, { use, reason }]) => `${label(name)} settled on ${sourceWords(use)}: ${reason}`),
    ...event.warnings.map((warning) => `warning: ${warning}`),
  ]
}

const isSame = (one: Settlement | undefined, other: Settlement): boolean =>
  JSON.stringify(one) === JSON.stringify(other)

/** Warnings that this event acknowledged. */
export function acknowledgedBy(before: RunState, after: RunState, event: RunEvent): string[] {
  const isSo = event.type === 'commanded' && before.warnings.length > 0 && after.warnings.length === 0
  return isSo ? before.warnings.map((warning) => `acknowledged: ${warning}`) : []
}
