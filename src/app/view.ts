/** What the run screen shows, made from pack and state. No rule lives here; it only names things. */

import type { ItemStatus, LastAnswer } from '../kernel/run/state.ts'

export interface ViewEntry {
  readonly id: string
  readonly type: 'item' | 'line'
  readonly label: string
  readonly status: ItemStatus | 'cleared'
  readonly current: boolean
  /** Closed by key, passed, or after the value was given: shown beside it in words. */
  readonly note?: string
}

export interface ViewStep {
  readonly id: string
  readonly text: string
  readonly done: boolean
  readonly caution?: string
}

/** A list of the run with its place, for the overview. */
export interface ViewList {
  readonly id: string
  readonly name: string
  readonly state: 'ahead' | 'open' | 'complete' | 'revoked'
  readonly openItems: readonly string[]
}

/** A button that does what a spoken phrase does. `press` is passed back as it is. */
export interface ViewButton {
  readonly label: string
  /** What to say instead of pressing. */
  readonly phrase: string
  readonly press: Press
}

export type Press =
  | { readonly type: 'command'; readonly command: string; readonly argument?: string }
  | { readonly type: 'call'; readonly list: string }
  | { readonly type: 'cleared'; readonly clearance: string }
  | { readonly type: 'stepDone'; readonly step: string }
  /** A word item confirmed by key: logged as not read back. */
  | { readonly type: 'confirmItem'; readonly item: string }
  | { readonly type: 'situation'; readonly name: string; readonly value: string }

export interface RunView {
  readonly phase: string
  /** Large on the screen: the challenge, the line, the question, the flow or the list to call. */
  readonly headline: string
  readonly kind: 'item' | 'line' | 'flow' | 'call' | 'question' | 'standBy' | 'end' | 'stopped'
  /** One sentence under it: what to do now. */
  readonly hint: string
  readonly look: readonly string[]
  readonly caution?: string
  readonly listName?: string
  readonly entries: readonly ViewEntry[]
  readonly steps: readonly ViewStep[]
  readonly lists: readonly ViewList[]
  readonly buttons: readonly ViewButton[]
  /** Number of the listening order; typing sends the one at its first key. */
  readonly order: number
  readonly last: LastAnswer | undefined
  readonly said: string
  readonly figures: string
}
