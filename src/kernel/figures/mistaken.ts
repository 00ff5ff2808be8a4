/** A value that could be said or heard in place of another one of its kind: what a controller's slip says. */

import type { KindSpec, Value } from '../kinds/kind.ts'
import { scaleOf } from '../kinds/table.ts'
import { roundTo } from './rounding.ts'
import type { Seeded } from './seeded.ts'

/** Another value of the same shape, one digit or one step away; undefined for kinds that nobody mistakes so. */
export function mistakenFor(spec: KindSpec, value: Value, chance: Seeded): Value | undefined {
  switch (spec.kind) {
    case 'digits':
      return otherDigit(String(value), chance.below(spec.length))
    case 'altitude':
      return stepped(spec, value, 1000, chance)
    case 'flightLevel':
    case 'heading':
    case 'speed':
      return stepped(spec, value, 10, chance)
    case 'altimeter':
      return stepped(spec, value, spec.unit === 'hPa' ? 1 : 0.01, chance)
    case 'frequency':
      return stepped(spec, value, 0.1, chance, 0.005)
    case 'identifier':
      return spec.form === 'letter' ? undefined : otherTaxiway(String(value), chance)
    case 'route': {
      const taxiways = String(value).split(' ')
      const at = chance.below(taxiways.length)
      return taxiways.map((one, index) => (index === at ? otherTaxiway(one, chance) : one)).join(' ')
    }
    case 'runway':
      return otherRunway(String(value))
    case 'choice': {
      const others = Object.keys(spec.options).filter((option) => option !== String(value))
      return others.length > 0 ? chance.pick(others) : undefined
    }
    default:
      return undefined
  }
}

function otherDigit(text: string, at: number): string {
  return [...text].map((digit, index) => (index === at ? String((Number(digit) + 1) % 10) : digit)).join('')
}

/** One step up or down, whichever the scale allows. */
function stepped(
  spec: KindSpec,
  value: Value,
  step: number,
  chance: Seeded,
  finest = Math.min(step, 1),
): number | undefined {
  const { min = -Infinity, max = Infinity } = scaleOf(spec) ?? {}
  const near = (chance.below(2) === 0 ? [1, -1] : [-1, 1]).map((sign) =>
    roundTo(Number(value) + sign * step, { step: finest, direction: 'nearest' }),
  )
  return near.find((other) => other >= min && other <= max)
}

/** The parallel one, or the other end of the strip. */
function otherRunway(text: string): string {
  const side = text.slice(2)
  if (side === 'L' || side === 'R') return `${text.slice(0, 2)}${side === 'L' ? 'R' : 'L'}`
  return `${String(((Number(text.slice(0, 2)) + 17) % 36) + 1).padStart(2, '0')}${side}`
}

/** The next number, or the next letter where there is none. */
function otherTaxiway(text: string, chance: Seeded): string {
  const [, letters = '', number = ''] = /^([A-Z]+)(\d*)/.exec(text) ?? []
  if (number !== '') return `${letters}${Number(number) + 1 + chance.below(2)}`
  const last = letters.charCodeAt(letters.length - 1) - 65
  return `${letters.slice(0, -1)}${String.fromCharCode(65 + ((last + 1 + chance.below(3)) % 26))}`
}
