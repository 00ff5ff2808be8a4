/** Taxi routes: several taxiways in their order. */

import { alternatives, NOTHING, optional, type Rule, rule, sequence, weighted } from '../grammarRules.ts'
import type { Token } from '../numbers/tokens.ts'
import type { TextKind } from './definition.ts'
import { LETTERS, readSpelled, spell } from './letters.ts'
import type { Affix, Affixes, Reading } from './reading.ts'
import { DIGIT, LETTER, TEEN, upTo } from './ruleParts.ts'
import { otherTaxiway, TAXIWAY } from './taxiways.ts'
import type { Value } from './value.ts'

/** Taxiways in their order: "A3 B C1". */
export interface RouteSpec {
  readonly kind: 'route'
}

const ROUTE = new RegExp(`^${TAXIWAY.source}([ ,]+${TAXIWAY.source})*$`)
/** As heard, where one element ends is not to be told: each letter begins one. */
const HEARD_ROUTE = /^([A-Z]\d{0,2})+$/

const AFFIXES: Affixes = new Map<string, Affix>([
  ...LETTERS,
  ...['via', 'taxiway', 'taxiways', 'then', 'and'].map((word): [string, Affix] => [
    word,
    { role: 'joint', to: 'letter' },
  ]),
])
const isJoint = (token: Token) => AFFIXES.get(token.text)?.role === 'joint'

/** Two routes are spoken alike where their characters are: "A B" and "AB" cannot be told apart. */
function characters(value: Value): string {
  return String(value)
    .toUpperCase()
    .replace(/[^A-Z0-9]/g, '')
}

function readRoute(tokens: readonly Token[]): readonly Reading[] {
  const spoken = tokens.filter((token) => !isJoint(token))
  // "Alfa and three" is no taxiway.
  if (tokens.some((token, i) => isJoint(token) && tokens[i + 1]?.number)) return []
  return readSpelled(spoken).flatMap(({ text, standard, secondary }) => {
    if (!HEARD_ROUTE.test(text)) return []
    return [{ value: (text.match(/[A-Z]\d*/g) ?? []).join(' '), standard, secondary }]
  })
}

const tidied = (text: string) => text.toUpperCase().trim().replace(/[ ,]+/g, ' ')

const GRAMMAR_RULES: readonly Rule[] = [
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

export const route: TextKind<RouteSpec> = {
  values: 'text',
  fields: {},
  written: () => 'taxiways in their order, each one or two letters with a number or a letter: "A3 B C1"',
  isWritten: (value) => ROUTE.test(String(value).trim()),
  tidied,
  canonical: characters,

  affixes: () => AFFIXES,
  nouns: ['route'],
  read: readRoute,
  say: (value, _, phraseology) => spell(characters(value), phraseology !== 'plain'),
  show: (value) => tidied(String(value)),

  heard: {
    shapes: () => ['R'],
    before: ['taxiway'],
    behind: ['via', 'then', 'and'],
    openings: ['via', 'then', 'taxiway'],
    mostDigits: () => undefined,
    // Nobody knows how many taxiways are to come.
    isWhole: () => false,
    isOfOneLength: false,
    isSpelled: true,
    own: {
      sign: 'R',
      rule: 'route',
      rules: () => GRAMMAR_RULES,
    },
  },
  mayBeCutShort: false,
  /** A route of fewer taxiways is another route, not a part of this one: nothing tells it from one that is whole. */
  match: ({ value }, expected) => (characters(value) === characters(expected) ? 'same' : 'other'),
  mistake(value, _, chance) {
    const taxiways = String(value).split(' ')
    const at = chance.below(taxiways.length)
    return taxiways.map((one, index) => (index === at ? otherTaxiway(one, chance) : one)).join(' ')
  },
  isReadBack: true,
}
