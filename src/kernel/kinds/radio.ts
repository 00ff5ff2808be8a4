/** Values as stations say them on the radio, by ICAO or by FAA phraseology. */

import { sayCallsign, sayCallsignGrouped } from './callsign.ts'
import type { Figure } from './kind.ts'
import { sayValue } from './table.ts'
import { sayWind } from './wind.ts'

export const RADIOS = ['icao', 'faa'] as const
export type Radio = (typeof RADIOS)[number]

/**
 * The value's words in standard phraseology, without its name ("QNH", "altimeter"). Sources: ICAO Annex 10 volume II
 * 5.2.1.4, FAA AIM 4-2-8 to 4-2-11, grouped flight numbers JO 7110.65 2-4-20 (all looked up); FAA winds JO 7110.65
 * 2-4-17 (from memory).
 */
export function sayOnRadio(figure: Figure, radio: Radio): string {
  switch (figure.kind) {
    case 'wind':
      return sayWind(figure.value, 'standard', radio)
    case 'callsign':
      return radio === 'faa' ? sayCallsignGrouped(figure.value, figure) : sayCallsign(figure.value, figure, 'standard')
    case 'choice':
      return sayValue(figure, 'standard')
    default: {
      const words = sayValue(figure, 'standard')
      return radio === 'faa' ? words.replace(/\bdecimal\b/g, 'point') : words
    }
  }
}
