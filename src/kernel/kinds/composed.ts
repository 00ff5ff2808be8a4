/** Values that are put together of several pieces, each of which may be wrong or left out: call signs, winds, routes. */

import { callsignCharacters, callsignLike, callsignShould, matchCallsign } from './callsign.ts'
import type { CallsignSpec, KindSpec, RouteSpec, Value, WindSpec } from './kind.ts'
import { isRoute, matchRoute, ROUTE_LIKE, routeCharacters } from './places.ts'
import type { Match, Reading } from './reading.ts'
import { isWind, matchWind, showWind, WIND_LIKE } from './wind.ts'

export type ComposedSpec = CallsignSpec | WindSpec | RouteSpec

export function isComposed(spec: KindSpec): spec is ComposedSpec {
  return spec.kind === 'callsign' || spec.kind === 'wind' || spec.kind === 'route'
}

/** What was said against the value in force. */
export function matchComposed(spec: ComposedSpec, expected: Value, reading: Reading): Match {
  switch (spec.kind) {
    case 'callsign':
      return matchCallsign(spec, expected, reading)
    case 'wind':
      return matchWind(expected, reading)
    case 'route':
      return matchRoute(expected, reading)
  }
}

/** The value in one way of writing: two that are spoken alike have the same. */
export function canonComposed(spec: ComposedSpec, value: Value): string {
  switch (spec.kind) {
    case 'callsign':
      return callsignCharacters(value, spec)
    case 'wind':
      return showWind(value)
    case 'route':
      return routeCharacters(value)
  }
}

/** How a value of the kind is written, with examples. */
export function composedLike(spec: ComposedSpec): string {
  switch (spec.kind) {
    case 'callsign':
      return callsignLike(spec)
    case 'wind':
      return WIND_LIKE
    case 'route':
      return ROUTE_LIKE
  }
}

/** What a value of the kind should be; undefined where this one is. */
export function composedShould(spec: ComposedSpec, value: Value): string | undefined {
  switch (spec.kind) {
    case 'callsign':
      return callsignShould(spec, value)
    case 'wind':
      return isWind(value) ? undefined : WIND_LIKE
    case 'route':
      return isRoute(value) ? undefined : ROUTE_LIKE
  }
}
