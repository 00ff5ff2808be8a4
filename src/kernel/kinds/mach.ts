/**
 * Mach numbers. Said digit by digit behind the word: "Mach decimal eight four" (ICAO), "Mach point six four" (FAA AIM
 * 4-2-11 and JO 7110.65 2-4-17); both looked up. "Mach seven eight", without a point, is common practice (no source).
 */

import type { NumberReading } from '../numbers/readings.ts'
import { amountsSaid, digitsWith, sayAmount, stepWith } from './amounts.ts'
import { unsignedRun } from './codes.ts'
import { type NumberKind, SLIP } from './definition.ts'
import { SCALE_FIELDS } from './fields.ts'
import { oneStepOff } from './mistakes.ts'
import { affixTable, type Reading, type Run } from './reading.ts'
import { withFraction } from './shapes.ts'
import { narrowed, type Scale } from './value.ts'

export interface MachSpec extends Scale {
  readonly kind: 'mach'
  /** 2 where it is left out. */
  readonly decimals?: number
}

const AFFIXES = affixTable([
  [{ role: 'noun' }, ['mach', 'm']],
  [{ role: 'otherUnit' }, ['knots', 'knot', 'kt', 'kts']],
])
const decimalsOf = ({ decimals = 2 }: MachSpec) => decimals
const scale = (spec: MachSpec) => narrowed({ min: 0, max: 3 }, spec)

/** "Seven eight" is .78: nobody flies at Mach 78. */
function withoutPoint({ whole, fraction, secondary }: NumberReading, decimals: number): Reading[] {
  if (fraction !== undefined || whole.length !== decimals) return []
  return [{ value: Number(`0.${whole}`), standard: false, secondary }]
}

function withPoint(run: Run, decimals: number): Reading[] {
  return amountsSaid(run, decimals).map(({ amount, standard, secondary, short, open }) => {
    const reading = { value: amount, standard, secondary }
    return short ? { ...reading, lacks: 'decimals', open } : reading
  })
}

export const mach: NumberKind<MachSpec> = {
  values: 'numbers',
  fields: { ...SCALE_FIELDS, decimals: { type: 'wholeNumber', min: 1, max: 3, optional: true } },
  measure: 'none',
  scale,
  step: (spec) => stepWith(decimalsOf(spec)),
  precision: decimalsOf,

  affixes: () => AFFIXES,
  nouns: ['mach'],
  read(tokens, spec) {
    const run = unsignedRun(tokens, AFFIXES)
    if (!run) return []
    if (run.otherUnit)
      return run.numbers.map(({ whole }) => ({ value: Number(whole), standard: true, otherUnit: true }))
    const bare = run.numbers.flatMap((number) => withoutPoint(number, decimalsOf(spec)))
    return bare.length > 0 ? bare : withPoint(run, decimalsOf(spec))
  },
  say(value, spec, phraseology) {
    const words = sayAmount(value, decimalsOf(spec), phraseology)
    return `mach ${Math.abs(Number(value)) < 1 ? words.replace(/^zero /, '') : words}`
  },
  show: (value, spec) => `M${Number(value).toFixed(decimalsOf(spec)).replace(/^0/, '')}`,
  digits: (value, spec) => digitsWith(decimalsOf(spec), value),

  heard: {
    shapes: (spec) => [...withFraction(decimalsOf(spec), ['', 'd']), 'd'.repeat(decimalsOf(spec))],
    before: ['mach'],
    behind: [],
    openings: ['mach'],
    mostDigits: (spec) => 1 + decimalsOf(spec) + SLIP,
    isWhole: ({ signs, digits, decimals }, spec) => (signs.includes('.') ? decimals : digits) >= decimalsOf(spec),
    isOfOneLength: true,
    isSpelled: false,
  },
  mayBeCutShort: false,
  /** "Mach point seven" is all of .70. */
  zerosMayLack: () => true,
  mistake: (value, spec, chance) =>
    oneStepOff(Number(value), stepWith(decimalsOf(spec)), scale(spec), chance, stepWith(decimalsOf(spec))),
  isReadBack: true,
}
