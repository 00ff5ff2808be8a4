/** Radio frequencies in MHz. */

import { readNumber } from '../numbers/readings.ts'
import { sayDigits } from '../numbers/say.ts'
import type { Token } from '../numbers/tokens.ts'
import { digitsWith } from './amounts.ts'
import { unsignedRun } from './codes.ts'
import { type NumberKind, SLIP } from './definition.ts'
import { SCALE_FIELDS } from './fields.ts'
import { oneStepOff } from './mistakes.ts'
import { affixTable, type Reading } from './reading.ts'
import { after, THREE_DIGITS } from './shapes.ts'
import { narrowed, type Scale, type Value } from './value.ts'

export interface FrequencySpec extends Scale {
  readonly kind: 'frequency'
}

const AFFIXES = affixTable([[{ role: 'unit' }, ['megahertz', 'mhz']]])
const scale = (spec: FrequencySpec) => narrowed({ min: 100, max: 400 }, spec)
/** Of the 8.33 kHz raster: channels end in 0 or 5 kHz. */
const CHANNEL = 0.005
const DECIMALS = 3

/** 118.1 -> "118.1"; 118 -> "118.0"; the 5 kHz step is kept. */
const written = (value: Value) =>
  Number(value)
    .toFixed(3)
    .replace(/0{1,2}$/, '')

/** "118" to "136": where the airband's channels are. */
const AIRBAND = /^1(1[89]|2\d|3[0-6])/
/** Without the one hundred: "eighteen one". */
const WITHOUT_HUNDRED = /^(1[89]|2\d|3[0-6])/

/**
 * A channel of the airband without its point, or in groups without its one hundred, written in full: "one twenty four eight",
 * "twenty one six", "twenty one point six". So pilots say it to one another on the radio; to a checklist a number
 * without its one hundred is cut short, so `read` has none of that. Common practice, no source.
 */
export function shortChannel(tokens: readonly Token[]): string | undefined {
  const [number] = readNumber(tokens)
  if (!number || !tokens.every((token) => token.number)) return undefined
  const { whole, fraction, style } = number
  if (style === 'scaled' || fraction === '') return undefined
  // Digit by digit a first one that was not said was left out.
  const isGrouped = style === 'grouped' && WITHOUT_HUNDRED.test(whole)
  if (fraction !== undefined) return isGrouped && whole.length === 2 ? written(`1${whole}.${fraction}`) : undefined
  if (whole.length >= 4 && whole.length <= 6 && AIRBAND.test(whole)) return channel(whole)
  return isGrouped && whole.length >= 3 && whole.length <= 5 ? channel(`1${whole}`) : undefined
}

/** A channel of which the one hundred was left out, written in full: "twenty one six". */
export function channelWithoutHundred(tokens: readonly Token[]): string | undefined {
  const [number] = readNumber(tokens)
  return number && WITHOUT_HUNDRED.test(number.whole) ? shortChannel(tokens) : undefined
}

/** "One ten thirty five", "one two six four": in the bands of navigation and airband nobody misses the point. */
const isWithoutPoint = (digits: string) =>
  /^1(0[89]|1[0-7])\d{2}$/.test(digits) || (AIRBAND.test(digits) && /^\d{4,6}$/.test(digits))
const unpointed = (digits: string, secondary: boolean): Reading => ({
  value: Number(`${digits.slice(0, 3)}.${digits.slice(3)}`),
  standard: false,
  secondary,
})

const channel = (digits: string) => written(`${digits.slice(0, 3)}.${digits.slice(3)}`)

export const frequency: NumberKind<FrequencySpec> = {
  values: 'numbers',
  fields: SCALE_FIELDS,
  measure: 'none',
  scale,
  step: () => CHANNEL,
  precision: () => DECIMALS,

  affixes: () => AFFIXES,
  nouns: ['frequency'],
  read: (tokens) =>
    (unsignedRun(tokens, AFFIXES)?.numbers ?? []).flatMap((number): Reading[] => {
      const { whole, fraction, secondary, pointWord } = number
      if (number.thousandAfter || whole.startsWith('0')) return []
      if (whole.length !== 3 && fraction === undefined)
        return isWithoutPoint(whole) ? [unpointed(whole, secondary)] : []
      const standard = number.standard && (pointWord === 'decimal' || pointWord === '.')
      const reading: Reading = { value: Number(`${whole}.${fraction || '0'}`), standard, secondary }
      if (!fraction) return [{ ...reading, lacks: 'decimals' }]
      return [fraction.length > DECIMALS ? { ...reading, overlong: true } : reading]
    }),
  say(value, _, phraseology) {
    const radio = phraseology !== 'plain'
    const [whole = '', fraction = '0'] = written(value).split('.')
    return `${sayDigits(whole, radio)} ${radio ? 'decimal' : 'point'} ${sayDigits(fraction, radio)}`
  },
  show: written,
  digits: (value) => digitsWith(3, value),

  heard: {
    shapes: () => after(THREE_DIGITS, ['.d', '.dd', '.ddd', '.e', '.y', '.yd']),
    before: [],
    behind: [],
    openings: [],
    mostDigits: () => 6 + SLIP,
    isWhole: ({ digits, decimals }) => digits - decimals >= 3 && decimals >= 2,
    isOfOneLength: true,
    isSpelled: false,
  },
  mayBeCutShort: false,
  mistake: (value, spec, chance) => oneStepOff(Number(value), 0.1, scale(spec), chance, CHANNEL),
  isReadBack: true,
}
