/**
 * The list of kinds, and the types that follow from it. Each kind has a file of its own; to add one takes that file and two
 * lines here. A `KindSpec` says what shape a value has and never holds the value itself: what the ear listens for is made
 * from specs, so it cannot know the answer (law 2). A `Figure` is a spec with its value, in the JSON form of the command
 * line's contract.
 */

import { altimeter } from './altimeter.ts'
import { altitude } from './altitude.ts'
import { callsign } from './callsign.ts'
import { choice } from './choice.ts'
import { decimal } from './decimal.ts'
import type { KindDefinition, NumberKind, TextKind } from './definition.ts'
import { digits } from './digits.ts'
import { flightLevel } from './flightLevel.ts'
import { frequency } from './frequency.ts'
import { heading } from './heading.ts'
import { identifier } from './identifier.ts'
import { integer } from './integer.ts'
import { mach } from './mach.ts'
import { route } from './route.ts'
import { runway } from './runway.ts'
import { speed } from './speed.ts'
import { temperature } from './temperature.ts'
import { time } from './time.ts'
import { trim } from './trim.ts'
import type { Accept, Band, Value } from './value.ts'
import { weight } from './weight.ts'
import { wind } from './wind.ts'

export type { Accept, Phraseology, Value } from './value.ts'
export { PHRASEOLOGIES } from './value.ts'

const LIST = {
  decimal,
  trim,
  integer,
  speed,
  mach,
  weight,
  temperature,
  digits,
  altimeter,
  heading,
  runway,
  altitude,
  flightLevel,
  frequency,
  time,
  identifier,
  callsign,
  wind,
  route,
  choice,
}

export type KindName = keyof typeof LIST
type SpecIn<Definition> = Definition extends NumberKind<infer S> | TextKind<infer S> ? S : never
export type SpecOf<K extends KindName> = SpecIn<(typeof LIST)[K]>
export type KindSpec = { [K in KindName]: SpecOf<K> }[KindName]

/** Each under the name that its spec has. */
export const KINDS: { readonly [K in KindName]: KindDefinition<Extract<KindSpec, { kind: K }>> } = LIST
export const KIND_NAMES = Object.keys(KINDS) as KindName[]

/** The kind that a spec is of. */
export function kindOf(spec: KindSpec): KindDefinition<KindSpec> {
  return KINDS[spec.kind]
}

export type Figure = KindSpec & { readonly value: Value; readonly accept?: Accept }

/** Read off a gauge, or noted: there is no value to compare with, only ends that it must lie between; without them any will do. */
export type Gauge = KindSpec & { readonly value?: undefined; readonly read: Band }

export const isGauge = (figure: Figure | Gauge): figure is Gauge => 'read' in figure

export type Figures = Readonly<Record<string, Figure>>
/** What answers are judged by. */
export type Judged = Readonly<Record<string, Figure | Gauge>>
export type Specs = Readonly<Record<string, KindSpec>>
