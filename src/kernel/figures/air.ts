/**
 * Air: standard atmosphere, pressure and density altitude, wind along and across a runway.
 * Constants of the ICAO standard atmosphere (Doc 7488/3): 1013.25 hPa and 288.15 K at sea level, 6.5 K/km up to 11 km,
 * g 9.80665 m/s2, R 287.05287 J/(kg K). Heights are geopotential; all of this ends at 11 km.
 */

import { convert } from '../units.ts'
import { type Calculator, failed, type Outcome, type Work } from './calculator.ts'
import { formatMeasured, formatNumber } from './format.ts'
import { maybe, number, shown, word } from './work.ts'

const SEA_LEVEL_HPA = 1013.25
const SEA_LEVEL_K = 288.15
/** Kelvin a metre. */
const LAPSE = 0.0065
/** g / (R x lapse), 5.25588: pressure goes with this power of temperature. */
const POWER = 9.80665 / (287.05287 * LAPSE)
const CELSIUS = 273.15

/** Standard temperature in degrees C at an altitude in feet. */
export function standardTemperature(altitudeFt: number): number {
  return SEA_LEVEL_K - CELSIUS - LAPSE * convert(altitudeFt, 'ft', 'm')
}

/** Standard pressure in hPa at an altitude in feet. */
export function standardPressure(altitudeFt: number): number {
  return SEA_LEVEL_HPA * (1 - (LAPSE * convert(altitudeFt, 'ft', 'm')) / SEA_LEVEL_K) ** POWER
}

/** The altitude in feet that has this pressure in the standard atmosphere. */
export function altitudeOfPressure(hPa: number): number {
  return convert((SEA_LEVEL_K / LAPSE) * (1 - (hPa / SEA_LEVEL_HPA) ** (1 / POWER)), 'm', 'ft')
}

/** The altitude in feet whose standard density is that of air at a pressure altitude (ft) and a temperature (degrees C). */
export function densityAltitude(pressureAltitudeFt: number, celsius: number): number {
  const pressure = standardPressure(pressureAltitudeFt) / SEA_LEVEL_HPA
  const density = pressure / ((celsius + CELSIUS) / SEA_LEVEL_K)
  return convert((SEA_LEVEL_K / LAPSE) * (1 - density ** (1 / (POWER - 1))), 'm', 'ft')
}

/** Along (head positive) and across (from the right positive) a direction, for a wind from a direction; degrees and any speed. */
export function windOn(
  headingDeg: number,
  fromDeg: number,
  speed: number,
): { readonly head: number; readonly right: number } {
  const angle = ((fromDeg - headingDeg) * Math.PI) / 180
  return { head: speed * Math.cos(angle), right: speed * Math.sin(angle) }
}

const pressureAltitude: Calculator = {
  about: 'Pressure altitude from elevation and altimeter setting, by the standard atmosphere.',
  takes: { elevation: { unit: 'ft' }, setting: { unit: 'hPa' } },
  gives: 'ft',
  run(work) {
    const change = altitudeOfPressure(number(work, 'setting'))
    const text = `${shown(work, 'elevation')} + ${formatNumber(change, 0)} ft for ${shown(work, 'setting')}`
    return { value: number(work, 'elevation') + change, why: [{ text, uses: [] }] }
  },
}

const pressureAltitudeByRule: Calculator = {
  about: 'Pressure altitude by the rule of thumb: 1,000 ft for each inch of mercury below 29.92.',
  takes: { elevation: { unit: 'ft' }, setting: { unit: 'inHg' } },
  gives: 'ft',
  run(work) {
    const change = (29.92 - number(work, 'setting')) * 1000
    const text = `${shown(work, 'elevation')} + (29.92 - ${shown(work, 'setting')}) x 1,000`
    return { value: number(work, 'elevation') + change, why: [{ text, uses: [] }] }
  },
}

const densityAltitudeOf: Calculator = {
  about: 'Density altitude from pressure altitude and temperature, by the standard atmosphere (dry air).',
  takes: { pressureAltitude: { unit: 'ft' }, temperature: { unit: 'C' } },
  gives: 'ft',
  run(work) {
    const altitude = number(work, 'pressureAltitude')
    const standard = formatNumber(standardTemperature(altitude), 1)
    return {
      value: densityAltitude(altitude, number(work, 'temperature')),
      why: [
        {
          text: `${shown(work, 'pressureAltitude')}, ${shown(work, 'temperature')} where ${standard} is standard`,
          uses: [],
        },
      ],
    }
  },
}

const densityAltitudeByRule: Calculator = {
  about: 'Density altitude by the rule of thumb: 120 ft for each degree above 15 less 2 a thousand feet.',
  takes: { pressureAltitude: { unit: 'ft' }, temperature: { unit: 'C' } },
  gives: 'ft',
  run(work) {
    const altitude = number(work, 'pressureAltitude')
    const standard = 15 - (2 * altitude) / 1000
    return {
      value: altitude + 120 * (number(work, 'temperature') - standard),
      why: [
        {
          text: `${shown(work, 'pressureAltitude')} + 120 x (${shown(work, 'temperature')} - ${formatNumber(standard)})`,
          uses: [],
        },
      ],
    }
  },
}

/**
 * Wind in METAR, TAF and upper wind forecasts is true (ICAO Annex 3, 4.1.5.1 and Doc 8896, 2.3; FAA AIM 7-1-29, from memory);
 * by tower and ATIS it is magnetic, as runways are numbered (ICAO Doc 4444, 11.4.3.2.2 and FAA JO 7110.65, 2-6, from memory).
 */
const WIND = {
  direction: { unit: 'deg' },
  speed: { unit: 'kt' },
  gust: { unit: 'kt', optional: true },
  heading: { unit: 'deg' },
  reference: { unit: 'any', optional: true },
  variation: { unit: 'degW', optional: true },
} as const satisfies Calculator['takes']

/** From where the wind blows as a compass shows it: a true direction with the variation, east taken off, west added. */
function magneticWind(work: Work): { readonly from: number; readonly told: string } | Outcome {
  const from = number(work, 'direction')
  if (word(work, 'reference') !== TRUE) return { from, told: shown(work, 'direction') }
  const variation = maybe(work, 'variation')
  if (variation === undefined) {
    const message = `${work.figure.label}: the wind is given true and the runway is magnetic; enter the variation, west or east`
    return failed('wind.variation', message)
  }
  const magnetic = (((from + variation) % 360) + 360) % 360
  const told = `${shown(work, 'direction')} true, ${shown(work, 'variation')}: ${formatMeasured(magnetic, 'deg')} magnetic`
  return { from: magnetic, told }
}

/** What `reference` says of a wind out of a METAR; anything else, or nothing, is magnetic. */
const TRUE = 'true'

const headwind: Calculator = {
  about:
    'The wind along the runway, tailwind below zero: a headwind counts steady, a tailwind with its gusts; or a share of each, as takeoff data take it.',
  takes: { ...WIND, headShare: { unit: 'none', optional: true }, tailShare: { unit: 'none', optional: true } },
  gives: 'kt',
  run(work) {
    const wind = magneticWind(work)
    if (!('from' in wind)) return wind
    const steady = windOn(number(work, 'heading'), wind.from, number(work, 'speed')).head
    // Gusts never help: they count where they make it worse (common practice, no source).
    const gust = maybe(work, 'gust') ?? number(work, 'speed')
    const gusting = windOn(number(work, 'heading'), wind.from, gust).head
    const with_ = gusting < steady ? `, gusting ${formatNumber(gust)}` : ''
    const text = `${wind.told}, ${shown(work, 'speed')}${with_}, on ${shown(work, 'heading')}`
    const value = Math.min(steady, gusting)
    // Not more than half of a headwind, not less than one and a half of a tailwind (14 CFR 25.105(d)(1)): the pack's to say.
    const share = maybe(work, value < 0 ? 'tailShare' : 'headShare') ?? 1
    const shared = share === 1 ? '' : `, ${formatNumber(100 * share)} % of it`
    return { value: value * share, why: [{ text: text + shared, uses: [] }] }
  },
}

const crosswind: Calculator = {
  about: 'The wind across the runway with its gusts, from either side.',
  takes: WIND,
  gives: 'kt',
  run(work) {
    const speed = Math.max(number(work, 'speed'), maybe(work, 'gust') ?? 0)
    const wind = magneticWind(work)
    if (!('from' in wind)) return wind
    const { right } = windOn(number(work, 'heading'), wind.from, speed)
    const side = Math.abs(right) < 0.5 ? '' : `, from the ${right > 0 ? 'right' : 'left'}`
    const text = `${wind.told}, ${formatNumber(speed)} kt, on ${shown(work, 'heading')}${side}`
    return { value: Math.abs(right), why: [{ text, uses: [] }] }
  },
}

export const AIR = {
  pressureAltitude,
  pressureAltitudeByRule,
  densityAltitude: densityAltitudeOf,
  densityAltitudeByRule,
  headwind,
  crosswind,
} as const satisfies Record<string, Calculator>
