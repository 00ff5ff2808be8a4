/**
 * What was said for a figure against the figure. The only place of judging where a value is looked at; doubt about
 * what was said comes before any comparison, so that the right value is never picked out of several.
 */

import { type ComposedSpec, isComposed, matchComposed } from '../kinds/composed.ts'
import type { Figure, Phraseology, Value } from '../kinds/kind.ts'
import type { Lack, Reading } from '../kinds/reading.ts'
import { isExactly, isNumeric, isSameValue } from '../kinds/table.ts'
import { isPlausible } from './assign.ts'
import type { Saying } from './bind.ts'
import type { Because } from './model.ts'

export type Outcome =
  | { readonly is: 'right'; readonly read: Value; readonly form: boolean }
  | { readonly is: 'wrong'; readonly because: Because; readonly read?: Value }
  | { readonly is: 'lacking'; readonly lacks: Lack; readonly read?: Value }
  | { readonly is: 'implausible'; readonly read: Value }
  | { readonly is: 'doubtful'; readonly because: Because }

/** True where the value is the figure's or within what it accepts. */
function isRight(figure: Figure, read: Value): boolean {
  const { value, accept } = figure
  if (isExactly(figure, read, value)) return true
  if (!accept || !isNumeric(figure) || typeof read !== 'number') return false
  const { min, max, tolerance } = accept
  const dust = 1e-9
  if (tolerance !== undefined && Math.abs(read - Number(value)) <= tolerance + dust) return true
  if (min === undefined && max === undefined) return false
  return read >= (min ?? -Infinity) - dust && read <= (max ?? Infinity) + dust
}

/** Reading with what lacks filled in from the figure: right but for that. */
function isRightSoFar(figure: Figure, reading: Reading): boolean {
  const { value } = figure
  switch (reading.lacks) {
    case 'direction':
      return isRight(figure, reading.value) || isRight(figure, -Number(reading.value))
    case 'decimals':
      return beginsWith(figure, reading)
    case 'digits':
      if (figure.kind === 'trim') return Math.sign(Number(value)) === reading.value
      if (figure.kind === 'runway') return String(value).toUpperCase().endsWith(String(reading.value))
      return figure.kind === 'heading' && isExactly(figure, reading.value, value)
    default:
      return false
  }
}

function decimalsOf(figure: Figure): number {
  return figure.kind === 'decimal' || figure.kind === 'trim' ? figure.decimals : 1
}

/** "Five" of 5.2: what was said of the decimals is how the figure begins. */
function beginsWith(figure: Figure, reading: Reading): boolean {
  const places = decimalsOf(figure)
  const read = Math.abs(Number(reading.value)).toFixed(places)
  const expected = Math.abs(Number(figure.value)).toFixed(places)
  const said = read.replace(/\.?0*$/, '')
  return expected === read || (expected.startsWith(said) && said.split('.')[0] === expected.split('.')[0])
}

/** Digits of a value as they would all be said. */
function allDigits(figure: Figure): string {
  if (figure.kind === 'altimeter' && figure.unit === 'inHg') return Number(figure.value).toFixed(2).replace('.', '')
  return String(figure.value)
}

/** Part of a code, a time or a setting, from either end: perhaps the rest was not heard. */
function isEndOf(figure: Figure, reading: Reading): boolean {
  if (figure.kind !== 'digits' && figure.kind !== 'time' && figure.kind !== 'altimeter') return false
  const all = allDigits(figure)
  const said = reading.digits ?? ''
  return said !== '' && said.length < all.length && (all.startsWith(said) || all.endsWith(said))
}

/** A decimal whose fraction is zero may be said without it. */
function isComplete(figure: Figure, reading: Reading): boolean {
  if (!reading.lacks) return true
  return (
    reading.lacks === 'decimals' &&
    !reading.open &&
    figure.kind === 'decimal' &&
    Number.isInteger(Number(reading.value)) &&
    isRight(figure, reading.value)
  )
}

/** One saying, judged. */
export function compare(figure: Figure, saying: Saying, phraseology: Phraseology): Outcome {
  if (saying.negated) return { is: 'wrong', because: 'value' }
  if (isComposed(figure)) return compareComposed(figure, saying, phraseology)
  const first = saying.readings.filter((reading) => !reading.secondary)
  if (first.length === 0) return { is: 'doubtful', because: 'notUnderstood' }
  const whole = first.filter((reading) => isComplete(figure, reading))
  const right = whole.find((reading) => !reading.otherUnit && isRight(figure, reading.value))
  const sound = whole.filter((reading) => isPlausible(reading, figure) || reading === right)
  if (new Set(sound.map(({ value }) => value)).size > 1) return { is: 'doubtful', because: 'ambiguous' }
  if (sound.length === 0 && first.some((reading) => isEndOf(figure, reading))) {
    return { is: 'doubtful', because: 'notUnderstood' }
  }
  if (right) return { is: 'right', read: right.value, form: phraseology === 'plain' || right.standard }
  const second = saying.readings.filter((reading) => reading.secondary)
  if (sound.length === 0 && second.some((reading) => isRight(figure, reading.value)))
    return { is: 'doubtful', because: 'ambiguous' }
  const lacking = first.find((reading) => reading.lacks && isRightSoFar(figure, reading))
  if (whole.length === 0 && lacking?.lacks) {
    const read = isSideOnly(figure, lacking) ? {} : { read: lacking.value }
    return { is: 'lacking', lacks: lacking.lacks, ...read }
  }
  const wrong = sound[0] ?? whole[0] ?? first[0]
  return wrong ? wrongness(figure, wrong) : { is: 'doubtful', because: 'notUnderstood' }
}

/** A value of several pieces; one that can be understood in two ways is asked for again, whichever is right. */
function compareComposed(figure: Figure & ComposedSpec, { readings }: Saying, phraseology: Phraseology): Outcome {
  const possible = readings.filter((reading) => !reading.secondary)
  const first = possible.filter((reading) => isPlausible(reading, figure))
  const [reading] = first.length > 0 ? first : possible
  if (!reading) return { is: 'doubtful', because: 'notUnderstood' }
  if (new Set(first.map(({ value }) => value)).size > 1) return { is: 'doubtful', because: 'ambiguous' }
  const read = reading.value
  if (!isPlausible(reading, figure)) return { is: 'implausible', read }
  switch (matchComposed(figure, figure.value, reading)) {
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
      const isDoubtful = other.some((each) => matchComposed(figure, figure.value, each) === 'same')
      return isDoubtful ? { is: 'doubtful', because: 'ambiguous' } : { is: 'wrong', because: 'value', read }
    }
  }
}

const SIDE = /[LRC]$/

/** Only a direction was said. */
function isSideOnly(figure: Figure, reading: Reading): boolean {
  return reading.lacks === 'digits' && (figure.kind === 'trim' || figure.kind === 'runway')
}

function wrongness(figure: Figure, reading: Reading): Outcome {
  const { value: read } = reading
  if (isSideOnly(figure, reading)) return { is: 'wrong', because: 'direction' }
  if (figure.kind === 'runway') {
    const expected = String(figure.value).toUpperCase()
    const same = String(read).replace(SIDE, '') === expected.replace(SIDE, '').padStart(2, '0')
    if (same && !SIDE.test(String(read))) return { is: 'lacking', lacks: 'direction', read }
    if (reading.implausible) return { is: 'implausible', read }
    return { is: 'wrong', because: same ? 'direction' : 'value', read }
  }
  if (reading.otherUnit) {
    // A direction that the axis does not have has no value that could be shown.
    return figure.kind === 'trim' ? { is: 'wrong', because: 'direction' } : { is: 'wrong', because: 'unit', read }
  }
  if (!isPlausible(reading, figure) && (reading.lacks !== 'direction' || figure.kind === 'altimeter')) {
    return { is: 'implausible', read }
  }
  const turned = figure.kind === 'trim' && typeof read === 'number' && !reading.lacks && isRight(figure, -read)
  return { is: 'wrong', because: turned ? 'direction' : 'value', read }
}

/** All sayings of one figure in one answer: the same twice is fine, two values never are. */
export function compareAll(figure: Figure, sayings: readonly Saying[], phraseology: Phraseology): Outcome {
  const outcomes = sayings.map((saying) => compare(figure, saying, phraseology))
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

/** Right ones and ones that are right so far say the same thing. */
function agree(outcomes: readonly Outcome[]): boolean {
  const right = outcomes.filter(({ is }) => is === 'right')
  return outcomes.every(({ is }) => is === 'right' || is === 'lacking') && new Set(right.map(readOf)).size === 1
}
