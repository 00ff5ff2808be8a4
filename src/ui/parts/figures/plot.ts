/** Where the envelope picture stands, and where a value stands in it. */

export const WIDTH = 560
export const HEIGHT = 440
export const PLOT = { left: 80, right: WIDTH - 16, top: 12, bottom: HEIGHT - 48 }

export interface Place {
  readonly x: (cg: number) => number
  readonly y: (weight: number) => number
}
