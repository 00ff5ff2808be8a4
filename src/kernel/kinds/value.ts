/** Values of figures, what counts as right beside one, and the ways in which values are said. */

/** Numbers for amounts, text for digits, runways, times, identifiers, call signs, winds, routes and choices. */
export type Value = number | string

/** What counts as right besides the value itself, in the value's own unit. */
export interface Accept {
  readonly min?: number
  readonly max?: number
  readonly tolerance?: number
}

export interface Band {
  readonly min?: number
  readonly max?: number
}

/** Plain: any clear form. Standard: digits as ICAO or FAA say them. Verbatim: the response's own words. */
export const PHRASEOLOGIES = ['plain', 'standard', 'verbatim'] as const
export type Phraseology = (typeof PHRASEOLOGIES)[number]

/** The instrument's scale, not the normal band: outside it a well-read value is implausible. */
export interface Scale {
  readonly min?: number
  readonly max?: number
  readonly step?: number
}

export interface ScaleEnds {
  readonly min: number
  readonly max: number
  readonly step?: number
}

/** A kind's widest scale, as far as the pack does not narrow it. */
export function narrowed(widest: ScaleEnds, { min = widest.min, max = widest.max, step }: Scale): ScaleEnds {
  return step === undefined ? { min, max } : { min, max, step }
}
