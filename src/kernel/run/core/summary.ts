/** The line that a run has in the list of runs: kept beside its log, so that a list of many reads no events. */

import type { RunEvent, RunSettings } from './events.ts'
import type { Missed } from './missed.ts'

/** Earlier editions left out whatever is optional here; it is made up for when the run is next read. */
export interface RunSummary {
  readonly runId: string
  readonly pack: string
  readonly packId?: string
  /** Milliseconds since 1970. */
  readonly startedAt: number
  /** Ended, or put away: not offered to be gone on with. */
  readonly ended: boolean
  /** Its log has its end. */
  readonly isOver?: boolean
  readonly flown?: RunFlown
  /** How many there are, and how many letters they have as JSON Lines. */
  readonly events?: number
  readonly letters?: number
  readonly account?: RunAccount
}

/** What was flown, and how. */
export interface RunFlown {
  /** The number by which the departure was drawn. */
  readonly dealt?: number
  /** With the voices outside the crew. */
  readonly stations: boolean
  readonly settings: RunSettings
  /** A moment of another run, done again. */
  readonly isAgain?: true
  /** The number of the last event that it took from there: the next one is its own first. */
  readonly takenTo?: number
  /** Begun in the middle. */
  readonly isFurtherOn?: true
  readonly isDrill?: true
  /** To a room, at some time in it. */
  readonly isShown?: true
}

/** What became of it, as its debrief says. */
export interface RunAccount extends Missed {
  /** Of the way in which it is made: one of another edition is made anew. */
  readonly v: number
  /** How many events it was made of: where there are more by now, it is made anew. */
  readonly events: number
  readonly durationMs: number
  readonly items: number
  readonly closed: number
  readonly lists: number
  readonly completeLists: number
  /** Why the log, or its pack, cannot be read to its end. */
  readonly wrong?: string
}

export const ACCOUNT_VERSION = 4

/** A pack may have any name; a line is short. */
const LONGEST_NAME = 120

/** The summary after one more event; undefined where a run does not begin with its start. */
export function summarise(before: RunSummary | undefined, event: RunEvent): RunSummary | undefined {
  const letters = JSON.stringify(event).length + 1
  if (event.type === 'runStarted') {
    const { pack, settings, dealt, script, again, drill } = event
    return {
      runId: event.runId,
      pack: pack.name.slice(0, LONGEST_NAME),
      packId: pack.id.slice(0, LONGEST_NAME),
      startedAt: Date.parse(event.wall),
      ended: false,
      flown: {
        ...(dealt !== undefined && { dealt }),
        ...{ stations: script !== undefined, settings },
        ...(again && { isAgain: true, takenTo: again.seq }),
        ...(drill && { isDrill: true }),
      },
      events: 1,
      letters,
    }
  }
  if (!before) return undefined
  // Of a run that an earlier edition began, it is not known how many there were.
  const counted = before.events !== undefined && {
    events: before.events + 1,
    letters: (before.letters ?? 0) + letters,
  }
  const told = toldBy(event)
  const flown = before.flown && told && { flown: { ...before.flown, ...told } }
  // Its beginning is another run's, moved in time so that its end has just happened.
  const isOwnFirst = before.flown?.takenTo !== undefined && event.seq === before.flown.takenTo + 1
  const begun = isOwnFirst && { startedAt: Date.parse(event.wall) }
  return { ...before, ...counted, ...flown, ...begun, ...(event.type === 'ended' && { ended: true, isOver: true }) }
}

/** What an event behind the first tells of how it was flown. */
function toldBy(event: RunEvent): Partial<RunFlown> | undefined {
  if (event.type === 'begunAt') return { isFurtherOn: true }
  return event.type === 'demonstrated' && event.isOn ? { isShown: true } : undefined
}

/** Whether the account is missing, or not of all that is stored. */
export function isAccountDue({ events, account }: RunSummary): boolean {
  return events === undefined || account?.v !== ACCOUNT_VERSION || account.events !== events
}
