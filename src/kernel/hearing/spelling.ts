/**
 * How letters, designators and routes may be spoken: any letter of the alphabet, any designator of the pack, any
 * taxiways in a row. A wind is here as well, since words stand inside it.
 */

import type { KindSpec } from '../kinds/kind.ts'

/** ICAO Annex 10 volume II, 5.2.1.3 (from memory), one token each. */
export const LETTERS: readonly string[] = [
  ...['alfa', 'bravo', 'charlie', 'delta', 'echo', 'foxtrot', 'golf', 'hotel', 'india', 'juliett', 'kilo', 'lima'],
  ...['mike', 'november', 'oscar', 'papa', 'quebec', 'romeo', 'sierra', 'tango', 'uniform', 'victor', 'whiskey'],
  ...['xray', 'yankee', 'zulu'],
]

/** Signs that shapes have besides those of number words: a letter, a call sign, a wind, a route -> their rules. */
export const SPELLING_RULES: Readonly<Record<string, string>> = {
  l: '<letter>',
  C: '<callsign>',
  W: '<windSaid>',
  R: '<route>',
}

/** The designators of a call sign, in lower case; none for other kinds. */
export function namesIn(spec: KindSpec): string[] {
  const names = spec.kind === 'callsign' ? (spec.telephony ?? []) : []
  return names.map((name) => name.toLowerCase().split(/\s+/).join(' '))
}

/** The kinds whose values hold letters of the alphabet. */
export const isSpelled = ({ kind }: KindSpec) => kind === 'identifier' || kind === 'callsign' || kind === 'route'

/**
 * The rules behind those signs; only what the kinds asked for need. `known`: designators that can be heard. Weights
 * stand beside the fullest form, and follow from no value; chosen on the tuning voices only.
 */
export function spellingRules(shapes: readonly KindSpec[], known: readonly string[]): string[] {
  const has = (kind: KindSpec['kind']) => shapes.some((spec) => spec.kind === kind)
  const names = [...new Set(shapes.flatMap(namesIn))].filter((name) => known.includes(name)).sort()
  return [
    ...(shapes.some(isSpelled) ? [`<letter> = ${LETTERS.join(' | ')};`] : []),
    ...(has('callsign') ? callsignRules(names) : []),
    ...(has('wind') ? WIND_RULES : []),
    ...(has('route') ? ROUTE_RULES : []),
  ]
}

/** Numbers of two digits said as one: "twenty five", "fifteen". */
const GROUP = '(<teen> | <tens> [<digit>])'

function callsignRules(names: readonly string[]): string[] {
  const registration = '<letter> <character> <character> [<character> [<character> [<character>]]]'
  if (names.length === 0) {
    return ['<character> = /1/ <letter> | /0.1/ <digit>;', `<callsign> = ${registration};`]
  }
  const single = '<digit> [<digit> [<digit> [<digit>]]]'
  const grouped = `[<digit>] ${GROUP} | ${GROUP} ${GROUP} | ${GROUP} <digit> <digit> | (<digit> | <teen>) <hundred>`
  return [
    '<character> = /1/ <letter> | /0.1/ <digit>;',
    `<flight> = (/1/ ${single} | /0.2/ (${grouped})) (/1/ <NULL> | /0.2/ <letter> [<letter>]);`,
    `<telephony> = ${names.join(' | ')};`,
    `<callsign> = /1/ <telephony> <flight> | /0.1/ <telephony> <letter> <letter> [<letter> [<letter>]] | /0.05/ <telephony> | /0.05/ <flight> | /0.2/ ${registration};`,
  ]
}

const WIND_RULES = [
  `<from> = /1/ <digit> <digit> <digit> | /0.2/ <digit> <tens> [<digit>];`,
  `<force> = (/1/ <digit> [<digit>] | /0.2/ ${GROUP}) [knots];`,
  '<gusts> = (gusting | gusts) <force>;',
  '<steady> = /1/ <from> (degrees [at] | at) <force> | /0.1/ <from> [degrees] | /0.1/ <from> <force> | /0.5/ variable [at] <force>;',
  '<windSaid> = [wind] (/1/ <steady> [<gusts>] | /0.5/ calm) | /0.05/ <gusts>;',
]

const ROUTE_RULES = [
  '<taxiway> = <letter> (/1/ <NULL> | /0.1/ <letter>) (/1/ <NULL> | /1/ <digit> [<digit>] | /0.2/ <teen>);',
  // A route has three or four taxiways, more than an answer has other values.
  '<route> = <taxiway> (/1/ <NULL> | /0.5/ [via | then | and | taxiway] <route>);',
]
