/**
 * What was said for a figure, against the figure. This is the only place of judging that looks at a value. Doubt about
 * what was said comes before any comparison, so the right value is never picked out of several.
 */

import { type Figure, type Gauge, isGauge, kindOf, type Phraseology, type Value } from '../kinds/kind.ts'
import type { Match, Reading } from '../kinds/reading.ts'
import { digitsSaid, isExactly, isNumeric, isSameValue } from '../kinds/table.ts'
import type { ValueFiller } from './fill.ts'
import { compareReading } from './gauge.ts'
import type { Outcome } from './outcome.ts'
import { isPlausible } from './runs.ts'

/** True where the value is the figure's or within what it accepts. */
export function isRight(figure: Figure, read: Value): boolean {
  const { value, accept } = figure
  if (isExactly(figure, read, value)) return true
  if (!accept || !isNumeric(figure) || typeof read !== 'number') return false
  const { min, max, tolerance } = accept
  const dust = 1e-9
  if (tolerance !== undefined && Math.abs(read - Number(value)) <= tolerance + dust) return true
  if (min === undefined && max === undefined) return false
  return read >= (min ?? -Infinity) - dust && read <= (max ?? Infinity) + dust
}

/** Right as far as it goes: with what is missing taken from the figure, it is the figure. */
function isRightSoFar(figure: Figure, reading: Reading): boolean {
  const { value } = figure
  switch (reading.lacks) {
    case 'direction':
      return isRight(figure, reading.value) || isRight(figure, -Number(reading.value))
    case 'decimals':
      return beginsWith(figure, reading)
    case 'digits':
      return kindOf(figure).isRightSoFar?.(reading.value, value) ?? false
    default:
      return false
  }
}

/** "Five" of 5.2: the figure begins with what was said. */
function beginsWith(figure: Figure, reading: Reading): boolean {
  const kind = kindOf(figure)
  if (kind.values !== 'numbers') return false
  const places = kind.precision(figure)
  const read = Math.abs(Number(reading.value)).toFixed(places)
  const expected = Math.abs(Number(figure.value)).toFixed(places)
  const said = read.replace(/\.?0*$/, '')
  return expected === read || (expected.startsWith(said) && said.split('.')[0] === expected.split('.')[0])
}

/** Part of a code, a time or a setting, from either end: the rest may not have been heard. */
function isEndOf(figure: Figure, reading: Reading): boolean {
  if (!kindOf(figure).mayBeCutShort) return false
  const all = digitsSaid(figure, figure.value)
  const said = reading.digits ?? ''
  return said !== '' && said.length < all.length && (all.startsWith(said) || all.endsWith(said))
}

/** Zeros after the point need not be said, if the kind allows it. */
function isComplete(figure: Figure, reading: Reading): boolean {
  if (!reading.lacks) return true
  return (
    reading.lacks === 'decimals' &&
    !reading.open &&
    kindOf(figure).zerosMayLack?.(Number(reading.value)) === true &&
    isRight(figure, reading.value)
  )
}

/** One value that was said, against the figure. */
export function compare(figure: Figure, filler: ValueFiller, phraseology: Phraseology): Outcome {
  if (filler.negated) return { is: 'wrong', because: 'value' }
  const { match } = kindOf(figure)
  if (match) {
    return comparePieces(figure, filler, phraseology, (reading) => match(reading, figure.value, figure))
  }
  const first = filler.readings.filter((reading) => !reading.secondary)
  if (first.length === 0) return { is: 'doubtful', because: 'notUnderstood' }
  const whole = first.filter((reading) => isComplete(figure, reading))
  const right = whole.find((reading) => !reading.otherUnit && isRight(figure, reading.value))
  const sound = whole.filter((reading) => isPlausible(reading, figure) || reading === right)
  if (new Set(sound.map(({ value }) => value)).size > 1) return { is: 'doubtful', because: 'ambiguous' }
  if (sound.length === 0 && first.some((reading) => isEndOf(figure, reading))) {
    return { is: 'doubtful', because: 'notUnderstood' }
  }
  if (right) return { is: 'right', read: right.value, form: phraseology === 'plain' || right.standard }
  const second = filler.readings.filter((reading) => reading.secondary)
  if (sound.length === 0 && second.some((reading) => isRight(figure, reading.value)))
    return { is: 'doubtful', because: 'ambiguous' }
  const lacking = first.find((reading) => reading.lacks && isRightSoFar(figure, reading))
  if (whole.length === 0 && lacking?.lacks) {
    const read = isDirectionOnly(figure, lacking) ? {} : { read: lacking.value }
    return { is: 'lacking', lacks: lacking.lacks, ...read }
  }
  const wrong = sound[0] ?? whole[0] ?? first[0]
  return wrong ? wrongness(figure, wrong) : { is: 'doubtful', because: 'notUnderstood' }
}

/** A value of several pieces; one that can be understood in two ways is asked for again, whichever is right. */
function comparePieces(
  figure: Figure,
  { readings }: ValueFiller,
  phraseology: Phraseology,
  matchOf: (reading: Reading) => Match,
): Outcome {
  const possible = readings.filter((reading) => !reading.secondary)
  const first = possible.filter((reading) => isPlausible(reading, figure))
  const [reading] = first.length > 0 ? first : possible
  if (!reading) return { is: 'doubtful', because: 'notUnderstood' }
  if (new Set(first.map(({ value }) => value)).size > 1) return { is: 'doubtful', because: 'ambiguous' }
  const read = reading.value
  if (!isPlausible(reading, figure)) return { is: 'implausible', read }
  switch (matchOf(reading)) {
    case 'same':
      // A shortened call sign stays as it was said.
      return {
        is: 'right',
        read: isSameValue(figure, read, figure.value) ? figure.value : read,
        form: phraseology === 'plain' || reading.standard,
      }
    case 'part':
      return { is: 'doubtful', because: 'notUnderstood' }
    case 'lacking':
      return { is: 'lacking', lacks: 'digits', ...(!reading.tail && { read }) }
    case 'other': {
      const other = readings.filter(({ secondary }) => secondary)
      const isDoubtful = other.some((each) => matchOf(each) === 'same')
      return isDoubtful ? { is: 'doubtful', because: 'ambiguous' } : { is: 'wrong', because: 'value', read }
    }
  }
}

/** Only a direction was said. */
function isDirectionOnly(figure: Figure, reading: Reading): boolean {
  return reading.lacks === 'digits' && kindOf(figure).direction !== undefined
}

function wrongness(figure: Figure, reading: Reading): Outcome {
  const { value: read } = reading
  const { direction } = kindOf(figure)
  if (isDirectionOnly(figure, reading)) return { is: 'wrong', because: 'direction' }
  if (direction?.isLeftOut(read, figure.value)) return { is: 'lacking', lacks: 'direction', read }
  if (reading.otherUnit) {
    // A direction that the axis does not have has no value that could be shown.
    return direction ? { is: 'wrong', because: 'direction' } : { is: 'wrong', because: 'unit', read }
  }
  if (!isPlausible(reading, figure) && reading.lacks !== 'direction') return { is: 'implausible', read }
  const isTurned = !reading.lacks && direction?.isTurned(read, figure.value, (value) => isRight(figure, value)) === true
  return { is: 'wrong', because: isTurned ? 'direction' : 'value', read }
}

/** All that was said for one figure in one answer: the same twice is fine, two values never are. */
export function compareAll(figure: Figure | Gauge, fillers: readonly ValueFiller[], phraseology: Phraseology): Outcome {
  const outcomes = fillers.map((filler) =>
    isGauge(figure) ? compareReading(figure, filler, phraseology) : compare(figure, filler, phraseology),
  )
  const first = outcomes[0]
  if (!first) return { is: 'doubtful', because: 'missing' }
  if (outcomes.length === 1) return first
  const doubtful = outcomes.find(({ is }) => is === 'doubtful')
  if (doubtful) return doubtful
  const same = outcomes.every((each) => each.is === first.is && readOf(each) === readOf(first))
  if (same) return first
  const rest = outcomes.filter(({ is }) => is !== 'lacking')
  if (rest.length < outcomes.length && rest.length > 0 && agree(outcomes)) return rest[0] as Outcome
  return { is: 'doubtful', because: 'twoValues' }
}

const readOf = (outcome: Outcome) => ('read' in outcome ? outcome.read : undefined)

/** All are right, or right as far as they go, and say the same. */
function agree(outcomes: readonly Outcome[]): boolean {
  const right = outcomes.filter(({ is }) => is === 'right')
  return outcomes.every(({ is }) => is === 'right' || is === 'lacking') && new Set(right.map(readOf)).size === 1
}
