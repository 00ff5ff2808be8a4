/** Whole numbers with a unit: integers, speeds, weights, temperatures, altitudes, flight levels. */

import type { NumberReading } from '../numbers/readings.ts'
import { sayCardinal, sayDigits, sayHundreds } from '../numbers/say.ts'
import type { Token } from '../numbers/tokens.ts'
import type {
  AltitudeSpec,
  FlightLevelSpec,
  IntegerSpec,
  Phraseology,
  SpeedSpec,
  TemperatureSpec,
  Value,
  WeightSpec,
} from './kind.ts'
import { type Affix, type Affixes, affixTable, amountOf, partRun, type Reading, type Run, zerosFit } from './reading.ts'

type Entry = readonly [Affix, readonly string[]]
const SIGNS: readonly Entry[] = [
  [{ role: 'sign', sign: -1 }, ['minus']],
  [{ role: 'sign', sign: 1 }, ['plus']],
]
const KILOS = ['kilos', 'kilo', 'kilograms', 'kilogram', 'kilogrammes', 'kg', 'kgs']
const TONNES = ['tonnes', 'tonne', 'tons', 'ton']
const POUNDS = ['pounds', 'pound', 'lb', 'lbs']
const FEET = ['feet', 'foot', 'ft']
const METRES = ['meters', 'metres', 'meter', 'metre']
const LEVEL = ['flight', 'level', 'fl']

const INTEGER = affixTable([
  [{ role: 'unit' }, ['units', 'unit', 'percent', 'degrees', 'degree', 'psi', 'rpm', 'minutes', 'minute']],
  ...SIGNS,
])
const SPEED = affixTable([
  [{ role: 'unit' }, ['knots', 'knot', 'kt', 'kts', 'indicated']],
  [{ role: 'otherUnit' }, ['mach', 'mph', 'kmh']],
])
const KG = affixTable([
  [{ role: 'unit' }, KILOS],
  [{ role: 'thousands' }, TONNES],
  [{ role: 'otherUnit' }, POUNDS],
])
const LB = affixTable([
  [{ role: 'unit' }, POUNDS],
  [{ role: 'otherUnit' }, [...KILOS, ...TONNES]],
])
/** As in reports: "M05". */
const REPORTED: Entry = [{ role: 'sign', sign: -1 }, ['m']]
const CELSIUS = affixTable([
  [{ role: 'unit' }, ['degrees', 'degree', 'celsius', 'centigrade', 'c']],
  [{ role: 'otherUnit' }, ['fahrenheit', 'kelvin', 'f']],
  ...SIGNS,
  REPORTED,
])
const FAHRENHEIT = affixTable([
  [{ role: 'unit' }, ['degrees', 'degree', 'fahrenheit', 'f']],
  [{ role: 'otherUnit' }, ['celsius', 'centigrade', 'kelvin', 'c']],
  ...SIGNS,
])
const ALTITUDE = affixTable([
  [{ role: 'unit' }, FEET],
  [{ role: 'otherUnit' }, [...METRES, ...LEVEL]],
])
const FLIGHT_LEVEL = affixTable([
  [{ role: 'noun' }, LEVEL],
  [{ role: 'otherUnit' }, [...FEET, ...METRES]],
])

type WholeSpec = IntegerSpec | SpeedSpec | WeightSpec | TemperatureSpec | AltitudeSpec | FlightLevelSpec

export function wholeAffixes(spec: WholeSpec): Affixes {
  switch (spec.kind) {
    case 'integer':
      return INTEGER
    case 'speed':
      return SPEED
    case 'weight':
      return spec.unit === 'kg' ? KG : LB
    case 'temperature':
      return spec.unit === 'C' ? CELSIUS : FAHRENHEIT
    case 'altitude':
      return ALTITUDE
    case 'flightLevel':
      return FLIGHT_LEVEL
  }
}

/** How many digits a value may be filled up to with zeros in front: "flight level zero five zero". */
const WIDTH: Readonly<Record<WholeSpec['kind'], number>> = {
  integer: 1,
  speed: 3,
  weight: 1,
  temperature: 2,
  altitude: 1,
  flightLevel: 3,
}

/** Reads any of the whole kinds; a fraction is kept, so that it can be refused. */
export function readWhole(tokens: readonly Token[], spec: WholeSpec): readonly Reading[] {
  const run = partRun(tokens, wholeAffixes(spec))
  if (!run || run.signs.length > 1 || run.directions.length > 0) return []
  const factor = run.signs[0] ?? 1
  return run.numbers.flatMap((number): Reading[] => {
    // "Minus zero five" is a temperature; "zero five" may be two.
    const width = spec.kind === 'temperature' && run.signs.length === 0 ? 1 : WIDTH[spec.kind]
    if (!zerosFit(number.whole, width) || number.fraction === '') return []
    return amountsOf(number, run, spec).map(({ amount, standard }) => ({
      value: factor * amount || 0,
      standard,
      digits: number.whole + (number.fraction ?? ''),
      secondary: number.secondary,
      ...(isOtherUnit(run, number, spec) ? { otherUnit: true } : {}),
    }))
  })
}

function amountsOf(number: NumberReading, run: Run, spec: WholeSpec) {
  const { whole, fraction, standard } = number
  const amount = amountOf(whole, fraction ?? '', fraction?.length ?? 0)
  if (spec.kind !== 'weight') return number.thousandAfter ? [] : [{ amount, standard }]
  const inThousands = Number((amount * 1000).toFixed(0))
  const exact = Math.abs(inThousands - amount * 1000) < 1e-6
  if (number.thousandAfter || run.thousands) return exact ? [{ amount: inThousands, standard: false }] : []
  if (spec.say === 'thousands' && fraction !== undefined && exact) return [{ amount: inThousands, standard }]
  return [{ amount, standard }]
}

/** "Three five thousand" is an altitude, not flight level 350. */
function isOtherUnit(run: Run, number: NumberReading, spec: WholeSpec): boolean {
  return run.otherUnit || (spec.kind === 'flightLevel' && Number(number.whole) >= 1000 && number.style === 'scaled')
}

export function sayWhole(value: Value, spec: WholeSpec, phraseology: Phraseology): string {
  const amount = Math.abs(Number(value))
  const radio = phraseology !== 'plain'
  const minus = Number(value) < 0 ? 'minus ' : ''
  switch (spec.kind) {
    case 'weight':
      return sayWeight(amount, spec, radio)
    case 'altitude':
      if (amount > 0 && amount % 100 === 0) return sayHundreds(amount, radio)
      return radio || amount < 1000 ? sayDigits(String(amount), radio) : sayCardinal(amount)
    case 'flightLevel':
      return `flight level ${sayDigits(String(amount).padStart(3, '0'), radio)}`
    case 'speed':
      return sayDigits(String(amount), radio)
    case 'integer':
    case 'temperature':
      return `${minus}${radio || amount > 99 ? sayDigits(String(amount), radio) : sayCardinal(amount)}`
  }
}

function sayWeight(amount: number, spec: WeightSpec, radio: boolean): string {
  if (spec.say === 'thousands' && amount >= 1000) {
    const [whole = '', fraction = ''] = (amount / 1000).toFixed(3).split('.')
    const short = fraction.replace(/0{1,2}$/, '')
    return `${sayDigits(whole, radio)} ${radio ? 'decimal' : 'point'} ${sayDigits(short, radio)}`
  }
  if (radio) return amount > 0 && amount % 100 === 0 ? sayHundreds(amount, true) : sayDigits(String(amount), true)
  return sayCardinal(amount)
}

export function showWhole(value: Value, spec: WholeSpec): string {
  switch (spec.kind) {
    case 'integer':
      return String(value)
    case 'speed':
      return `${value} kt`
    case 'weight':
      return `${value} ${spec.unit}`
    case 'temperature':
      return `${value} °${spec.unit}`
    case 'altitude':
      return `${value} ft`
    case 'flightLevel':
      return `FL${String(value).padStart(3, '0')}`
  }
}
