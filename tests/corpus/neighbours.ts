/** Another value that a figure could be read back as: one digit, one step, one taxiway away, or another of its choices. */

import type { KindSpec, Value } from '../../src/kernel/kinds/kind.ts'
import type { Random } from './case.ts'

/** One digit changed, or two neighbours swapped. */
function digitsChanged(text: string, random: Random, highest = 9): string {
  const at = random.below(text.length)
  const other = String((Number(text[at]) + 1 + random.below(highest)) % (highest + 1))
  const swapped = text.slice(0, at) + (text[at + 1] ?? '') + text[at] + text.slice(at + 2)
  return random.chance(0.4) && swapped !== text && swapped.length === text.length
    ? swapped
    : text.slice(0, at) + other + text.slice(at + 1)
}

export function otherRunway(text: string, random: Random): string {
  const side = text.slice(2)
  if (side !== '' && random.chance(0.5)) return `${text.slice(0, 2)}${side === 'L' ? 'R' : 'L'}`
  return `${String((Number(text.slice(0, 2)) % 36) + 1).padStart(2, '0')}${side}`
}

function otherFrequency(value: number, random: Random): number {
  const other = Number((value + random.of([-1, 1, 0.1, -0.1, 0.2])).toFixed(3))
  return other < 118 || other > 136.9 ? 121.5 : other
}

const LETTERS = 'BCDEFGHKLMNPRSTX'
const otherLetter = (letter: string, random: Random) =>
  random.of([...LETTERS].filter((one) => one !== letter)) as string

function otherPlace(text: string, random: Random): string {
  const [letter = '', digit = ''] = text
  if (digit !== '' && random.chance(0.5)) return `${letter}${(Number(digit) % 9) + 1}`
  return `${otherLetter(letter, random)}${digit}`
}

/** A taxiway left out, changed for another, added, or two of them in the other order. */
function otherRoute(text: string, random: Random): string {
  const taxiways = text.split(' ')
  const at = random.below(taxiways.length)
  const way = random.of(['dropped', 'dropped', 'changed', 'added', 'swapped'] as const)
  const [one = '', two] = [taxiways[at], taxiways[at + 1]]
  if (way === 'dropped' && taxiways.length > 1) return taxiways.toSpliced(at, 1).join(' ')
  if (way === 'swapped' && two !== undefined && two !== one) return taxiways.toSpliced(at, 2, two, one).join(' ')
  if (way === 'added') return taxiways.toSpliced(at, 0, otherLetter(one, random)).join(' ')
  return taxiways.with(at, otherPlace(one, random)).join(' ')
}

/** Another value of the kind; undefined for kinds that stations do not give. */
export function anotherValue(spec: KindSpec, value: Value, random: Random): Value | undefined {
  const number = Number(value)
  const text = String(value)
  switch (spec.kind) {
    case 'choice':
      return random.of(Object.keys(spec.options).filter((name) => name !== text))
    case 'altitude':
      return number + random.of([-1000, 1000, 500, 100, -100])
    case 'digits':
      return digitsChanged(text, random, 7)
    case 'altimeter':
      return number + random.of([-10, -1, 1, 10, 2])
    case 'runway':
      return otherRunway(text, random)
    case 'frequency':
      return otherFrequency(number, random)
    case 'identifier':
      return spec.form === 'letter' ? otherLetter(text, random) : otherPlace(text, random)
    case 'route':
      return otherRoute(text, random)
    case 'heading':
      return ((number + random.of([10, 20, 350, 340, 180]) - 1) % 360) + 1
    case 'speed':
      return number + random.of([1, 2, 10])
    case 'callsign':
      return text.replace(/\d+/, (digits) => digitsChanged(digits, random))
    default:
      return undefined
  }
}
