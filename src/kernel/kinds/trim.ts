/** Trims: an amount with a direction. */

import { amountsImplied, amountsSaid, clean, digitsWith, sayAmount, stepWith } from './amounts.ts'
import { type NumberKind, SLIP } from './definition.ts'
import { DECIMALS, SCALE_FIELDS } from './fields.ts'
import { affixTable, partRun, type Reading } from './reading.ts'
import { TWIN, withFraction } from './shapes.ts'
import { narrowed, type Scale } from './value.ts'

/** Negative is nose down, or left. */
export interface TrimSpec extends Scale {
  readonly kind: 'trim'
  readonly decimals: number
  readonly axis?: 'pitch' | 'roll' | 'yaw'
}

const AFFIXES = affixTable([
  [{ role: 'unit' }, ['units', 'unit', 'degrees', 'degree', 'divisions', 'dots']],
  [{ role: 'noun' }, ['nose', 'wing', 'trim']],
  [{ role: 'direction', direction: 'up' }, ['up', 'upwards', 'upward', 'anu']],
  [{ role: 'direction', direction: 'down' }, ['down', 'downwards', 'downward']],
  [{ role: 'direction', direction: 'left' }, ['left', 'lefthand']],
  [{ role: 'direction', direction: 'right' }, ['right', 'righthand']],
  [{ role: 'sign', sign: -1 }, ['minus']],
  [{ role: 'sign', sign: 1 }, ['plus']],
  [{ role: 'zero' }, ['neutral', 'centered', 'centred', 'center', 'centre']],
])

/** The words of each axis, with the sign of each. */
const PITCH = new Map<string, 1 | -1>([
  ['up', 1],
  ['down', -1],
])
const SIDE = new Map<string, 1 | -1>([
  ['right', 1],
  ['left', -1],
])
const wordsOf = (axis: TrimSpec['axis']) => (axis === 'roll' || axis === 'yaw' ? SIDE : PITCH)

function directionOf(value: number, axis: TrimSpec['axis']): string {
  return [...wordsOf(axis)].find(([, sign]) => sign === (value < 0 ? -1 : 1))?.[0] ?? ''
}

/** Where the pack gives no scale: "five two" is more than any trim, and so 5.2. */
const USUAL_MOST = 20

export const trim: NumberKind<TrimSpec> = {
  values: 'numbers',
  fields: {
    ...SCALE_FIELDS,
    decimals: DECIMALS,
    axis: { type: 'oneOf', values: ['pitch', 'roll', 'yaw'], optional: true },
  },
  measure: 'trim',
  scale: (spec) => narrowed({ min: -100, max: 100 }, spec),
  step: ({ decimals }) => stepWith(decimals),
  precision: ({ decimals }) => decimals,

  affixes: () => AFFIXES,
  nouns: ['trim', 'stab', 'stabilizer', 'stabiliser', 'elevator'],
  read(tokens, { decimals, axis, min, max }) {
    const run = partRun(tokens, AFFIXES)
    if (!run || run.signs.length + new Set(run.directions).size > 1) return []
    const direction = run.directions[0]
    /** 0 for a direction that the axis does not have. */
    const sign = direction === undefined ? run.signs[0] : (wordsOf(axis).get(direction) ?? 0)
    if (run.number.length === 0) {
      if (run.zero) return direction === undefined ? [{ value: 0, standard: true }] : []
      return sign ? [{ value: sign, standard: true, lacks: 'digits' }] : []
    }
    if (run.zero) return []
    const most = Math.max(Math.abs(min ?? -USUAL_MOST), Math.abs(max ?? USUAL_MOST))
    const said = [...amountsSaid(run, decimals), ...amountsImplied(run, decimals, most)]
    return said.map(({ amount, standard, secondary, short, open }): Reading => {
      const reading = { value: clean((sign || 1) * amount), standard, secondary }
      if (open) return { ...reading, lacks: 'decimals', open }
      if (amount === 0) return sign === 0 ? { ...reading, otherUnit: true } : { ...reading, value: 0 }
      if (sign === 0) return { ...reading, value: `${amount} ${direction}`, otherUnit: true }
      if (short) return { ...reading, lacks: 'decimals' }
      return sign === undefined ? { ...reading, lacks: 'direction' } : reading
    })
  },
  say(value, { decimals, axis }, phraseology) {
    const words = sayAmount(value, decimals, phraseology)
    return Number(value) === 0 ? words : `${words} ${directionOf(Number(value), axis)}`
  },
  show(value, { decimals, axis }) {
    const text = Math.abs(Number(value)).toFixed(decimals)
    return Number(value) === 0 ? text : `${text} ${directionOf(Number(value), axis)}`
  },
  digits: (value, { decimals }) => digitsWith(decimals, value),

  heard: {
    shapes: ({ decimals }) => [...withFraction(decimals, ['d', ...TWIN]), 'd'],
    before: [],
    behind: ['up', 'down', 'left', 'right', 'nose', 'units', 'neutral', 'minus'],
    openings: ['nose'],
    mostDigits: ({ decimals }) => 2 + decimals + SLIP,
    isWhole: (number, { decimals }) =>
      number.decimals >= decimals && ['up', 'down', 'left', 'right', 'nose', 'units'].includes(number.next),
    isOfOneLength: true,
    isSpelled: false,
  },
  mayBeCutShort: false,
  /** Only the direction was said; its value is the sign. */
  isRightSoFar: (said, expected) => Math.sign(Number(expected)) === said,
  direction: {
    isTurned: (said, _, isRight) => typeof said === 'number' && isRight(-said),
    // A trim without a direction is read as lacking one.
    isLeftOut: () => false,
  },
  mistake: () => undefined,
  isReadBack: false,
}
