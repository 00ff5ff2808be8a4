/**
 * Read-backs of one to seven elements, made by a script: right ones in order, in another order, with a correction;
 * wrong ones with one value changed to a neighbour; ones with an element left out. Values are said in the ways of the
 * check corpus, which is written apart from how the app says them. `TUNING_SEED` was looked at, `CHECK_SEED` was not.
 */

import type { Figure, Figures, Value } from '../../src/kernel/kinds/kind.ts'
import type { Judgement } from '../../src/kernel/response/model.ts'
import { type SpokenElement, statesOf } from '../../src/kernel/response/readBack.ts'
import { type Random, seeded } from './case.ts'
import { pronounce } from './checkingValues.ts'

export const TUNING_SEED = 51
export const CHECK_SEED = 90_210

export interface Transmission {
  readonly elements: readonly SpokenElement[]
  readonly figures: Figures
  readonly heard: string
  readonly truth: 'right' | 'wrong' | 'leftOut'
  /** The element that was said wrong or left out. */
  readonly element?: string
  readonly why: string
}

interface Draw {
  readonly id: string
  readonly response: string
  /** Words before the value; the first one is said where the value alone could be another element's. */
  readonly labels: readonly string[]
  readonly draw: (random: Random) => Figure
  readonly another: (value: Value, random: Random) => Value
}

const choice = (...names: readonly string[]) => ({
  draw: (random: Random): Figure => ({
    kind: 'choice',
    options: Object.fromEntries(names.map((name) => [name, [name]])),
    value: random.of(names),
  }),
  another: (value: Value, random: Random): Value => random.of(names.filter((name) => name !== value)),
})
const between = (random: Random, low: number, high: number) => low + random.below(high - low + 1)
/** One digit changed, or two neighbours swapped. */
function digitsChanged(text: string, random: Random, highest = 9): string {
  const at = random.below(text.length)
  const other = String((Number(text[at]) + 1 + random.below(highest)) % (highest + 1))
  const swapped = text.slice(0, at) + (text[at + 1] ?? '') + text[at] + text.slice(at + 2)
  return random.chance(0.4) && swapped !== text && swapped.length === text.length
    ? swapped
    : text.slice(0, at) + other + text.slice(at + 1)
}

const DRAWS: readonly Draw[] = [
  {
    id: 'limit',
    response: '[cleared] [to] <limit>',
    labels: ['cleared to', 'cleared', ''],
    ...choice('corrie', 'melton', 'harbour', 'stanton', 'milford'),
  },
  {
    id: 'departure',
    response: '<departure> [departure]',
    labels: [''],
    ...choice('tarn two alfa', 'tarn two bravo', 'tarn one alfa', 'loch three charlie', 'fell four delta'),
  },
  {
    id: 'level',
    response: '[climb | climbing] [to] <level>',
    labels: ['climb', 'climbing to', 'climb to'],
    draw: (random) => ({ kind: 'altitude', unit: 'ft', value: between(random, 20, 99) * 100 }),
    another: (value, random) => Number(value) + random.of([-1000, 1000, 500, 100, -100]),
  },
  {
    id: 'squawk',
    response: '[squawk] <squawk>',
    labels: ['squawk', 'squawking'],
    draw: (random) => ({
      kind: 'digits',
      length: 4,
      value: between(random, 0, 4095).toString(8).padStart(4, '0'),
    }),
    another: (value, random) => digitsChanged(String(value), random, 7),
  },
  {
    id: 'qnh',
    response: '[Q N H] <qnh>',
    labels: ['QNH'],
    draw: (random) => ({ kind: 'altimeter', unit: 'hPa', value: between(random, 960, 1045) }),
    another: (value, random) => Number(value) + random.of([-10, -1, 1, 10, 2]),
  },
  {
    id: 'runway',
    response: '[runway] <runway>',
    labels: ['runway'],
    draw: (random) => ({
      kind: 'runway',
      value: `${String(between(random, 1, 36)).padStart(2, '0')}${random.of(['', 'L', 'R'])}`,
    }),
    another: (value, random) => {
      const text = String(value)
      const side = text.slice(2)
      if (side !== '' && random.chance(0.5)) return `${text.slice(0, 2)}${side === 'L' ? 'R' : 'L'}`
      return `${String((Number(text.slice(0, 2)) % 36) + 1).padStart(2, '0')}${side}`
    },
  },
  {
    id: 'frequency',
    response: '[contact] [ground | departure] [on] <frequency>',
    labels: ['ground', 'contact ground', 'contact ground on'],
    draw: (random) => ({ kind: 'frequency', value: between(random, 1180, 1369) / 10 }),
    another: (value, random) => {
      const other = Number((Number(value) + random.of([-1, 1, 0.1, -0.1, 0.2])).toFixed(1))
      return other < 118 || other > 136.9 ? 121.5 : other
    },
  },
  {
    id: 'hold',
    response: '(hold short | holding short) {hold} [of] [runway | holding point] <hold>',
    labels: ['hold short of', 'holding short of', 'hold short'],
    draw: (random) => ({ kind: 'identifier', value: `${random.of(['A', 'B', 'C', 'D'])}${between(random, 1, 9)}` }),
    another: (value, random) => {
      const [letter = '', digit = ''] = String(value)
      if (random.chance(0.5)) return `${letter}${(Number(digit) % 9) + 1}`
      return `${random.of(['A', 'B', 'C', 'D'].filter((one) => one !== letter))}${digit}`
    },
  },
]

/** Words that a label already says are not said twice. */
function said(draw: Draw, figure: Figure, random: Random, labelled: boolean): string {
  const labels = labelled ? draw.labels.filter((label) => label !== '') : draw.labels
  const label = labels.length > 0 ? random.of(labels) : ''
  const value = pronounce(figure, random)
    .replace(/^(squawk|code|QNH|runway|altimeter|heading)\s+/i, '')
    .trim()
  const behind = draw.id === 'departure' && random.chance(0.5) ? ' departure' : ''
  return `${label} ${value}${behind}`.trim()
}

export function* transmissions(count: number, seed: number): Generator<Transmission> {
  const random = seeded(seed)
  for (let made = 0; made < count; made++) yield transmission(random)
}

function transmission(random: Random): Transmission {
  const length = between(random, 1, 7)
  const pool = [...DRAWS]
  while (pool.length > length) pool.splice(random.below(pool.length), 1)
  const drawn = pool.map((draw) => ({ draw, figure: draw.draw(random) }))
  const elements = drawn.map(({ draw }) => ({ id: draw.id, response: draw.response }))
  const figures = Object.fromEntries(drawn.map(({ draw, figure }) => [draw.id, figure]))
  const ways = ['right', 'right', 'moved', 'corrected', 'wrong', 'wrong', 'wrong', 'leftOut'] as const
  // Of a single element nothing can be left out but all.
  const way = random.of(ways.filter((one) => one !== 'leftOut' || drawn.length > 1))
  const at = random.below(drawn.length)
  const chosen = drawn[at] as (typeof drawn)[number]
  const spoken = drawn.map(({ draw, figure }) => said(draw, figure, random, way === 'moved'))
  const wrongValue = chosen.draw.another(chosen.figure.value, random)
  const wrongFigure = { ...chosen.figure, value: wrongValue } as Figure
  const base = { elements, figures, element: chosen.draw.id, why: way }
  switch (way) {
    case 'right':
      return { ...base, truth: 'right', heard: spoken.join(' ') }
    case 'moved': {
      const moved = [...spoken]
      for (let i = moved.length - 1; i > 0; i--) {
        const j = random.below(i + 1)
        const [a, b] = [moved[i] ?? '', moved[j] ?? '']
        moved[i] = b
        moved[j] = a
      }
      return { ...base, truth: 'right', heard: moved.join(' ') }
    }
    case 'corrected': {
      const first = said(chosen.draw, wrongFigure, random, true)
      const second = said(chosen.draw, chosen.figure, random, true)
      return { ...base, truth: 'right', heard: spoken.with(at, `${first} correction ${second}`).join(' ') }
    }
    case 'wrong':
      return {
        ...base,
        truth: 'wrong',
        heard: spoken.with(at, said(chosen.draw, wrongFigure, random, false)).join(' '),
      }
    case 'leftOut':
      return { ...base, truth: 'leftOut', heard: spoken.toSpliced(at, 1).join(' ') }
  }
}

export type TransmissionOutcome = 'asItShould' | 'wrongAccepted' | 'rightRefused' | 'notTold'

/** What a judgement means: the element that is wrong or left out must neither pass itself nor let all pass. */
export function outcomeOfTransmission(each: Transmission, judgement: Judgement): TransmissionOutcome {
  if (each.truth === 'right') return judgement.verdict === 'correct' ? 'asItShould' : 'rightRefused'
  const state = statesOf(each.elements, judgement)[each.element ?? '']
  if (judgement.verdict === 'correct' || state === 'ok') return 'wrongAccepted'
  const told = each.truth === 'wrong' ? 'wrong' : 'missing'
  return judgement.verdict !== 'sayAgain' && state === told ? 'asItShould' : 'notTold'
}
