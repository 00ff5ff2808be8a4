/** What must have happened before something of a pack. Shapes only. */

/** What must have happened, or a time that must have passed since, before a step may be called done. */
export interface Interlock {
  /** An item, step, watch or list by its id, or a clearance: `cleared:push`. */
  readonly after: string
  readonly seconds?: number
  /** What Otherseat says while it does not hold: the trade's caution. */
  readonly say: string
  /** What Otherseat says of its own accord when the time has passed. */
  readonly due?: string
}

/** A call of a watch, as an interlock names it: "rightStart.starter". */
export const callEvent = (watch: string, call: string): string => `${watch}.${call}`

/** When a list was called, as a wait at its top names it. */
export const calledEvent = (list: string): string => `called:${list}`
