/**
 * The grammar for one item. It is made from the kinds' shapes and the pack's one vocabulary and takes
 * no figure, so that no value can favour itself (law 2). Speech that fits nothing has its own path.
 */

import {
  alternatives,
  anyPhrase,
  type Grammar,
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
import { KINDS, type KindSpec } from '../kinds/kind.ts'
import type { Hearable, Vocabulary } from './hearable.ts'
import { CLASSES, type ClassSign, NUMERALS, numberShapes, valueWords } from './numberShapes.ts'
import { INSTEAD, PARTNER_WORDS } from './objections.ts'
import { SOUND } from './phones.ts'
import { isSpelled, LETTERS, SPELLING_RULES, spellingRules } from './spelling.ts'
import { answerRule, orMore, talkRules } from './talkGrammar.ts'

/**
 * Weights of the paths beside one another. They are the same for every item of a shape and follow from
 * no value. Other lengths are lowest, since such a path fits anything. Chosen on the tuning voices only.
 */
export interface Weights {
  /** Of one well-shaped number beside one phrase. */
  readonly number: number
  /** Of one single word in an order of the pilot's own, beside one phrase. */
  readonly word: number
  /** Of saying something more. */
  readonly more: number
  /** Of "eighty" or "fifteen" beside a single digit: pilots say digits, and the two sound alike. */
  readonly grouped: number
  /** Of "both" beside a number, beside one phrase: "oh" is taken for it far more often than it is said there. */
  readonly both: number
  /** Of one number word outside a shape. */
  readonly rival: number
  /** Of the whole path for other speech. */
  readonly otherSpeech: number
  /** Of going on with another sound in it. */
  readonly sound: number
}
export const WEIGHTS: Weights = {
  number: 50,
  word: 0.01,
  more: 0.03,
  grouped: 0.2,
  both: 0.01,
  rival: 2e-4,
  otherSpeech: 1e-5,
  sound: 0.02,
}

/** What may be said to this item. Words: lower case, one token each, as in the recogniser's dictionary. */
export function grammarOf(hearable: Hearable, vocabulary: Vocabulary, weights: Weights = WEIGHTS): Grammar {
  const { shapes, talk, partner } = hearable
  const objected = partner?.shapes ?? []
  const spoken = [...shapes, ...(talk?.parts ?? []).map(({ shape }) => shape), ...objected]
  const named = partner?.names?.length ? [optional(anyPhrase(partner.names))] : []
  const shaped = (sequences: readonly string[]) => factored(sequences, weights.grouped)
  const once = [...vocabulary.lists, ...vocabulary.others, ...(talk?.others ?? []), ...vocabulary.commands]
  const all = [...new Set([...once, ...(partner?.phrases ?? [])])]
  return {
    start: 'heard',
    rules: [
      ...Object.entries(CLASSES).map(([sign, members]) => ({ name: ruleOf(sign), expansion: anyPhrase(members) })),
      ...spellingRules(spoken, vocabulary.names ?? []),
      { name: 'numeral', expansion: anyPhrase(Object.values(CLASSES).flat()) },
      ...(talk
        ? talkRules(talk, shaped)
        : [answerRule(answerPaths(hearable, vocabulary, weights, shaped), weights.more)]),
      ...(objected.length > 0 ? [insteadRule(objected, weights, shaped)] : []),
      { name: 'sounds', expansion: sequence(SOUND, orMore(weights.sound, 'sounds')) },
      { name: 'echo', expansion: anyPhrase(vocabulary.challenges) },
      {
        name: 'heard',
        expansion: alternatives(
          rule('answer'),
          sequence(rule('echo'), optional(rule('answer'))),
          ...(objected.length > 0 ? [sequence(group(anyPhrase(INSTEAD)), ...named, rule('instead'))] : []),
          ...(all.length > 0 ? all.map(phraseWords) : [NOTHING]),
          weighted(weights.otherSpeech, rule('sounds')),
        ),
      },
    ],
  }
}

/** The value that should have been said: any of that shape, with the words that stand beside such values. */
function insteadRule(
  shapes: readonly KindSpec[],
  weights: Weights,
  shaped: (sequences: readonly string[]) => RuleExpansion,
): Rule {
  const words = [...new Set(shapes.flatMap(valueWords))].filter((word) => !NUMERALS.has(word)).sort()
  const paths = [
    ...words.map(phraseWords),
    weighted(weights.number, shaped([...new Set(shapes.flatMap(numberShapes))])),
    weighted(weights.rival, rule('numeral')),
    ...(shapes.some(isSpelled) ? [weighted(weights.rival, rule('letter'))] : []),
  ]
  return { name: 'instead', expansion: sequence(alternatives(...paths), orMore(weights.more, 'instead')) }
}

/** What one step of an answer may be. */
function answerPaths(
  hearable: Hearable,
  vocabulary: Vocabulary,
  weights: Weights,
  shaped: (sequences: readonly string[]) => RuleExpansion,
): readonly (RuleExpansion | Option)[] {
  const { shapes } = hearable
  if (shapes.length === 0) {
    return [
      ...wordItemPhrases(hearable, vocabulary).map(phraseWords),
      ...vocabulary.words.map((word) => weighted(weights.word, word)),
    ]
  }
  return [
    ...valueItemWords(hearable, vocabulary).map((word) => (word === 'both' ? weighted(weights.both, word) : word)),
    weighted(weights.number, shaped([...new Set(shapes.flatMap(numberShapes))])),
    weighted(weights.rival, rule('numeral')),
    ...(shapes.some(isSpelled) ? [weighted(weights.rival, rule('letter'))] : []),
  ]
}

/** The words that stand beside values in this pack, and those that go with the item's kinds. */
function valueItemWords(hearable: Hearable, vocabulary: Vocabulary): string[] {
  const words = new Set([
    ...vocabulary.besideValues,
    ...hearable.shapes.flatMap(valueWords),
    ...interjections(hearable),
  ])
  for (const word of NUMERALS) words.delete(word)
  return [...words].sort()
}

/** The same for every word item of a pack. */
function wordItemPhrases(hearable: Hearable, vocabulary: Vocabulary): string[] {
  return [...new Set([...vocabulary.phrases, ...interjections(hearable)])].sort()
}

const interjections = ({ yesNo }: Hearable) => ['correction', ...(yesNo ? ['affirm', 'negative', 'yes', 'no'] : [])]

/** Every word that the grammars of this pack may use; the recogniser needs a pronunciation for each. */
export function wordsNeeded(vocabulary: Vocabulary): string[] {
  const phrases = [
    ...vocabulary.phrases,
    ...vocabulary.besideValues,
    ...vocabulary.words,
    ...vocabulary.challenges,
    ...vocabulary.lists,
    ...vocabulary.others,
    ...(vocabulary.names ?? []),
    ...vocabulary.talk,
  ]
  const words = [...phrases, ...vocabulary.commands].flatMap((phrase) => phrase.split(' '))
  return [...new Set([...words, ...FIXED_WORDS])].filter((word) => word !== '').sort()
}

/** Words that need no pack. */
export const FIXED_WORDS: readonly string[] = [
  ...Object.values(CLASSES).flat(),
  ...LETTERS,
  ...['correction', 'affirm', 'negative', 'yes', 'no', 'not', 'and'],
  ...PARTNER_WORDS,
  ...Object.values(KINDS).flatMap(({ heard }) => [...heard.before, ...heard.behind]),
]

const CLASS_RULES: Readonly<Record<ClassSign, string>> = {
  ...{ d: 'digit', e: 'teen', y: 'tens', '.': 'point', h: 'hundred', k: 'thousand', r: 'times', n: 'and' },
}
const ruleOf = (sign: string): string => SPELLING_RULES[sign] ?? CLASS_RULES[sign as ClassSign]

/** Sequences of signs as one expansion that has each common beginning once. */
function factored(sequences: readonly string[], grouped: number): RuleExpansion {
  const heads = new Map<string, string[]>()
  for (const sequence of sequences) {
    const [head = '', tail] = [sequence.slice(0, 1), sequence.slice(1)]
    const tails = heads.get(head)
    if (tails) tails.push(tail)
    else heads.set(head, [tail])
  }
  const ways = [...heads].map(([head, tails]) => {
    const way = withTails(rule(ruleOf(head)), tails, grouped)
    return 'ey'.includes(head) ? weighted(grouped, way) : way
  })
  return alternatives(...ways)
}

function withTails(head: RuleExpansion, tails: readonly string[], grouped: number): RuleExpansion {
  const rest = tails.filter((tail) => tail !== '')
  if (rest.length === 0) return head
  const more = factored(rest, grouped)
  return sequence(head, rest.length === tails.length ? more : optional(group(more)))
}
