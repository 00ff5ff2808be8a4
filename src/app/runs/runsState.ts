/** What the screen of runs shows. */

import type { RunSummary } from '../../kernel/run/core/summary.ts'

export interface RunsState {
  /** Newest first; undefined until they have been read. */
  readonly list: readonly RunSummary[] | undefined
  /** The run whose debrief was opened from the list, and why it is not whole, if it is not. */
  readonly opened: { readonly runId: string; readonly wrong: string } | undefined
  /** What is being done that takes a while; empty where nothing is. */
  readonly busy: string
  /** What came of the last thing done, a line each. */
  readonly told: readonly string[]
  /** What of it went wrong, a line each. */
  readonly wrong: readonly string[]
  /** What can be taken back, in words; empty where nothing can. */
  readonly undoable: string
  readonly space: Space
}

export interface Space {
  /** In bytes, of all that this site keeps; undefined where the browser does not say. */
  readonly room: { readonly used: number; readonly most: number } | undefined
  /** `unknown`: the browser does not say; `refused`: it was asked just now. */
  readonly kept: 'yes' | 'no' | 'refused' | 'unknown'
}

export const EMPTY_RUNS: RunsState = {
  ...{ list: undefined, opened: undefined, busy: '', told: [], wrong: [], undoable: '' },
  space: { room: undefined, kept: 'unknown' },
}
