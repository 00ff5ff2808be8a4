/**
 * How letters, designators and routes may be spoken: any letter of the alphabet, any designator of the pack, any
 * taxiways in a row. A wind is here as well, since words stand inside it.
 */

import type { KindSpec } from '../kinds/kind.ts'
import {
  alternatives,
  anyPhrase,
  NOTHING,
  optional,
  type Rule,
  type RuleExpansion,
  rule,
  sequence,
  weighted,
} from './grammarRules.ts'

/** ICAO Annex 10 volume II, 5.2.1.3 (from memory), one token each. */
export const LETTERS: readonly string[] = [
  ...['alfa', 'bravo', 'charlie', 'delta', 'echo', 'foxtrot', 'golf', 'hotel', 'india', 'juliett', 'kilo', 'lima'],
  ...['mike', 'november', 'oscar', 'papa', 'quebec', 'romeo', 'sierra', 'tango', 'uniform', 'victor', 'whiskey'],
  ...['xray', 'yankee', 'zulu'],
]

/** Signs that shapes have besides those of number words: a letter, a call sign, a wind, a route -> their rules. */
export const SPELLING_RULES: Readonly<Record<string, string>> = {
  l: 'letter',
  C: 'callsign',
  W: 'windSaid',
  R: 'route',
}

/** The designators of a call sign, in lower case; none for other kinds. */
export function namesIn(spec: KindSpec): string[] {
  const names = spec.kind === 'callsign' ? (spec.telephony ?? []) : []
  return names.map((name) => name.toLowerCase().split(/\s+/).join(' '))
}

/** The kinds whose values hold letters of the alphabet. */
export const isSpelled = ({ kind }: KindSpec) => kind === 'identifier' || kind === 'callsign' || kind === 'route'

/**
 * The rules that those signs stand for; only what the kinds asked for need. `known`: designators that can be heard. Weights
 * stand beside the fullest form, and follow from no value; chosen on the tuning voices only.
 */
export function spellingRules(shapes: readonly KindSpec[], known: readonly string[]): Rule[] {
  const has = (kind: KindSpec['kind']) => shapes.some((spec) => spec.kind === kind)
  const names = [...new Set(shapes.flatMap(namesIn))].filter((name) => known.includes(name)).sort()
  return [
    ...(shapes.some(isSpelled) ? [{ name: 'letter', expansion: anyPhrase(LETTERS) }] : []),
    ...(has('callsign') ? callsignRules(names) : []),
    ...(has('wind') ? WIND_RULES : []),
    ...(has('route') ? ROUTE_RULES : []),
  ]
}

const DIGIT = rule('digit')
const TEEN = rule('teen')
const TENS = rule('tens')
const LETTER = rule('letter')
const CHARACTER = rule('character')
/** Numbers of two digits said as one: "twenty five", "fifteen". */
const PAIR = alternatives(TEEN, sequence(TENS, optional(DIGIT)))

/** Once, and again up to this many times in all. */
const upTo = (most: number, one: RuleExpansion): RuleExpansion =>
  most === 1 ? one : sequence(one, optional(upTo(most - 1, one)))

function callsignRules(names: readonly string[]): Rule[] {
  const registration = sequence(LETTER, CHARACTER, CHARACTER, optional(upTo(3, CHARACTER)))
  const character = { name: 'character', expansion: alternatives(weighted(1, LETTER), weighted(0.1, DIGIT)) }
  if (names.length === 0) return [character, { name: 'callsign', expansion: registration }]
  const grouped = alternatives(
    sequence(optional(DIGIT), PAIR),
    sequence(PAIR, PAIR),
    sequence(PAIR, DIGIT, DIGIT),
    sequence(alternatives(DIGIT, TEEN), rule('hundred')),
  )
  const flight = sequence(
    alternatives(weighted(1, upTo(4, DIGIT)), weighted(0.2, grouped)),
    alternatives(weighted(1, NOTHING), weighted(0.2, upTo(2, LETTER))),
  )
  const [TELEPHONY, FLIGHT] = [rule('telephony'), rule('flight')]
  const callsign = alternatives(
    weighted(1, sequence(TELEPHONY, FLIGHT)),
    weighted(0.1, sequence(TELEPHONY, LETTER, LETTER, optional(upTo(2, LETTER)))),
    weighted(0.05, TELEPHONY),
    weighted(0.05, FLIGHT),
    weighted(0.2, registration),
  )
  return [
    character,
    { name: 'flight', expansion: flight },
    { name: 'telephony', expansion: anyPhrase(names) },
    { name: 'callsign', expansion: callsign },
  ]
}

const [FROM, FORCE, GUSTS] = [rule('from'), rule('force'), rule('gusts')]

const WIND_RULES: readonly Rule[] = [
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

const ROUTE_RULES: readonly Rule[] = [
  {
    name: 'taxiway',
    expansion: sequence(
      LETTER,
      alternatives(weighted(1, NOTHING), weighted(0.1, LETTER)),
      alternatives(weighted(1, NOTHING), weighted(1, upTo(2, DIGIT)), weighted(0.2, TEEN)),
    ),
  },
  {
    name: 'route',
    expansion: sequence(
      rule('taxiway'),
      // A route has three or four taxiways, more than an answer has other values.
      alternatives(
        weighted(1, NOTHING),
        weighted(0.5, sequence(optional(alternatives('via', 'then', 'and', 'taxiway')), rule('route'))),
      ),
    ),
  },
]
