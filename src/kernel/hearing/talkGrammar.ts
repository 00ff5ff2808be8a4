/**
 * What may be said where an exchange or a briefing has the floor: several values in one breath, each in its shape with
 * the words that go with it, in any order; and the pack's phrases. Loose numbers and words keep a path of their own, so
 * that nothing is bent into a shape that it has not.
 */

import {
  alternatives,
  anyPhrase,
  group,
  NOTHING,
  type Option,
  optional,
  phraseWords,
  type Rule,
  type RuleExpansion,
  rule,
  sequence,
  weighted,
} from '../grammarRules.ts'
import { type KindSpec, kindOf } from '../kinds/kind.ts'
import type { Talk, TalkPart } from './hearable.ts'
import { numberShapes } from './numberShapes.ts'
import { phrase } from './phrases.ts'

/** Chosen on the tuning voices only; see `grammar.ts`. */
export const TALK_WEIGHTS = {
  /** Of a value with the words that go with it, beside one phrase. */
  part: 1,
  /** Of a value without them. */
  bare: 0.1,
  /** Of one single word in an order of the pilot's own. */
  word: 0.005,
  /** Of one number word outside any shape. */
  rival: 2e-4,
  /** Of going on: a read-back has several elements. */
  more: 0.5,
} as const

/** "Q N H" is said as a whole; by itself "q" is a "two" that was heard badly. */
const isSpelling = (word: string) => word.length === 1 && word !== 'a'

/** How sequences of number signs are written as one expansion. */
type Shaped = (sequences: readonly string[]) => RuleExpansion

/** Rules that end in `<answer>`. */
export function talkRules({ parts, phrases, words }: Talk, shaped: Shaped): Rule[] {
  const { part, bare, word, rival, more } = TALK_WEIGHTS
  const paths = [
    // Each value stands once: a rule is copied to every place that names it.
    ...parts.map(({ before }, index) => {
      const lead = alternatives(weighted(part, rule(`before${index}`)), weighted(bare, NOTHING))
      return weighted(part, sequence(...(before.length > 0 ? [lead] : []), rule(`value${index}`)))
    }),
    ...phrases.map(phraseWords),
    'correction',
    ...words.filter((one) => !isSpelling(one)).map((one) => weighted(word, one)),
    weighted(rival, rule('numeral')),
  ]
  return [...parts.flatMap((each, index) => partRules(each, index, shaped)), answerRule(paths, more)]
}

/** One rule with every path in it, so that the recogniser shares their beginnings. */
export const answerRule = (paths: readonly (RuleExpansion | Option)[], more: number): Rule => ({
  name: 'answer',
  expansion: sequence(alternatives(...paths), orMore(more, 'answer')),
})

/** The end, or the rule once more with this weight. */
export const orMore = (weight: number, name: string): RuleExpansion =>
  alternatives(weighted(1, NOTHING), weighted(weight, rule(name)))

function partRules({ before, shape, after }: TalkPart, index: number, shaped: Shaped): Rule[] {
  const { heard } = kindOf(shape)
  // "Flight level": its words, and both.
  const own = [...new Set([...heard.before, heard.before.join(' ')])].filter(
    (words) => words !== '' && !before.includes(words),
  )
  const words = [...new Set([...after, ...heard.behind])]
  const lead = own.length > 0 ? [optional(group(anyPhrase(own)))] : []
  const tail = words.length > 0 ? [optional(group(anyPhrase(words)))] : []
  return [
    ...(before.length > 0 ? [{ name: `before${index}`, expansion: anyPhrase(before) }] : []),
    { name: `value${index}`, expansion: sequence(...lead, shapeOf(shape, shaped), ...tail) },
  ]
}

/** Teens, tens and doubles: on the radio digits are said singly, and each further form costs time at every element. */
const GROUPED = /[eyrn]/

/** Names of a choice as they stand, all of them; anything else in the shapes of its kind, digit by digit. */
function shapeOf(shape: KindSpec, shaped: Shaped): RuleExpansion {
  const { options } = kindOf(shape)
  if (!options) return alternatives(shaped([...new Set(numberShapes(shape))].filter((signs) => !GROUPED.test(signs))))
  const ways = Object.values(options(shape)).flat()
  return anyPhrase([...new Set(ways.map(phrase))].sort())
}
