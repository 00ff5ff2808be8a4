/** Weights in kilograms or pounds, also said in thousands. */

import type { NumberReading } from '../numbers/readings.ts'
import { sayCardinal, sayDigits, sayHundreds } from '../numbers/say.ts'
import { convert } from '../units.ts'
import { type NumberKind, SLIP } from './definition.ts'
import { SCALE_FIELDS } from './fields.ts'
import { affixTable, type Run } from './reading.ts'
import { after, THOUSANDS, TWIN, WHOLE } from './shapes.ts'
import { narrowed, type Scale } from './value.ts'
import { digitsOfWhole, plainAmount, readWhole, WHOLE_PRECISION, type WholeAmount } from './wholeNumbers.ts'

export interface WeightSpec extends Scale {
  readonly kind: 'weight'
  readonly unit: 'kg' | 'lb'
  readonly say?: 'thousands'
}

const KILOS = ['kilos', 'kilo', 'kilograms', 'kilogram', 'kilogrammes', 'kg', 'kgs']
const TONNES = ['tonnes', 'tonne', 'tons', 'ton']
const POUNDS = ['pounds', 'pound', 'lb', 'lbs']

const AFFIXES = {
  kg: affixTable([
    [{ role: 'unit' }, KILOS],
    [{ role: 'thousands' }, TONNES],
    [{ role: 'otherUnit' }, POUNDS],
  ]),
  lb: affixTable([
    [{ role: 'unit' }, POUNDS],
    [{ role: 'otherUnit' }, [...KILOS, ...TONNES]],
  ]),
}

/** "Eight point four" and "eight point four thousand" are 8400, as are 8.4 tonnes. */
function amounts(number: NumberReading, run: Run, { say }: WeightSpec): readonly WholeAmount[] {
  const { fraction, standard } = number
  const amount = plainAmount(number)
  const inThousands = Number((amount * 1000).toFixed(0))
  const exact = Math.abs(inThousands - amount * 1000) < 1e-6
  if (number.thousandAfter || run.thousands) return exact ? [{ amount: inThousands, standard: false }] : []
  if (say === 'thousands' && fraction !== undefined && exact) return [{ amount: inThousands, standard }]
  return [{ amount, standard }]
}

export const weight: NumberKind<WeightSpec> = {
  values: 'numbers',
  fields: {
    ...SCALE_FIELDS,
    unit: { type: 'oneOf', values: ['kg', 'lb'] },
    say: { type: 'oneOf', values: ['thousands'], optional: true },
  },
  measure: 'unitOfSpec',
  scale: (spec) => narrowed({ min: 0, max: 999_999 }, spec),
  bounds: { min: 0 },
  isGrouped: true,
  step: () => 1,
  precision: () => WHOLE_PRECISION,
  otherUnitOf(said, expected, { unit }) {
    const other = unit === 'kg' ? 'lb' : 'kg'
    // To the step in which it is said.
    const step = said % 100 === 0 ? 100 : said % 10 === 0 ? 10 : 1
    return Math.abs(convert(expected, unit, other) - said) <= step / 2 + 0.5 ? other : undefined
  },

  affixes: ({ unit }) => AFFIXES[unit],
  nouns: ['weight', 'mass', 'fuel'],
  read: (tokens, spec) =>
    readWhole(tokens, { affixes: AFFIXES[spec.unit], amounts: (number, run) => amounts(number, run, spec) }),
  say(value, { say }, phraseology) {
    const amount = Math.abs(Number(value))
    const radio = phraseology !== 'plain'
    if (say === 'thousands' && amount >= 1000) {
      const [whole = '', fraction = ''] = (amount / 1000).toFixed(3).split('.')
      const short = fraction.replace(/0{1,2}$/, '')
      return `${sayDigits(whole, radio)} ${radio ? 'decimal' : 'point'} ${sayDigits(short, radio)}`
    }
    if (radio) return amount > 0 && amount % 100 === 0 ? sayHundreds(amount, true) : sayDigits(String(amount), true)
    return sayCardinal(amount)
  },
  show: (value, { unit }) => `${value} ${unit}`,
  digits: digitsOfWhole,

  heard: {
    shapes: () => [...WHOLE, ...THOUSANDS, 'dddd', 'ddddd', ...after(['d', ...TWIN], ['.d', '.dd', '.dk'])],
    before: [],
    behind: ['kilos', 'kilograms', 'pounds', 'tons'],
    openings: [],
    mostDigits: () => 6 + SLIP,
    isWhole: ({ digits, decimals }) => digits >= 4 || decimals > 0,
    isOfOneLength: false,
    isSpelled: false,
  },
  mayBeCutShort: false,
  mistake: () => undefined,
  isReadBack: false,
}
