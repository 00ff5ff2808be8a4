/** How well some tokens fit a kind by their form alone: the fewer words it needs besides, the lower. Never looks at a value. */

import { shortChannel } from '../kinds/frequency.ts'
import type { KindName, KindSpec } from '../kinds/kind.ts'
import { affixesOf } from '../kinds/table.ts'
import { readNumber } from '../numbers/readings.ts'
import { isNumberToken, type Token } from '../numbers/tokens.ts'
import { isSound, readRun } from './runs.ts'

/** The value would be whole and plausible; where words are plain, cut short as pilots do on the radio. */
export function isSoundPiece(tokens: readonly Token[], spec: KindSpec, isPlain: boolean): boolean {
  if (isPlain && spec.kind === 'frequency' && shortChannel(tokens) !== undefined) return true
  const run = { type: 'run', tokens, looseHead: false, looseTail: false } as const
  return readRun(run, spec).some((reading) => isSound(reading, spec))
}

const MOST_NUMBERS: Readonly<Partial<Record<KindName, number>>> = {
  runway: 2,
  heading: 3,
  flightLevel: 4,
  temperature: 3,
  time: 4,
  identifier: 3,
  altimeter: 5,
  altitude: 6,
  integer: 6,
  frequency: 7,
}

/** No value has more number words; looked up first, because reading them takes time. */
export const mostNumbers = (spec: KindSpec): number =>
  spec.kind === 'digits' ? spec.length : (MOST_NUMBERS[spec.kind] ?? Number.POSITIVE_INFINITY)

const isScale = ({ number }: Token) => number?.type === 'hundred' || number?.type === 'thousand'
const hasRole = (tokens: readonly Token[], spec: KindSpec, role: string) =>
  tokens.some(({ text }) => affixesOf(spec).get(text)?.role === role)

/** Digits as they are understood first; empty where it is no whole number. */
function digitsIn(tokens: readonly Token[]): string {
  const [first] = readNumber(tokens.filter((token) => token.number !== undefined))
  return first && first.fraction === undefined ? first.whole : ''
}

/** Taxiways and holding points have their letters first: "alfa three", "alfa bravo", "november two whiskey". */
const LETTERS_FIRST = /^(?:N{1,3}|L{1,2}N{0,2}|LNL)$/

/** L for a letter, N for each digit. */
function shapeOf(tokens: readonly Token[]): string {
  let shape = ''
  for (let at = 0; at < tokens.length; ) {
    let end = at
    while (tokens[end]?.number) end++
    shape += end > at ? 'N'.repeat(Math.max(1, digitsIn(tokens.slice(at, end)).length)) : 'L'
    at = Math.max(end, at + 1)
  }
  return shape
}

/** Feet in hundreds or thousands: "five thousand", "nine thousand five hundred", "5000". */
function isRound(tokens: readonly Token[]): boolean {
  const last = tokens.findLast((token) => token.number !== undefined)
  return last !== undefined && (isScale(last) || (last.number?.type === 'numeral' && last.canon.endsWith('00')))
}

/** More for what is rarely said so, even after its own name. */
export function costNamed(tokens: readonly Token[], spec: KindSpec): number {
  switch (spec.kind) {
    case 'identifier':
      return LETTERS_FIRST.test(shapeOf(tokens)) ? 0 : 1.3
    // "Via alfa, two seven": rather the own flight number than taxiway A27.
    case 'route':
      return /LN{2,}$/.test(shapeOf(tokens)) ? 1.3 : 0
    case 'altitude':
      return tokens.some(isScale) && !isRound(tokens) ? 0.6 : 0
    case 'runway':
      return digitsIn(tokens).length === 2 ? 0 : 0.3
    case 'temperature':
      return digitsIn(tokens).length <= 2 ? 0 : 0.6
    case 'heading':
    case 'flightLevel':
      return digitsIn(tokens).length === 3 ? 0 : 0.3
    default:
      return 0
  }
}

/** More for what is rarely said so without any name; undefined where nobody would. */
export function costBare(tokens: readonly Token[], spec: KindSpec): number | undefined {
  const scaled = tokens.some(isScale)
  switch (spec.kind) {
    case 'runway':
      return digitsIn(tokens).length === 2 || hasRole(tokens, spec, 'direction') ? 0 : undefined
    case 'heading':
      return digitsIn(tokens).length === 3 ? 0 : undefined
    case 'digits':
    case 'time':
      return scaled ? undefined : 0
    case 'altitude':
      if (scaled || hasRole(tokens, spec, 'unit')) return costNamed(tokens, spec)
      return digitsIn(tokens).length >= 4 ? 0.5 : undefined
    case 'flightLevel':
      return hasRole(tokens, spec, 'noun') || (!scaled && digitsIn(tokens).length === 3) ? 0 : undefined
    case 'integer':
    case 'speed':
      return !scaled && digitsIn(tokens).length <= 3 ? 0 : undefined
    case 'identifier': {
      const shape = shapeOf(tokens)
      if (!LETTERS_FIRST.test(shape) || shape.startsWith('N')) return undefined
      return shape.startsWith('LL') ? 0.5 : shape === 'L' ? 0.1 : 0
    }
    case 'callsign':
      return /^L{3,6}$/.test(shapeOf(tokens)) ? 0 : undefined
    case 'frequency':
    case 'altimeter':
    case 'choice':
    case 'wind':
      return 0
    case 'route':
      return costNamed(tokens, spec)
    default:
      return hasRole(tokens, spec, 'unit') && tokens.some(isNumberToken) ? 0 : undefined
  }
}
