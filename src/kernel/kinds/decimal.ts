/** Decimals without a direction: percentages, quantities, arms. */

import { amountsImplied, amountsSaid, clean, digitsWith, sayAmount, stepWith } from './amounts.ts'
import { type NumberKind, SLIP } from './definition.ts'
import { DECIMALS, SCALE_FIELDS } from './fields.ts'
import { partRun, type Reading } from './reading.ts'
import { TWIN, withFraction } from './shapes.ts'
import { SPOKEN_UNITS, type SpokenUnit, spokenUnit, unitAffixes } from './unitWords.ts'
import { narrowed, type Scale } from './value.ts'

export interface DecimalSpec extends Scale {
  readonly kind: 'decimal'
  readonly decimals: number
  /** Where it is said. */
  readonly unit?: SpokenUnit
}

/** "Twenty six four" is more, and so 26.4. */
const MOST_PERCENT = 200

export const decimal: NumberKind<DecimalSpec> = {
  values: 'numbers',
  fields: {
    ...SCALE_FIELDS,
    decimals: DECIMALS,
    unit: { type: 'oneOf', values: SPOKEN_UNITS, optional: true },
  },
  measure: { anyUnit: true, said: spokenUnit },
  scale: (spec) =>
    narrowed(spec.unit === 'percent' ? { min: -50, max: MOST_PERCENT } : { min: -99_999, max: 999_999 }, spec),
  step: ({ decimals }) => stepWith(decimals),
  precision: ({ decimals }) => decimals,

  affixes: ({ unit }) => unitAffixes(unit),
  nouns: [],
  read(tokens, { decimals, unit }) {
    const run = partRun(tokens, unitAffixes(unit))
    if (!run || run.signs.length > 1) return []
    const sign = run.signs[0] ?? 1
    const most = Number.POSITIVE_INFINITY
    const implied = amountsImplied(run, decimals, most, unit === 'percent' ? MOST_PERCENT : most)
    const said = [...amountsSaid(run, decimals), ...implied]
    return said.map(({ amount, standard, secondary, short, open }): Reading => {
      const reading = {
        ...{ value: clean(sign * amount), standard, secondary },
        ...(run.otherUnit && { otherUnit: true }),
      }
      return short ? { ...reading, lacks: 'decimals', open } : reading
    })
  },
  say(value, { decimals, unit }, phraseology) {
    const minus = Number(value) < 0 ? 'minus ' : ''
    return `${minus}${sayAmount(value, decimals, phraseology)}${unit === 'percent' ? ' percent' : ''}`
  },
  show(value, { decimals, unit }) {
    const text = Number(value)
      .toFixed(decimals)
      .replace(/^-(0(\.0+)?)$/, '$1')
    return `${text}${unit === 'percent' ? ' %' : ''}`
  },
  digits: (value, { decimals }) => digitsWith(decimals, value),

  heard: {
    shapes: ({ decimals }) => [...withFraction(decimals, ['d', ...TWIN, 'ddd']), ...TWIN],
    before: [],
    behind: ['percent', 'minus'],
    openings: [],
    mostDigits: ({ decimals }) => 3 + decimals + SLIP,
    isWhole: (number, { decimals }) => number.decimals >= decimals,
    isOfOneLength: true,
    isSpelled: false,
  },
  mayBeCutShort: false,
  zerosMayLack: Number.isInteger,
  mistake: () => undefined,
  isReadBack: false,
}
