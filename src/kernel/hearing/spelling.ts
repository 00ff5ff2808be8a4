/**
 * How letters, designators and routes may be spoken: any letter of the alphabet, any designator of the pack, any
 * taxiways in a row. Rules for the signs that shapes have besides those of number words.
 */

import type { CallsignSpec, KindSpec } from '../kinds/kind.ts'

/** ICAO Annex 10 volume II, 5.2.1.3 (from memory), one token each. */
export const LETTERS: readonly string[] = [
  ...['alfa', 'bravo', 'charlie', 'delta', 'echo', 'foxtrot', 'golf', 'hotel', 'india', 'juliett', 'kilo', 'lima'],
  ...['mike', 'november', 'oscar', 'papa', 'quebec', 'romeo', 'sierra', 'tango', 'uniform', 'victor', 'whiskey'],
  ...['xray', 'yankee', 'zulu'],
]

/** Signs of letters, of the words inside a wind, of designators, of whole routes -> the rules they stand for. */
export const SPELLING_RULES: Readonly<Record<string, string>> = {
  l: '<letter>',
  w: '<inWind>',
  t: '<telephony>',
  R: '<route>',
}

const DESIGNATOR = (name: string) => name.toLowerCase().split(/\s+/).join(' ')

/** The designators of a call sign, word by word. */
export function nameWords({ telephony = [] }: CallsignSpec): string[] {
  return telephony.flatMap((name) => DESIGNATOR(name).split(' '))
}

/** The rules behind those signs; only what the kinds asked for need. */
export function spellingRules(shapes: readonly KindSpec[]): string[] {
  const has = (...kinds: readonly KindSpec['kind'][]) => shapes.some(({ kind }) => kinds.includes(kind))
  const names = shapes.flatMap((spec) => (spec.kind === 'callsign' ? (spec.telephony ?? []) : [])).map(DESIGNATOR)
  return [
    ...(has('identifier', 'callsign', 'route') ? [`<letter> = ${LETTERS.join(' | ')};`] : []),
    ...(has('wind') ? ['<inWind> = degrees [at] | at;'] : []),
    ...(names.length > 0 ? [`<telephony> = ${[...new Set(names)].sort().join(' | ')};`] : []),
    ...(has('route')
      ? [
          '<taxiway> = <letter> [<letter>] [<digit> [<digit>] | <teen>];',
          `<route> = <taxiway> (/1/ <NULL> | /${ONWARD}/ [via | then | and | taxiway] <route>);`,
        ]
      : []),
  ]
}

/** Of one more taxiway. A route has three or four, more than an answer has other values. */
const ONWARD = 0.5
