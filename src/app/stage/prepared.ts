/** A run prepared to be shown to a room: its log, and the places where it stops. */

import type { Pack } from '../../kernel/pack/checklist.ts'
import type { RunEvent } from '../../kernel/run/core/events.ts'

export interface Prepared {
  readonly title: string
  readonly pack: Pack
  readonly events: readonly RunEvent[]
  readonly stops: readonly Stop[]
}

/** It stops behind the event of this number. */
export interface Stop {
  readonly seq: number
  /** What the room is to look at; empty where nothing was written down. */
  readonly words: string
}
