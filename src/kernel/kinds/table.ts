/** The table of kinds: for each one how it is read, said, shown and compared, and its instrument's scale. */

import type { Token } from '../numbers/tokens.ts'
import { ALTIMETER_SCALE, altimeterAffixes, readAltimeter, sayAltimeter, showAltimeter } from './altimeter.ts'
import { callsignAffixes, readCallsign, sayCallsign, showCallsign } from './callsign.ts'
import { choiceAffixes, isChoiceWord, readChoice, sayChoice } from './choice.ts'
import { canonComposed, isComposed } from './composed.ts'
import {
  decimalAffixes,
  readDecimal,
  readTrim,
  sayDecimal,
  sayTrim,
  showDecimal,
  showTrim,
  trimAffixes,
} from './decimal.ts'
import { digitAffixes, readDigits, sayDigitKind, showDigitKind } from './digits.ts'
import type { Figure, KindSpec, Phraseology, Value } from './kind.ts'
import {
  identifierAffixes,
  readIdentifier,
  readRoute,
  routeAffixes,
  sayIdentifier,
  sayRoute,
  showRoute,
} from './places.ts'
import type { Affixes, Reading } from './reading.ts'
import { readWhole, sayWhole, showWhole, wholeAffixes } from './whole.ts'
import { readWind, sayWind, showWind, windAffixes } from './wind.ts'

/** Every reading of a run of words as a value of the kind; empty where it is none. */
export function readValue(tokens: readonly Token[], spec: KindSpec): readonly Reading[] {
  switch (spec.kind) {
    case 'decimal':
      return readDecimal(tokens, spec)
    case 'trim':
      return readTrim(tokens, spec)
    case 'integer':
    case 'speed':
    case 'weight':
    case 'temperature':
    case 'altitude':
    case 'flightLevel':
      return readWhole(tokens, spec)
    case 'digits':
    case 'time':
    case 'heading':
    case 'runway':
    case 'frequency':
      return readDigits(tokens, spec)
    case 'altimeter':
      return readAltimeter(tokens, spec)
    case 'identifier':
      return readIdentifier(tokens, spec)
    case 'callsign':
      return readCallsign(tokens, spec)
    case 'wind':
      return readWind(tokens)
    case 'route':
      return readRoute(tokens)
    case 'choice':
      return readChoice(tokens, spec)
  }
}

/** Words that may stand beside the digits of the kind. */
export function affixesOf(spec: KindSpec): Affixes {
  switch (spec.kind) {
    case 'decimal':
      return decimalAffixes()
    case 'trim':
      return trimAffixes()
    case 'integer':
    case 'speed':
    case 'weight':
    case 'temperature':
    case 'altitude':
    case 'flightLevel':
      return wholeAffixes(spec)
    case 'digits':
    case 'time':
    case 'heading':
    case 'runway':
    case 'frequency':
      return digitAffixes(spec)
    case 'altimeter':
      return altimeterAffixes(spec)
    case 'identifier':
      return identifierAffixes()
    case 'callsign':
      return callsignAffixes(spec)
    case 'wind':
      return windAffixes()
    case 'route':
      return routeAffixes()
    case 'choice':
      return choiceAffixes()
  }
}

/** True where the word can be part of a value of the kind, number words aside. */
export function isValueWord(token: Token, spec: KindSpec): boolean {
  return affixesOf(spec).has(token.text) || (spec.kind === 'choice' && isChoiceWord(spec, token))
}

/** The value's spoken words, digits as words: never digits. */
export function sayValue(figure: Figure, phraseology: Phraseology): string {
  const { value } = figure
  switch (figure.kind) {
    case 'decimal':
      return sayDecimal(value, figure, phraseology)
    case 'trim':
      return sayTrim(value, figure, phraseology)
    case 'integer':
    case 'speed':
    case 'weight':
    case 'temperature':
    case 'altitude':
    case 'flightLevel':
      return sayWhole(value, figure, phraseology)
    case 'digits':
    case 'time':
    case 'heading':
    case 'runway':
    case 'frequency':
      return sayDigitKind(value, figure, phraseology)
    case 'altimeter':
      return sayAltimeter(value, figure, phraseology)
    case 'identifier':
      return sayIdentifier(value, phraseology)
    case 'callsign':
      return sayCallsign(value, figure, phraseology)
    case 'wind':
      return sayWind(value, phraseology)
    case 'route':
      return sayRoute(value, phraseology)
    case 'choice':
      return sayChoice(value, figure)
  }
}

/** The value as the screen shows it: "5.2 up", "1013", "27L". */
export function showValue(figure: Figure): string {
  const { value } = figure
  switch (figure.kind) {
    case 'decimal':
      return showDecimal(value, figure)
    case 'trim':
      return showTrim(value, figure)
    case 'integer':
    case 'speed':
    case 'weight':
    case 'temperature':
    case 'altitude':
    case 'flightLevel':
      return showWhole(value, figure)
    case 'digits':
    case 'time':
    case 'heading':
    case 'runway':
    case 'frequency':
      return showDigitKind(value, figure)
    case 'altimeter':
      return showAltimeter(value, figure)
    case 'callsign':
      return showCallsign(value)
    case 'wind':
      return showWind(value)
    case 'route':
      return showRoute(value)
    case 'identifier':
    case 'choice':
      return String(value)
  }
}

export interface ScaleEnds {
  readonly min: number
  readonly max: number
  readonly step?: number
}

/** Wide, since they serve every instrument of the kind; a pack narrows them. */
function widestScale(spec: KindSpec): ScaleEnds | undefined {
  switch (spec.kind) {
    case 'decimal':
      return spec.unit === 'percent' ? { min: -50, max: 200 } : { min: -99_999, max: 999_999 }
    case 'trim':
      return { min: -100, max: 100 }
    case 'integer':
      return { min: -99_999, max: 999_999 }
    case 'speed':
      return { min: 0, max: 999 }
    case 'weight':
      return { min: 0, max: 999_999 }
    case 'temperature':
      return { min: -100, max: 1999 }
    case 'altitude':
      return { min: 0, max: 99_999 }
    case 'flightLevel':
      return { min: 0, max: 999 }
    case 'heading':
      return { min: 1, max: 360 }
    case 'frequency':
      return { min: 100, max: 400 }
    case 'altimeter':
      return ALTIMETER_SCALE[spec.unit]
    case 'digits':
    case 'time':
    case 'runway':
    case 'identifier':
    case 'callsign':
    case 'wind':
    case 'route':
    case 'choice':
      return undefined
  }
}

/** The instrument's scale: the pack's, or the kind's; undefined for kinds without one. */
export function scaleOf(spec: KindSpec): ScaleEnds | undefined {
  const widest = widestScale(spec)
  if (!widest || !('min' in spec || 'max' in spec || 'step' in spec)) return widest
  const { min = widest.min, max = widest.max, step } = spec
  return step === undefined ? { min, max } : { min, max, step }
}

/** A number as it is spoken: to the decimals that the kind says. */
function spoken(spec: KindSpec, value: Value): number {
  switch (spec.kind) {
    case 'decimal':
    case 'trim':
      return Number(Number(value).toFixed(spec.decimals))
    case 'altimeter':
      return Number(Number(value).toFixed(spec.unit === 'inHg' ? 2 : 3))
    default:
      return Number(Number(value).toFixed(3))
  }
}

/** True where both values are spoken alike. */
export function isSameValue(spec: KindSpec, a: Value, b: Value): boolean {
  if (isComposed(spec)) return canonComposed(spec, a) === canonComposed(spec, b)
  if (!isNumeric(spec)) return String(a).toUpperCase() === String(b).toUpperCase()
  return spoken(spec, a) === spoken(spec, b)
}

/** True where the value that was read is exactly the figure as it is spoken: nothing of it is rounded away. */
export function isExactly(spec: KindSpec, read: Value, expected: Value): boolean {
  if (!isNumeric(spec)) return isSameValue(spec, read, expected)
  return typeof read === 'number' && Math.abs(read - spoken(spec, expected)) < 1e-6
}

export function isNumeric(spec: KindSpec): boolean {
  return widestScale(spec) !== undefined
}
