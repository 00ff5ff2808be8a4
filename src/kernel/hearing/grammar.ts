/**
 * The grammar for one item. It is made from the kinds' shapes and the pack's one vocabulary and takes
 * no figure, so that no value can favour itself (law 2). Speech that fits nothing has its own path.
 */

import type { Hearable, Vocabulary } from './hearable.ts'
import { CLASSES, type ClassSign, NUMERALS, numberShapes, valueWords } from './numberShapes.ts'
import { SOUND } from './phones.ts'
import { isOneNumber, isSpelled, LETTERS, SPELLING_RULES, spellingRules } from './spelling.ts'
import { talkRules } from './talkGrammar.ts'

/**
 * Weights of the paths beside one another. They are the same for every item of a shape and follow from
 * no value. Chosen on the tuning voices only.
 */
export interface Weights {
  /** Of words before a number, beside none. */
  readonly before: number
  /** Of words behind a number, beside none. */
  readonly behind: number
  /** Of a further word there. */
  readonly nextWord: number
  /** Of a word that goes with another kind of value, beside one of the item's own. */
  readonly foreign: number
  /** Of an answer to a value without any number, where the kind needs one. */
  readonly wordsAlone: number
  /** Of one more value than are asked, or one phrase more. */
  readonly more: number
  /** Of "eighty" or "fifteen" beside a single digit: pilots say digits, and the two sound alike. */
  readonly grouped: number
  /** Of number words in no shape: too many, too few. */
  readonly rival: number
  /** Of one more of them. */
  readonly nextRival: number
  /** Of one single word in an order of the pilot's own, beside one phrase. */
  readonly word: number
  /** Of the whole path for other speech. */
  readonly otherSpeech: number
  /** Of going on with another sound in it. */
  readonly sound: number
}
export const WEIGHTS: Weights = {
  before: 0.03,
  behind: 0.2,
  nextWord: 0.03,
  foreign: 0.02,
  wordsAlone: 0.01,
  more: 0.003,
  grouped: 0.1,
  rival: 1e-6,
  nextRival: 0.1,
  word: 0.001,
  otherSpeech: 1e-5,
  sound: 0.02,
}

/**
 * JSGF (W3C note, June 2000) for what may be said to this item.
 * Words: lower case, one token each, as in the recogniser's dictionary.
 */
export function grammarOf(hearable: Hearable, vocabulary: Vocabulary, weights: Weights = WEIGHTS): string {
  const { shapes, talk } = hearable
  const once = [...vocabulary.lists, ...vocabulary.others, ...(talk?.others ?? []), ...vocabulary.commands]
  const rules = [
    ...classRules(),
    ...spellingRules([...shapes, ...(talk?.parts ?? []).map(({ shape }) => shape)], vocabulary.names ?? []),
    ...answerRules(hearable, vocabulary, weights),
    `<sounds> = ${SOUND} (/1/ <NULL> | /${weights.sound}/ <sounds>);`,
    `<echo> = ${vocabulary.challenges.join(' | ') || '<NULL>'};`,
    `public <heard> = <answer> | <echo> [<answer>] | ${once.join(' | ') || '<NULL>'} | /${weights.otherSpeech}/ <sounds>;`,
  ]
  return `#JSGF V1.0;\ngrammar ear;\n${rules.join('\n')}\n`
}

const classRules = () =>
  Object.entries(CLASSES).map(([sign, members]) => `${classRule(sign)} = ${members.join(' | ')};`)

function answerRules(hearable: Hearable, vocabulary: Vocabulary, weights: Weights): string[] {
  const { shapes, talk } = hearable
  if (talk) return [ANY_NUMERAL, ...talkRules(talk, (sequences) => factored(sequences, FREE.grouped))]
  if (shapes.length === 0) return wordRules(hearable, vocabulary, weights)
  return shapes.every(isOneNumber) ? valueRules(hearable, vocabulary, weights) : freeRules(hearable, vocabulary)
}

/** Weights of an answer in free order; the paths as in `Weights`. */
const FREE = { number: 50, more: 0.03, grouped: 0.2, rival: 2e-4 }
const ANY_NUMERAL = `<numeral> = ${Object.values(CLASSES).flat().join(' | ')};`

/** Words, letters and numbers in any order, for values that are not one number. */
function freeRules(hearable: Hearable, vocabulary: Vocabulary): string[] {
  const { shapes } = hearable
  const paths = [
    ...valueItemWords(hearable, vocabulary),
    `/${FREE.number}/ ${factored([...new Set(shapes.flatMap(numberShapes))], FREE.grouped)}`,
    `/${FREE.rival}/ <numeral>`,
    ...(shapes.some(isSpelled) ? [`/${FREE.rival}/ <letter>`] : []),
  ]
  // One state with every word in it: the recogniser then shares their beginnings.
  return [ANY_NUMERAL, `<answer> = (${paths.join(' | ')}) (/1/ <NULL> | /${FREE.more}/ <answer>);`]
}

/** Numbers in their shapes with words beside them; words alone are not as likely, and loose numbers hardly. */
function valueRules(hearable: Hearable, vocabulary: Vocabulary, weights: Weights): string[] {
  const { shapes } = hearable
  const sequences = [...new Set(shapes.flatMap(numberShapes))]
  // Only a kind that can be said without a number may be so at no cost.
  const wordsAlone = shapes.some(({ kind }) => kind === 'choice') ? 1 : weights.wordsAlone
  const more = shapes.length > 1 ? 1 : weights.more
  return [
    `<numeral> = ${looseWords(weights.grouped ** 2).join(' | ')};`,
    `<loose> = <numeral> (/1/ <NULL> | /${weights.nextRival}/ <loose>);`,
    `<beside> = ${besideValues(hearable, vocabulary, weights.foreign).join(' | ')};`,
    `<label> = ${besideValues(hearable, vocabulary, weights.foreign, BEHIND_ONLY).join(' | ')};`,
    `<labels> = <label> (/1/ <NULL> | /${weights.nextWord}/ <labels>);`,
    `<words> = <beside> (/1/ <NULL> | /${weights.nextWord}/ <words>);`,
    `<number> = /1/ ${factored(sequences, weights.grouped)} | /${weights.rival}/ <loose>;`,
    // One state with every beginning in it: the recogniser then shares them.
    `<answer> = (/1/ <number> | /${weights.before}/ <labels> <number>) (/1/ <end> | /${weights.behind}/ <words> <end>) | /${wordsAlone}/ <words>;`,
    `<end> = /1/ <NULL> | /${more}/ <answer>;`,
  ]
}

function wordRules(hearable: Hearable, vocabulary: Vocabulary, weights: Weights): string[] {
  const single = vocabulary.words.map((word) => `/${weights.word}/ ${word}`)
  const paths = [...wordItemPhrases(hearable, vocabulary), ...single]
  return [`<answer> = (${paths.join(' | ')}) (/1/ <NULL> | /${weights.more}/ <answer>);`]
}

/** Number words in no order. "Eighty" swallows "eight" and the sound behind it even more readily where no shape holds it. */
function looseWords(grouped: number): string[] {
  const { e, y, n: _, ...others } = CLASSES
  return [...Object.values(others).flat(), ...[...e, ...y].map((word) => `/${grouped}/ ${word}`)]
}

const NONE: ReadonlySet<string> = new Set()
/** Said behind a value, hardly before one, where "oh" sounds like "both". */
const BEHIND_ONLY: ReadonlySet<string> = new Set(['both', 'checked', 'set', 'units', 'percent'])

/** The words that go with the item's kinds, and, less likely, those that stand beside other values of this pack. */
function besideValues(hearable: Hearable, vocabulary: Vocabulary, foreign: number, without = NONE): string[] {
  const own = new Set([...hearable.shapes.flatMap(valueWords), ...interjections(hearable), 'set', 'not'])
  const others = vocabulary.besideValues.filter((word) => !own.has(word))
  const sayable = (word: string) => !NUMERALS.has(word) && !without.has(word)
  return [...[...own].filter(sayable).sort(), ...others.filter(sayable).map((word) => `/${foreign}/ ${word}`)]
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
  ...['percent', 'minus', 'plus', 'up', 'down', 'left', 'right', 'nose', 'units', 'neutral', 'knots', 'kilos'],
  ...['kilograms', 'pounds', 'tons', 'degrees', 'celsius', 'fahrenheit', 'squawk', 'squawking', 'hectopascals'],
  ...['millibars', 'inches', 'standard', 'heading', 'runway', 'center', 'feet', 'flight', 'level', 'hours'],
  ...['information', 'taxiway', 'stand', 'gate', 'wind', 'at', 'gusting', 'gusts', 'variable', 'calm', 'via', 'then'],
]

const classRule = (sign: string) =>
  SPELLING_RULES[sign] ??
  `<${{ d: 'digit', e: 'teen', y: 'tens', '.': 'point', h: 'hundred', k: 'thousand', r: 'times', n: 'and' }[sign as ClassSign]}>`

/** Sequences of signs as one expansion that says each common beginning once. */
function factored(sequences: readonly string[], grouped: number): string {
  const heads = new Map<string, string[]>()
  for (const sequence of sequences) {
    const [head = '', tail] = [sequence.slice(0, 1), sequence.slice(1)]
    const tails = heads.get(head)
    if (tails) tails.push(tail)
    else heads.set(head, [tail])
  }
  const ways = [...heads].map(([head, tails]) => {
    const rest = tails.filter((tail) => tail !== '')
    const weight = 'ey'.includes(head) ? `/${grouped}/ ` : ''
    if (rest.length === 0) return `${weight}${classRule(head)}`
    const more = factored(rest, grouped)
    return `${weight}${classRule(head)} ${rest.length === tails.length ? more : `[${more}]`}`
  })
  return `(${ways.join(' | ')})`
}
