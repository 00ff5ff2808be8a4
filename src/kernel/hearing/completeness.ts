/**
 * How complete an answer is so far, so that a short pause may end it. It looks at kinds and counts, never at values or
 * at the right wording, so the length of the pause says nothing about being right (law 2).
 */

import type { KindSpec } from '../kinds/kind.ts'
import { type Token, tokensOf } from '../numbers/tokens.ts'
import type { Hearable } from './hearable.ts'

/**
 * `none`: nothing said yet; `partial`: more must follow; `complete`: as many values as are asked, each long enough, or
 * words, and more may follow; `final`: nothing that belongs to it can follow.
 */
export type Completeness = 'none' | 'partial' | 'complete' | 'final'

/** After these words something follows. */
const GOING_ON: ReadonlySet<string> = new Set([
  ...['not', 'and', 'both', 'full', 'all', 'the', 'is', 'correction', 'confirm', 'point', 'decimal', 'minus', 'nose'],
  ...['double', 'triple', 'runway', 'heading', 'flight', 'v', 'rotate', 'pass'],
  ...['at', 'gusting', 'gusts', 'variable', 'wind', 'via', 'then', 'taxiway'],
])

/** Of what was said to this item. */
export function completeness(hearable: Hearable, text: string): Completeness {
  const { shapes, least } = hearable
  const tokens = tokensOf(text)
  const last = tokens.at(-1)
  if (!last) return 'none'
  if (GOING_ON.has(last.text)) return 'partial'
  // Only the open item has a known number of parts.
  const isOne = least !== undefined && least.parts <= 1
  if (shapes.length === 0) return isOne && tokens.length >= 2 ? 'final' : 'complete'
  const runs = numberRuns(tokens)
  // Only words: a command, a refusal, or the first part of an answer.
  if (runs.length === 0) return isOnlyWords(shapes, tokens) ? 'complete' : 'partial'
  const values = least?.values ?? shapes.length
  const said = valuesSaid(shapes, runs)
  if (said.length < values) return 'partial'
  return isOne && said.every(isOfOneLength) ? 'final' : 'complete'
}

/** The shapes that the numbers fill, in their order. */
function valuesSaid(shapes: readonly KindSpec[], runs: readonly Run[]): KindSpec[] {
  let at = 0
  return shapes.filter((spec) => {
    const found = runs.findIndex((run, index) => index >= at && isFull(spec, run))
    if (found >= 0) at = found + 1
    return found >= 0
  })
}

/** Whether every value of the kind has as many digits, so that no further one can follow. */
const isOfOneLength = ({ kind }: KindSpec) =>
  ['trim', 'decimal', 'speed', 'heading', 'flightLevel', 'digits', 'altimeter', 'frequency', 'time'].includes(kind)

/** One number as it was said. */
export interface Run {
  /** Its words, digits as such. */
  readonly said: string
  /** Signs: d digit, e teen, y tens, h hundred, k thousand, point. */
  readonly signs: string
  readonly digits: number
  readonly next: string
}

const SIGNS = { digit: 'd', teen: 'e', tens: 'y', hundred: 'h', thousand: 'k', point: '.', repeat: 'r', amount: '' }

export function numberRuns(tokens: readonly Token[]): Run[] {
  const runs: Run[] = []
  let signs = ''
  let said: string[] = []
  tokens.forEach((token, index) => {
    const { number } = token
    const isNumber = number !== undefined && !(number.type === 'digit' && number.form === 'homophone')
    if (isNumber) said.push(token.canon)
    if (isNumber) signs += number.type === 'numeral' ? 'd'.repeat(number.digits.length) : SIGNS[number.type]
    const joins = token.text === 'and' && signs !== ''
    if (signs !== '' && (index === tokens.length - 1 || !(isNumber || joins))) {
      runs.push({ said: said.join(' '), signs, digits: digitCount(signs), next: isNumber ? '' : token.text })
      signs = ''
      said = []
    }
  })
  return runs
}

const WORTH: Readonly<Record<string, number>> = { d: 1, e: 2, y: 2, h: 2, k: 3, r: 1 }
/** Digits that are said at least: "one twenty eight" has three, "ten thirteen" four. */
const digitCount = (signs: string) =>
  [...signs.replaceAll('yd', 'y')].reduce((sum, sign) => sum + (WORTH[sign] ?? 0), 0)

function isFull(spec: KindSpec, { signs, digits, next }: Run): boolean {
  const decimals = signs.includes('.') ? digitCount(signs.slice(signs.indexOf('.') + 1)) : 0
  switch (spec.kind) {
    case 'decimal':
      return decimals >= spec.decimals
    case 'trim':
      return decimals >= spec.decimals && ['up', 'down', 'left', 'right', 'nose', 'units'].includes(next)
    case 'integer':
      return digits >= 2
    case 'speed':
    case 'heading':
    case 'flightLevel':
      return digits >= 3
    case 'weight':
    case 'altitude':
      return digits >= 4 || (signs.includes('k') && digits >= 4) || decimals > 0
    case 'temperature':
    case 'runway':
    case 'identifier':
    case 'choice':
      return true
    case 'digits':
      return digits >= spec.length
    case 'altimeter':
      return digits >= 4
    case 'frequency':
      return digits - decimals >= 3 && decimals >= 2
    case 'time':
      return digits >= 4
    case 'callsign':
      return digits >= 2
    case 'wind':
      return digits !== 3 || next === 'knots'
    case 'route':
      // Nobody knows how many taxiways are to come.
      return false
    default:
      return spec satisfies never
  }
}

/** An answer to a value that begins with its unit or label is only begun. */
function isOnlyWords(shapes: readonly KindSpec[], tokens: readonly Token[]): boolean {
  return !shapes.some((spec) => spec.kind === 'choice') && tokens.length >= 2
}
