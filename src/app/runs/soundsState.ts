/** What the screens show of the sound that is kept with runs. */

export interface SoundsState {
  /** Of the run debriefed: events whose words can be heard, each with the number under which their sound lies. */
  readonly there: ReadonlyMap<number, number>
  /** The event whose words are being played. */
  readonly playing: number | undefined
  /** Of all that is kept; undefined until it was looked up. */
  readonly size: { readonly bytes: number; readonly runs: number } | undefined
  /** Why what is said now is not kept; empty where nothing is wrong. */
  readonly notKept: string
  /** What went wrong with the last thing that was asked for: heard, looked up or deleted; empty where nothing did. */
  readonly wrong: string
}

export const EMPTY_SOUNDS: SoundsState = {
  ...{ there: new Map(), playing: undefined, size: undefined },
  ...{ notKept: '', wrong: '' },
}
