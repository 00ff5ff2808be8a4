/** Winds: direction in three digits, speed in knots, perhaps gusts; "variable" and "calm". */

import { alternatives, optional, type Rule, rule, sequence, weighted } from '../grammarRules.ts'
import { readNumber } from '../numbers/readings.ts'
import { sayDigits } from '../numbers/say.ts'
import type { Token } from '../numbers/tokens.ts'
import { capitals } from './codes.ts'
import type { TextKind } from './definition.ts'
import type { Radio } from './radio.ts'
import { affixTable, type Match, type Reading } from './reading.ts'
import { DIGIT, PAIR, TENS, upTo } from './ruleParts.ts'
import type { Phraseology, Value } from './value.ts'

/** "240/12", "240/12G25", "VRB/3", "CALM"; knots. */
export interface WindSpec {
  readonly kind: 'wind'
}

const WORDS = affixTable([
  [{ role: 'noun' }, ['wind', 'winds', 'surface', 'from']],
  [{ role: 'unit' }, ['knots', 'knot', 'kt', 'kts']],
  [{ role: 'degrees' }, ['degrees', 'degree']],
  [{ role: 'joint', to: 'number' }, ['at']],
  [{ role: 'gust' }, ['gusting', 'gusts', 'gust', 'g']],
  [{ role: 'variable' }, ['variable', 'vrb']],
  [{ role: 'zero' }, ['calm']],
])

/** What was said of a wind, each piece as its digits. */
interface Said {
  readonly direction?: string
  readonly speed?: string
  readonly gust?: string
  readonly standard: boolean
  readonly secondary: boolean
}

interface Wind {
  /** Three digits, or VRB; empty where it was not said. Calm is no direction. */
  readonly direction: string
  readonly speed: number | undefined
  readonly gust: number | undefined
}

const SHAPE = /^(?:(VRB|\d{1,3})?(?:\/(\d{1,3}))?(?:G(\d{1,3}))?|CALM)$/

function windOf(value: Value): Wind | undefined {
  const found = SHAPE.exec(String(value).trim().toUpperCase())
  if (!found) return undefined
  const [, direction = '', speed, gust] = found
  const number = (text: string | undefined) => (text === undefined ? undefined : Number(text))
  return { direction, speed: number(speed), gust: number(gust) }
}

const isCalm = (value: Value) => String(value).trim().toUpperCase() === 'CALM'

/** Fastest that is taken for a wind. */
const FASTEST = 199

function isPlausible({ direction, speed = 0, gust }: Wind): boolean {
  const degrees = Number(direction)
  if (direction.length === 3 && direction !== 'VRB' && (degrees < 1 || degrees > 360)) return false
  return speed <= FASTEST && (gust === undefined || (gust > speed && gust <= FASTEST))
}

function isWind(value: Value): boolean {
  if (isCalm(value)) return true
  const wind = windOf(value)
  return wind !== undefined && wind.direction.length === 3 && wind.speed !== undefined && isPlausible(wind)
}

const roleOf = (token: Token | undefined) => WORDS.get(token?.text ?? '')?.role

function readWind(tokens: readonly Token[]): readonly Reading[] {
  const said = tokens.filter((token) => roleOf(token) !== 'noun')
  if (said.some((token) => roleOf(token) === 'zero')) {
    return said.length === 1 ? [{ value: 'CALM', standard: true }] : []
  }
  const at = said.findIndex((token) => roleOf(token) === 'gust')
  const heads = steady(at < 0 ? said : said.slice(0, at))
  const gusts =
    at < 0 ? [{}] : amounts(withoutUnit(said.slice(at + 1))).map(({ whole, ...form }) => ({ gust: whole, ...form }))
  return [...heads.flatMap((head) => gusts.map((gust) => readingOf(both(head, gust))))]
}

function both(head: Said, gust: Partial<Said>): Said {
  const standard = head.standard && gust.standard !== false
  return { ...head, ...gust, standard, secondary: head.secondary || gust.secondary === true }
}

function readingOf({ direction = '', speed, gust, standard, secondary }: Said): Reading {
  const value = `${direction}${speed === undefined ? '' : `/${Number(speed)}`}${gust === undefined ? '' : `G${Number(gust)}`}`
  const wind = windOf(value)
  const reading = { value, standard, secondary, implausible: wind === undefined || !isPlausible(wind) }
  return direction.length < 3 || speed === undefined ? { ...reading, lacks: 'digits', tail: direction === '' } : reading
}

interface Amount {
  readonly whole: string
  readonly standard: boolean
  readonly secondary: boolean
}

/** Whole numbers of up to three digits; the little "to" behind "gusting" is both itself and a two. */
function amounts(tokens: readonly Token[]): readonly Amount[] {
  const ways = tokens[0]?.text === 'to' && tokens.length > 1 ? [tokens.slice(1), tokens] : [tokens]
  return ways.flatMap((way) => numbers(way)).filter(({ whole }) => whole.length <= 3)
}

function numbers(tokens: readonly Token[]): readonly Amount[] {
  return readNumber(tokens).flatMap(({ whole, fraction, standard, style, secondary }) =>
    fraction === undefined ? [{ whole, standard: standard && style !== 'scaled', secondary }] : [],
  )
}

const withoutUnit = (tokens: readonly Token[]) => (roleOf(tokens.at(-1)) === 'unit' ? tokens.slice(0, -1) : tokens)

/** Direction and speed: parted by "degrees" or "at", or in one row, where the direction has three digits. */
function steady(tokens: readonly Token[]): readonly Said[] {
  const words = withoutUnit(tokens)
  const hasUnit = words.length < tokens.length
  const isParting = (token: Token) => roleOf(token) === 'degrees' || roleOf(token) === 'joint'
  if (words.length === 0) return hasUnit ? [] : [{ standard: true, secondary: false }]
  if (roleOf(words[0]) === 'variable') {
    const rest = words.slice(1).filter((token) => !isParting(token))
    if (rest.length === 0) return [{ direction: 'VRB', standard: true, secondary: false }]
    return amounts(rest).map(({ whole, ...form }) => ({ direction: 'VRB', speed: whole, ...form }))
  }
  const parting = words.findIndex(isParting)
  if (parting < 0) return numbers(words).flatMap((number) => inOneRow(number, hasUnit))
  const behind = words.slice(parting + 1)
  const speeds = behind[0] && isParting(behind[0]) ? behind.slice(1) : behind
  const directions = amounts(words.slice(0, parting))
  if (speeds.length === 0) return directions.map(({ whole, ...form }) => ({ direction: whole, ...form }))
  return directions.flatMap((direction) =>
    amounts(speeds).map(({ whole, standard, secondary }) => ({
      direction: direction.whole,
      speed: whole,
      standard: direction.standard && standard,
      secondary: direction.secondary || secondary,
    })),
  )
}

/** "Two four zero one two"; three digits are a direction, fewer a speed. */
function inOneRow({ whole, ...form }: Amount, hasUnit: boolean): readonly Said[] {
  if (whole.length > 6) return []
  if (whole.length < 3 || (whole.length === 3 && hasUnit)) return [{ speed: whole, ...form }]
  if (whole.length === 3) return [{ direction: whole, ...form }]
  return [{ direction: whole.slice(0, 3), speed: whole.slice(3), ...form }]
}

/** What was said against the wind in force; a part that was left out is not wrong. */
function matchWind({ value }: Reading, expected: Value): Match {
  const said = windOf(value)
  const full = windOf(expected)
  if (isCalm(value) || isCalm(expected)) return isCalm(value) && isCalm(expected) ? 'same' : 'other'
  if (!said || !full) return 'other'
  const { direction, speed, gust } = said
  const isRight =
    (direction === '' || direction.padStart(3, '0') === full.direction) &&
    (speed === undefined || speed === full.speed) &&
    (gust === undefined || gust === full.gust)
  if (!isRight) return 'other'
  const isWhole = direction.length === 3 && speed !== undefined && gust === full.gust
  return isWhole ? 'same' : 'lacking'
}

function showWind(value: Value): string {
  const wind = windOf(value)
  if (!wind || isCalm(value)) return String(value).toUpperCase()
  const { direction, speed, gust } = wind
  return `${direction}${speed === undefined ? '' : `/${speed}`}${gust === undefined ? '' : `G${gust}`}`
}

/** The wind as ICAO and the FAA have it said. A piece that is not there is left out. */
function sayWind(value: Value, phraseology: Phraseology, radio: Radio = 'icao'): string {
  const wind = windOf(value)
  if (!wind || isCalm(value)) return 'calm'
  const digits = (amount: number | string | undefined) => sayDigits(String(amount ?? ''), phraseology !== 'plain')
  const { direction, speed, gust } = wind
  const from = direction === 'VRB' ? 'variable' : digits(direction)
  const isFaa = radio === 'faa'
  const words = [from]
  if (isFaa)
    words.push(speed === undefined ? '' : `at ${digits(speed)}`, gust === undefined ? '' : `gusts ${digits(gust)}`)
  else {
    if (direction !== '' && direction !== 'VRB') words.push('degrees')
    if (speed !== undefined) words.push(`${digits(speed)} knots`)
    if (gust !== undefined) words.push(`gusting ${digits(gust)} knots`)
  }
  return words.filter((word) => word !== '').join(' ')
}

const [FROM, FORCE, GUSTS] = [rule('from'), rule('force'), rule('gusts')]

/** Weights as in a call sign's rules. */
const GRAMMAR_RULES: readonly Rule[] = [
  {
    name: 'from',
    expansion: alternatives(
      weighted(1, sequence(DIGIT, DIGIT, DIGIT)),
      weighted(0.2, sequence(DIGIT, TENS, optional(DIGIT))),
    ),
  },
  {
    name: 'force',
    expansion: sequence(alternatives(weighted(1, upTo(2, DIGIT)), weighted(0.2, PAIR)), optional('knots')),
  },
  { name: 'gusts', expansion: sequence(alternatives('gusting', 'gusts'), FORCE) },
  {
    name: 'steady',
    expansion: alternatives(
      weighted(1, sequence(FROM, alternatives(sequence('degrees', optional('at')), 'at'), FORCE)),
      weighted(0.1, sequence(FROM, optional('degrees'))),
      weighted(0.1, sequence(FROM, FORCE)),
      weighted(0.5, sequence('variable', optional('at'), FORCE)),
    ),
  },
  {
    name: 'windSaid',
    expansion: alternatives(
      sequence(
        optional('wind'),
        alternatives(weighted(1, sequence(rule('steady'), optional(GUSTS))), weighted(0.5, 'calm')),
      ),
      weighted(0.05, GUSTS),
    ),
  },
]

export const wind: TextKind<WindSpec> = {
  values: 'text',
  fields: {},
  written: () => 'direction in three digits, speed and gusts: "240/12", "240/12G25", "VRB/3" or "CALM"',
  isWritten: isWind,
  tidied: capitals,
  canonical: showWind,

  affixes: () => WORDS,
  nouns: ['wind'],
  read: readWind,
  say: (value, _, phraseology) => sayWind(value, phraseology),
  sayOnRadio: (value, _, radio) => sayWind(value, 'standard', radio),
  show: showWind,

  heard: {
    shapes: () => ['W'],
    before: ['wind'],
    behind: ['degrees', 'at', 'knots', 'gusting', 'gusts', 'variable', 'calm'],
    openings: ['at', 'gusting', 'gusts', 'variable', 'wind'],
    mostDigits: () => undefined,
    isWhole: ({ digits, next }) => digits !== 3 || next === 'knots',
    isOfOneLength: false,
    isSpelled: false,
    own: { sign: 'W', rule: 'windSaid', rules: () => GRAMMAR_RULES },
  },
  mayBeCutShort: false,
  match: matchWind,
  mistake: () => undefined,
  isReadBack: false,
}
