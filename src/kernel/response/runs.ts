/**
 * One run of number words -> values for one figure or several in a row. Commas are not heard, so "one two eight one
 * three one" may be two speeds: a run is split only where exactly one way to split it makes sense.
 */

import { type KindSpec, kindOf } from '../kinds/kind.ts'
import type { Reading } from '../kinds/reading.ts'
import { affixesOf, isValueWord, readValue, scaleOf } from '../kinds/table.ts'
import { isLittle, isNumberToken, type Token } from '../numbers/tokens.ts'
import type { Because } from './model.ts'
import { mayBeNumber } from './options.ts'
import type { RunAtom } from './scan.ts'

export interface Piece {
  /** Place among the figures handed in, from 0. */
  readonly place: number
  readonly tokens: readonly Token[]
  readonly readings: readonly Reading[]
}

const MOST_WAYS = 12
/** Longer runs are no answer to anything. */
const LONGEST_RUN = 60

/** Readings of a whole run. A little word at either end ("to") is tried both as a digit and as itself. */
export function readRun(run: RunAtom, spec: KindSpec): readonly Reading[] {
  const { tokens, looseHead, looseTail } = run
  if (tokens.length > LONGEST_RUN) return []
  const readings = [...readValue(tokens, spec)]
  if (looseHead) readings.push(...readValue(tokens.slice(1), spec))
  if (looseTail) readings.push(...readValue(tokens.slice(0, -1), spec))
  return readings
}

/** Whether it could be a value of the kind at all: names for a choice of names, a number or the kind's own words for others. */
export function hasFormOf(run: RunAtom, spec: KindSpec | undefined): boolean {
  if (!spec) return true
  const { tokens } = run
  return tokens.some((token) => (token.number ? mayBeNumber(spec) : isValueWord(token, spec)))
}

/** Within the instrument's scale, and on its step. */
export function isPlausible(reading: Reading, spec: KindSpec): boolean {
  if (reading.implausible) return false
  const scale = scaleOf(spec)
  if (!scale || typeof reading.value !== 'number') return true
  const { min, max, step } = scale
  if (!(reading.value >= min - 1e-9 && reading.value <= max + 1e-9)) return false
  return (
    step === undefined ||
    step <= 0 ||
    isOnStep(reading.value - (Number.isFinite(min) ? Math.ceil(min / step) * step : 0), step)
  )
}

function isOnStep(offset: number, step: number): boolean {
  const steps = offset / step
  return Math.abs(steps - Math.round(steps)) < 1e-6
}

/** A complete, plausible value of the kind, as anyone would understand it. */
export function isSound(reading: Reading, spec: KindSpec): boolean {
  const { secondary, lacks, otherUnit, overlong } = reading
  return !secondary && !lacks && !otherUnit && !overlong && isPlausible(reading, spec)
}

/** Sound, or short of a direction, which the other half may have. */
function isNearlySound(reading: Reading, spec: KindSpec): boolean {
  if (reading.lacks !== 'direction') return isSound(reading, spec)
  return !reading.secondary && isPlausible(reading, spec)
}

function soundReadings(tokens: readonly Token[], spec: KindSpec): readonly Reading[] {
  return readValue(tokens, spec).filter((reading) => isSound(reading, spec))
}

export interface Split {
  readonly pieces: readonly Piece[]
  readonly doubt?: Because
}

/**
 * Gives a run to the first of some figures, or splits it among several. `runsAhead` more runs follow: where each figure
 * can have its own, nothing is split, and neither is a sound value after its label.
 */
export function splitRun(run: RunAtom, specs: readonly KindSpec[], runsAhead: number, labelled: boolean): Split {
  const first = specs[0]
  if (!first) return { pieces: [] }
  const readings = readRun(run, first)
  const whole: Split = { pieces: [{ place: 0, tokens: run.tokens, readings }] }
  const isWhole = readings.some((reading) => isSound(reading, first))
  const spare = specs.length - runsAhead
  if (spare < 2 || (labelled && isWhole)) return isWhole ? whole : (repeated(run, first) ?? whole)
  const ways = partings(run.tokens, specs.slice(0, spare))
  if (ways.length === 0) return isWhole ? whole : (repeated(run, first) ?? whole)
  const way = onlyWay(ways, specs)
  if (isWhole || !way) return { ...whole, doubt: isWhole ? 'twoValues' : 'ambiguous' }
  const pieces = way.map((tokens, place) => {
    return { place, tokens, readings: readValue(tokens, specs[place] as KindSpec) }
  })
  return { pieces }
}

/** Ways to split tokens among two or more figures in order, each piece a sound value; at most `MOST_WAYS`. */
function partings(tokens: readonly Token[], specs: readonly KindSpec[]): Token[][][] {
  const found: Token[][][] = []
  if (tokens.length > LONGEST_RUN) return found
  const seek = (from: number, place: number, pieces: Token[][]) => {
    if (found.length >= MOST_WAYS) return
    if (from === tokens.length) {
      if (pieces.length > 1) found.push(pieces)
      return
    }
    const spec = specs[place]
    if (!spec) return
    for (let end = tokens.length; end > from; end--) {
      const piece = tokens.slice(from, end)
      if (end === tokens.length && from === 0) continue
      if (!isTail(piece[0], spec) && soundReadings(piece, spec).length > 0) seek(end, place + 1, [...pieces, piece])
    }
  }
  seek(0, 0, [])
  return found
}

function isEvenInARow(spec: KindSpec): boolean {
  const kind = kindOf(spec)
  return kind.values === 'numbers' && kind.isEvenInARow === true
}

/** Speeds are said with the same number of digits: of several ways, the only one that keeps to that is meant. */
function onlyWay(ways: readonly (readonly Token[][])[], specs: readonly KindSpec[]): readonly Token[][] | undefined {
  if (ways.length === 1) return ways[0]
  if (!specs.every(isEvenInARow)) return undefined
  const even = ways.filter((way) => {
    const lengths = way.map((piece, i) => soundReadings(piece, specs[i] as KindSpec)[0]?.digits?.length)
    return way.length === specs.length && new Set(lengths).size === 1
  })
  return even.length === 1 ? even[0] : undefined
}

/** A unit ends a value and begins none; neither does a point after other tokens. */
function isTail(token: Token | undefined, spec: KindSpec): boolean {
  if (token?.number?.type === 'point') return true
  const role = affixesOf(spec).get(token?.text ?? '')?.role
  return role === 'unit' || role === 'otherUnit' || role === 'thousands'
}

/**
 * The same value said twice with nothing between: both halves are sound and the whole is not. Three words each at least,
 * so that a doubled digit never passes for a value said twice. Two different values come out as two fillers.
 */
function repeated(run: RunAtom, spec: KindSpec): Split | undefined {
  const { tokens } = run
  if (tokens.length > LONGEST_RUN) return undefined
  for (let end = 1; end < tokens.length; end++) {
    const halves = [tokens.slice(0, end), tokens.slice(end)]
    // "To" between two numbers may be just that, after a unit too.
    if (isLittle(halves[1]?.find(({ number }) => number !== undefined))) continue
    const isShort = (half: readonly Token[]) =>
      half.filter(isNumberToken).length < 3 && !hasNumeral(half) && !hasSide(half, spec)
    if (halves.some(isShort) && !isSameNumeral(halves)) continue
    const readings = halves.map((half) => readValue(half, spec).filter((reading) => isNearlySound(reading, spec)))
    if (readings.every((each) => each.length > 0)) {
      return { pieces: halves.map((half, i) => ({ place: 0, tokens: half, readings: readings[i] ?? [] })) }
    }
  }
  return undefined
}

/** "Twelve, twelve": nobody says two digits so, and no ear makes one twelve two. */
const isSameNumeral = ([one = [], other = []]: readonly (readonly Token[])[]) =>
  one.some(isGroup) && one.length === other.length && one.every(({ canon }, at) => canon === other[at]?.canon)

const isGroup = ({ number }: Token) => number?.type === 'teen' || number?.type === 'tens'

/** A doubled digit brings no direction with it. */
const hasSide = (tokens: readonly Token[], spec: KindSpec) =>
  tokens.some(({ text }) => affixesOf(spec).get(text)?.role === 'direction')

const hasNumeral = (tokens: readonly Token[]) =>
  tokens.some(({ number }) => number?.type === 'numeral' && number.digits.length > 2)
