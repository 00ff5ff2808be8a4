import type { Evidence } from './events.ts'
import type { RunState } from './state.ts'

/** What an event has that says when it began. */
interface Begun {
  readonly t: number
  readonly evidence?: Evidence | undefined
}

/** When the words of an event began, ms from the start of the run; of a key, and of what was typed, its own time. */
export function onsetOf({ startedAt }: Pick<RunState, 'startedAt'>, { t, evidence }: Begun): number {
  return evidence?.beganAt === undefined ? t : evidence.beganAt - startedAt
}
