/**
 * What may be said where an exchange or a briefing has the floor: several values in one breath, each in its shape with
 * the words that go with it, in any order; and the pack's phrases. Loose numbers and words keep a path of their own, so
 * that nothing is bent into a shape that it has not.
 */

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

/** Rules that end in `<answer>`. `shaped` writes sequences of number signs as one expansion. */
export function talkRules({ parts, phrases, words }: Talk, shaped: (sequences: readonly string[]) => string): string[] {
  const { part, bare, word, rival, more } = TALK_WEIGHTS
  const rules = parts.flatMap((each, index) => partRules(each, index, shaped))
  const paths = [
    // Each value stands once: a rule is copied to every place that names it.
    ...parts.map(({ before }, index) => {
      const lead = before.length > 0 ? `(/${part}/ <before${index}> | /${bare}/ <NULL>) ` : ''
      return `/${part}/ ${lead}<value${index}>`
    }),
    ...phrases,
    'correction',
    ...words.map((one) => `/${word}/ ${one}`),
    `/${rival}/ <numeral>`,
  ]
  return [...rules, `<answer> = (${paths.join(' | ')}) (/1/ <NULL> | /${more}/ <answer>);`]
}

function partRules(
  { before, shape, behind }: TalkPart,
  index: number,
  shaped: (sequences: readonly string[]) => string,
): string[] {
  const after = [...new Set([...behind, ...kindOf(shape).heard.behind])]
  const tail = after.length > 0 ? ` [${group(after)}]` : ''
  return [
    ...(before.length > 0 ? [`<before${index}> = ${before.join(' | ')};`] : []),
    `<value${index}> = ${shapeOf(shape, shaped)}${tail};`,
  ]
}

const group = (texts: readonly string[]) => `(${texts.join(' | ')})`

/** Teens, tens and doubles: on the radio digits are said singly, and each further form costs time at every element. */
const GROUPED = /[eyrn]/

/** Names of a choice as they stand, all of them; anything else in the shapes of its kind, digit by digit. */
function shapeOf(shape: KindSpec, shaped: (sequences: readonly string[]) => string): string {
  const { options } = kindOf(shape)
  if (!options) return `(${shaped([...new Set(numberShapes(shape))].filter((signs) => !GROUPED.test(signs)))})`
  const ways = Object.values(options(shape)).flat()
  return group([...new Set(ways.map(phrase))].sort())
}
