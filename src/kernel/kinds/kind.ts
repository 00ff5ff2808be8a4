/**
 * The kinds of value that can be said. A `KindSpec` says what shape a value has and never holds the
 * value itself: what the ear listens for is made from specs, so it cannot know the answer (law 2).
 * A `Figure` is a spec with its value, in the JSON form of the command line's contract.
 */

interface Scale {
  /** The instrument's scale, not the normal band: outside it a well-read value is implausible. */
  readonly min?: number
  readonly max?: number
  readonly step?: number
}

export interface DecimalSpec extends Scale {
  readonly kind: 'decimal'
  readonly decimals: number
  readonly unit?: 'percent'
}
/** Negative is nose down, or left. */
export interface TrimSpec extends Scale {
  readonly kind: 'trim'
  readonly decimals: number
  readonly axis?: 'pitch' | 'roll' | 'yaw'
}
export interface IntegerSpec extends Scale {
  readonly kind: 'integer'
}
export interface SpeedSpec extends Scale {
  readonly kind: 'speed'
  readonly unit?: 'kt'
}
export interface WeightSpec extends Scale {
  readonly kind: 'weight'
  readonly unit: 'kg' | 'lb'
  readonly say?: 'thousands'
}
export interface TemperatureSpec extends Scale {
  readonly kind: 'temperature'
  readonly unit: 'C' | 'F'
}
export interface DigitsSpec {
  readonly kind: 'digits'
  readonly length: number
}
export interface AltimeterSpec extends Scale {
  readonly kind: 'altimeter'
  readonly unit: 'hPa' | 'inHg'
}
/** 1 to 360. */
export interface HeadingSpec extends Scale {
  readonly kind: 'heading'
}
export interface RunwaySpec {
  readonly kind: 'runway'
}
export interface AltitudeSpec extends Scale {
  readonly kind: 'altitude'
  readonly unit: 'ft'
}
export interface FlightLevelSpec extends Scale {
  readonly kind: 'flightLevel'
}
/** MHz. */
export interface FrequencySpec extends Scale {
  readonly kind: 'frequency'
}
/** Four digits, hours and minutes. */
export interface TimeSpec {
  readonly kind: 'time'
}
export interface IdentifierSpec {
  readonly kind: 'identifier'
  /** One letter, as of an information broadcast; letters and digits where it is left out. */
  readonly form?: 'letter'
}
/** "TIDEWICK 421", or a registration: "QX-MRA". */
export interface CallsignSpec {
  readonly kind: 'callsign'
  /** Every telephony designator that may be heard, of this flight and of others; none where all fly under registrations. */
  readonly telephony?: readonly string[]
}
/** "240/12", "240/12G25", "VRB/3", "CALM"; knots. */
export interface WindSpec {
  readonly kind: 'wind'
}
/** Taxiways in their order: "A3 B C1". */
export interface RouteSpec {
  readonly kind: 'route'
}
export interface ChoiceSpec {
  readonly kind: 'choice'
  /** Option -> every way to say it, the first one being the way the voice says it. */
  readonly options: Readonly<Record<string, readonly string[]>>
}

export type KindSpec =
  | DecimalSpec
  | TrimSpec
  | IntegerSpec
  | SpeedSpec
  | WeightSpec
  | TemperatureSpec
  | DigitsSpec
  | AltimeterSpec
  | HeadingSpec
  | RunwaySpec
  | AltitudeSpec
  | FlightLevelSpec
  | FrequencySpec
  | TimeSpec
  | IdentifierSpec
  | CallsignSpec
  | WindSpec
  | RouteSpec
  | ChoiceSpec

export type KindName = KindSpec['kind']

/** Numbers for scales, text for digits, runways, times, identifiers, call signs, winds, routes and choices. */
export type Value = number | string

/** What counts as right besides the value itself, in the value's own unit. */
export interface Accept {
  readonly min?: number
  readonly max?: number
  readonly tolerance?: number
}

export type Figure = KindSpec & { readonly value: Value; readonly accept?: Accept }

export type Figures = Readonly<Record<string, Figure>>
export type Specs = Readonly<Record<string, KindSpec>>

/** Plain: any clear form. Standard: digits as ICAO or FAA say them. Verbatim: the response's own words. */
export const PHRASEOLOGIES = ['plain', 'standard', 'verbatim'] as const
export type Phraseology = (typeof PHRASEOLOGIES)[number]
