/** What a key or a click asks for; `pressed.ts` makes an event of it. */

import type { RunCommand } from '../../kernel/run/core/events.ts'

export type Press =
  | { readonly type: 'command'; readonly command: RunCommand; readonly argument?: string }
  | { readonly type: 'crossCheck'; readonly figure: string; readonly source: string }
  | { readonly type: 'call'; readonly list: string }
  | { readonly type: 'cleared'; readonly clearance: string }
  | { readonly type: 'stepDone'; readonly step: string }
  | { readonly type: 'flowDone'; readonly flow: string }
  | { readonly type: 'watchBegin'; readonly watch: string }
  | { readonly type: 'watchCall'; readonly watch: string; readonly call: string }
  | { readonly type: 'watchAbnormal'; readonly watch: string; readonly abnormal: string }
  /** A word item confirmed by key: logged as not read back. */
  | { readonly type: 'confirmItem'; readonly item: string }
  /** A call or a read-back of words alone, by key: logged as just that. */
  | { readonly type: 'confirmTurn'; readonly turn: string; readonly part: 'call' | 'readBack' }
  | { readonly type: 'showWords'; readonly turn: string }
  | { readonly type: 'briefingDone'; readonly briefing: string }
  | { readonly type: 'situation'; readonly name: string; readonly value: string }

/** A button that does what a spoken phrase does. `press` is passed back as it is. */
export interface ViewButton {
  readonly label: string
  /** What to say instead of pressing. */
  readonly phrase: string
  readonly press: Press
}
