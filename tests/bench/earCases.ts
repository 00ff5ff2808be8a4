/** What the benchmark of the ear says and asks: items of the trade, values at random, and what is wrong near each. */

import type { Figure, Figures, KindSpec } from '../../src/kernel/kinds/kind.ts'
import { responseFrom } from '../../src/kernel/response/response.ts'
import { judgeText } from '../corpus/judgeText.ts'

export interface EarCase {
  readonly kind: string
  readonly challenge: string
  readonly response: string
  readonly states?: readonly (readonly string[])[]
  readonly figures: Figures
  /** What the pilot says; right for the figures. */
  readonly said: string
  /** The same item where what is said is wrong. */
  readonly wrong: readonly { readonly response: string; readonly figures: Figures }[]
}

export type Random = () => number
/** Repeatable: a linear congruential generator, its seed printed with the results. */
export function randomFrom(seed: number): Random {
  let state = seed >>> 0
  return () => {
    state = (Math.imul(state, 1664525) + 1013904223) >>> 0
    return state / 0x100000000
  }
}

const DIGITS = ['zero', 'one', 'two', 'three', 'four', 'five', 'six', 'seven', 'eight', 'nine']
const spelled = (digits: string) => [...digits].map((digit) => DIGITS[Number(digit)]).join(' ')
const whole = (random: Random, from: number, to: number) => from + Math.floor(random() * (to - from + 1))
const one = <T>(random: Random, list: readonly T[]): T => list[Math.floor(random() * list.length)] as T

/** Every string that differs in one digit, and every swap of two neighbours. */
function digitNeighbours(digits: string): string[] {
  const near = new Set<string>()
  for (let at = 0; at < digits.length; at++) {
    if (!/\d/.test(digits[at] as string)) continue
    for (const digit of '0123456789') near.add(digits.slice(0, at) + digit + digits.slice(at + 1))
    if (/\d/.test(digits[at + 1] ?? ''))
      near.add(digits.slice(0, at) + digits[at + 1] + digits[at] + digits.slice(at + 2))
  }
  near.delete(digits)
  return [...near]
}

/** One numeric item. `digits` is the value as digits; `value` makes it a figure's. */
function valueCase(
  kind: string,
  text: { challenge: string; response: string; said: string },
  spec: KindSpec,
  digits: string,
  value: (digits: string) => number | string = Number,
): EarCase {
  const figure = (text: string): Figures => ({ x: { ...spec, value: value(text) } as Figure })
  const right = value(digits)
  const near = digitNeighbours(digits).filter((text) => value(text) !== right)
  const turned = typeof right === 'number' && spec.kind === 'trim' ? [{ x: { ...spec, value: -right } as Figure }] : []
  const wrong = [...near.map(figure), ...turned].map((figures) => ({ response: text.response, figures }))
  return { kind, ...text, figures: figure(digits), wrong }
}

const MAKERS: readonly ((random: Random) => EarCase)[] = [
  (random) => {
    const digits = `${whole(random, 1, 9)}.${whole(random, 0, 9)}`
    const [a = '', b = ''] = digits.split('.')
    const said = `${spelled(a)} ${one(random, ['point', 'decimal'])} ${spelled(b)} up${one(random, [' set', ''])}`
    return valueCase(
      'trim',
      { challenge: 'takeoff trim', response: '<x> [set]', said },
      { kind: 'trim', decimals: 1 },
      digits,
    )
  },
  (random) => {
    const digits = Array.from({ length: 4 }, () => whole(random, 0, 7)).join('')
    const text = { challenge: 'transponder', response: '[code] <x> [set]', said: spelled(digits) }
    return valueCase('digits', text, { kind: 'digits', length: 4 }, digits, (text) => text)
  },
  (random) => {
    const digits = String(whole(random, 975, 1035))
    const text = {
      challenge: 'altimeters',
      response: '<x> [set]',
      said: `${spelled(digits)}${one(random, [' set', ''])}`,
    }
    return valueCase('altimeter', text, { kind: 'altimeter', unit: 'hPa' }, digits)
  },
  (random) => {
    const digits = String(whole(random, 100, 165))
    const text = { challenge: 'rotate speed', response: '<x> [knots]', said: spelled(digits) }
    return valueCase('speed', text, { kind: 'speed' }, digits)
  },
  (random) => {
    const digits = String(whole(random, 1, 360)).padStart(3, '0')
    const text = { challenge: 'heading', response: '<x> [set]', said: `${spelled(digits)}${one(random, [' set', ''])}` }
    return valueCase('heading', text, { kind: 'heading' }, digits)
  },
  (random) => {
    const digits = `${whole(random, 15, 38)}.${whole(random, 0, 9)}`
    const [a = '', b = ''] = digits.split('.')
    const said = `${spelled(a)} ${one(random, ['point', 'decimal'])} ${spelled(b)}${one(random, [' percent', ''])}`
    const text = { challenge: 'centre of gravity', response: '<x> [percent]', said }
    return valueCase('decimal', text, { kind: 'decimal', decimals: 1 }, digits)
  },
  (random) => {
    const [a, b] = [whole(random, 2, 9), whole(random, 1, 9)]
    const said = `${spelled(String(a))} thousand ${spelled(String(b))} hundred${one(random, [' kilograms', ''])}`
    const text = { challenge: 'fuel on board', response: '<x> [kilograms]', said }
    return valueCase('weight', text, { kind: 'weight', unit: 'kg' }, `${a}${b}00`)
  },
]

/** Groups of wordings of one item that must not be taken for one another: minimal pairs and left-out "not". */
const WORDINGS: readonly {
  readonly challenge: string
  readonly says: readonly string[]
  readonly states?: readonly (readonly string[])[]
}[] = [
  {
    challenge: 'doors',
    says: ['closed and locked', 'closed and unlocked', 'open and locked', 'not closed and locked'],
  },
  { challenge: 'slides', says: ['armed', 'disarmed', 'not armed'] },
  { challenge: 'generators', says: ['both on', 'both off', 'not on'] },
  { challenge: 'parking brake', says: ['brake set', 'brake released', 'brake not set'] },
  { challenge: 'beacon', says: ['beacon on', 'beacon off'], states: [['on'], ['off']] },
  { challenge: 'ground equipment', says: ['clear', 'not clear', 'connected'] },
  { challenge: 'pins and covers', says: ['removed', 'installed', 'not removed'] },
  { challenge: 'brake pressure', says: ['pressure normal', 'pressure low', 'pressure not normal'] },
  { challenge: 'flight controls', says: ['full left full right', 'full right full left'] },
  { challenge: 'cabin signs', says: ['signs on', 'signs off'], states: [['on'], ['off']] },
]

const ALL_WORDINGS = WORDINGS.flatMap(({ says }) => says)

function wordCase(random: Random): EarCase {
  const { challenge, says, states } = one(random, WORDINGS)
  const said = one(random, says)
  // First the same item's other wordings, then what other items would have to hear.
  const others = [...says, ...ALL_WORDINGS.filter((text) => !says.includes(text))].filter((text) => text !== said)
  // "Signs off" is right for "both off" too, as far as words go: only what judging refuses is wrong.
  const wrong = others
    .map((response) => ({ response, figures: {} }))
    .filter((other) => judgeText({ ...other, challenge, heard: said, ...(states && { states }) }).verdict !== 'correct')
  return { kind: 'words', challenge, response: said, ...(states && { states }), figures: {}, said, wrong }
}

/** Half of them words, half values. */
export function earCases(seed: number, count: number): EarCase[] {
  const random = randomFrom(seed)
  return Array.from({ length: count }, (_, index) => (index % 2 === 0 ? wordCase(random) : one(random, MAKERS)(random)))
}

/** All wordings, for the one vocabulary of the benchmark; "not" is in it anyway. */
export const WORD_ITEMS = WORDINGS.map(({ challenge, says }) => ({
  challenge,
  responses: says.map((text) => ({ response: responseFrom(text) })),
}))
export const VALUE_ITEMS = MAKERS.map((make) => make(randomFrom(1))).map(({ challenge, response }) => ({
  challenge,
  responses: [{ response: responseFrom(response) }],
}))
