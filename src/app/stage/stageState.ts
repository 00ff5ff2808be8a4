/** What is chosen for a run on the stage, and what the screens show of it beside the run. */

import type { DemonstrationStops } from '../../kernel/run/core/events.ts'

export interface StageChoices {
  readonly stops: DemonstrationStops
  readonly asksRoom: boolean
}

/** Beside what its store shows. */
export interface StageState {
  /** What the room is to look at. */
  readonly words: string
  /** What has just happened without words. */
  readonly note: string
  readonly isOver: boolean
  readonly hasBack: boolean
  readonly hasOn: boolean
}
