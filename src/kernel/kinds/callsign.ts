/**
 * Call signs: a telephony designator with a flight number ("Tidewick four two one"), or a registration, in full or
 * shortened as ICAO Annex 10 volume II 5.2.1.7.2.2 (from memory) allows.
 */

import { alternatives, anyPhrase, NOTHING, optional, type Rule, rule, sequence, weighted } from '../grammarRules.ts'
import { sayBelowHundred, sayDigits } from '../numbers/say.ts'
import type { Token } from '../numbers/tokens.ts'
import { isNumberWord } from '../numbers/words.ts'
import { capitals } from './codes.ts'
import type { TextKind } from './definition.ts'
import { LETTERS, readSpelled, spell } from './letters.ts'
import type { Affix, Affixes, Match, Reading } from './reading.ts'
import { DIGIT, LETTER, PAIR, TEEN, upTo } from './ruleParts.ts'
import type { Phraseology, Value } from './value.ts'

/** "TIDEWICK 421", or a registration: "QX-MRA". */
export interface CallsignSpec {
  readonly kind: 'callsign'
  /** Every telephony designator that may be heard, of this flight and of others; none where all fly under registrations. */
  readonly telephony?: readonly string[]
}

/** Said behind a call sign, of the aircraft's wake. */
const WAKE: readonly (readonly [string, Affix])[] = ['heavy', 'super'].map((word) => [word, { role: 'noun' }] as const)

interface Names {
  /** In words, longest first. */
  readonly list: readonly (readonly string[])[]
  readonly affixes: Affixes
}

const NONE: readonly string[] = []
const namesByList = new WeakMap<readonly string[], Names>()

/** The designators of a spec, made once for each list. */
function namesOf({ telephony = NONE }: CallsignSpec): Names {
  const known = namesByList.get(telephony)
  if (known) return known
  const list = telephony.map((name) => name.toLowerCase().split(/\s+/)).toSorted((a, b) => b.length - a.length)
  const words = list.flat().map((word): [string, Affix] => [word, { role: 'name' }])
  const made = { list, affixes: new Map<string, Affix>([...LETTERS, ...WAKE, ...words]) }
  namesByList.set(telephony, made)
  return made
}

/** No flight number and no registration has more characters. */
const LONGEST = 7

function readCallsign(tokens: readonly Token[], spec: CallsignSpec): readonly Reading[] {
  const { list, affixes } = namesOf(spec)
  const said = tokens.filter(({ text }) => affixes.get(text)?.role !== 'noun')
  const name = list.find((words) => words.every((word, i) => said[i]?.text === word)) ?? NONE
  const written = name.join(' ').toUpperCase()
  const rest = said.slice(name.length)
  if (rest.length === 0) return written === '' ? [] : [{ value: written, standard: true, lacks: 'digits' }]
  return readSpelled(rest, true).map(({ text, standard, secondary }) => {
    const reading = { value: written === '' ? text : `${written} ${text}`, standard, secondary }
    if (text.length > LONGEST) return { ...reading, overlong: true }
    const isWhole = written !== '' || (text.length >= 3 && /^[A-Z]/.test(text))
    return isWhole ? reading : { ...reading, lacks: 'digits' as const }
  })
}

interface Parted {
  /** Capitals; empty where there is none. */
  readonly name: string
  /** Flight number or registration, without its hyphen. */
  readonly ident: string
}

function parted(value: Value, spec: CallsignSpec): Parted {
  const text = String(value).trim().toUpperCase().replace(/\s+/g, ' ')
  const name = namesOf(spec)
    .list.map((words) => words.join(' ').toUpperCase())
    .find((each) => text === each || text.startsWith(`${each} `))
  return { name: name ?? '', ident: text.slice(name?.length ?? 0).replace(/[- ]/g, '') }
}

/** First character and at least the last two. */
function isShortened(said: string, full: string): boolean {
  return said.length >= 3 && said.length < full.length && said[0] === full[0] && full.endsWith(said.slice(1))
}

/** What was said against the call sign in force. */
function matchCallsign(reading: Reading, expected: Value, spec: CallsignSpec): Match {
  const full = parted(expected, spec)
  const said = parted(reading.value, spec)
  if (said.name !== '' && said.name !== full.name) return 'other'
  if (said.ident === '') return 'lacking'
  const isFlight = /^\d/.test(full.ident)
  const isRegistration = full.name === '' || String(expected).includes('-')
  if (said.ident === full.ident) return said.name === full.name || isRegistration ? 'same' : 'lacking'
  if (isRegistration && isShortened(said.ident, full.ident)) return 'same'
  const isEnd = full.ident.endsWith(said.ident)
  if (isEnd && !isFlight && said.name !== '' && said.ident.length >= 2) return 'same'
  // Nobody is called by one letter or digit: it is what was heard of another word, and no other call sign.
  const isScrap = said.name === '' && said.ident.length === 1
  return isScrap || isEnd || full.ident.startsWith(said.ident) ? 'part' : 'other'
}

function isCallsign(value: Value, spec: CallsignSpec): boolean {
  const { name, ident } = parted(value, spec)
  if (name !== '') return /^[A-Z0-9]{1,7}$/.test(ident)
  return /^[A-Z0-9]{3,7}$/.test(ident) && /[A-Z]/.test(ident) && !/\s/.test(String(value).trim())
}

function isName(name: string): boolean {
  const words = name.toLowerCase().split(/\s+/)
  return words.every((word) => /^[a-z']{2,}$/.test(word) && !isNumberWord(word) && !LETTERS.has(word))
}

function sayCallsign(value: Value, spec: CallsignSpec, phraseology: Phraseology): string {
  const { name, ident } = parted(value, spec)
  return `${name.toLowerCase()} ${spell(ident, phraseology !== 'plain')}`.trim()
}

/** As FAA controllers say flight numbers: "Tidewick four twenty one" (JO 7110.65 2-4-20, looked up). */
function sayCallsignGrouped(value: Value, spec: CallsignSpec): string {
  const { name, ident } = parted(value, spec)
  const [, number = '', suffix = ''] = /^(\d*)(.*)$/.exec(ident) ?? []
  if (name === '' || number === '') return sayCallsign(value, spec, 'standard')
  return `${name.toLowerCase()} ${grouped(number)} ${spell(suffix, true)}`.trim()
}

/** The last two digits as one group, and what stands before them as another; single digits where a zero leads. */
function grouped(number: string): string {
  if (number.length > 4 || number.startsWith('0') || number.length === 1) return sayDigits(number, true)
  const [head, tail] = [number.slice(0, -2), number.slice(-2)]
  const first = head === '' ? '' : head.length === 1 ? sayDigits(head, true) : sayBelowHundred(Number(head))
  const last = tail === '00' ? 'hundred' : tail.startsWith('0') ? sayDigits(tail, true) : sayBelowHundred(Number(tail))
  return `${first} ${last}`.trim()
}

/** Weights stand beside the fullest form, and follow from no value; chosen on the tuning voices only. */
function grammarRules(names: readonly string[]): readonly Rule[] {
  const CHARACTER = rule('character')
  const registration = sequence(LETTER, CHARACTER, CHARACTER, optional(upTo(3, CHARACTER)))
  const character = { name: 'character', expansion: alternatives(weighted(1, LETTER), weighted(0.1, DIGIT)) }
  if (names.length === 0) return [character, { name: 'callsign', expansion: registration }]
  const grouped = alternatives(
    sequence(optional(DIGIT), PAIR),
    sequence(PAIR, PAIR),
    sequence(PAIR, DIGIT, DIGIT),
    sequence(alternatives(DIGIT, TEEN), rule('hundred')),
  )
  const flight = sequence(
    alternatives(weighted(1, upTo(4, DIGIT)), weighted(0.2, grouped)),
    alternatives(weighted(1, NOTHING), weighted(0.2, upTo(2, LETTER))),
  )
  const [TELEPHONY, FLIGHT] = [rule('telephony'), rule('flight')]
  const said = alternatives(
    weighted(1, sequence(TELEPHONY, FLIGHT)),
    weighted(0.1, sequence(TELEPHONY, LETTER, LETTER, optional(upTo(2, LETTER)))),
    weighted(0.05, TELEPHONY),
    weighted(0.05, FLIGHT),
    weighted(0.2, registration),
  )
  return [
    character,
    { name: 'flight', expansion: flight },
    { name: 'telephony', expansion: anyPhrase(names) },
    { name: 'callsign', expansion: said },
  ]
}

export const callsign: TextKind<CallsignSpec> = {
  values: 'text',
  fields: {
    telephony: {
      type: 'texts',
      optional: true,
      about: 'Every telephony designator that may be heard, of this flight and of others',
    },
  },
  specFault({ telephony = NONE }) {
    const odd = telephony.find((name) => !isName(name))
    if (odd === undefined) return undefined
    const should = `designators of words that are neither numbers nor letters of the alphabet, not "${odd}"`
    return { field: 'telephony', should }
  },
  written({ telephony = NONE }) {
    if (telephony.length === 0) return 'a registration: "QX-MRA"'
    return `one of its designators with a flight number, such as "${telephony[0]?.toUpperCase()} 421", or a registration`
  },
  isWritten: isCallsign,
  tidied: capitals,
  canonical(value, spec) {
    const { name, ident } = parted(value, spec)
    return `${name} ${ident}`
  },

  affixes: (spec) => namesOf(spec).affixes,
  nouns: ['callsign', 'sign'],
  read: readCallsign,
  say: sayCallsign,
  sayOnRadio: (value, spec, radio) =>
    radio === 'faa' ? sayCallsignGrouped(value, spec) : sayCallsign(value, spec, 'standard'),
  show: (value) => capitals(String(value)),

  heard: {
    shapes: () => ['C'],
    before: [],
    behind: [],
    openings: [],
    mostDigits: () => undefined,
    isWhole: ({ digits }) => digits >= 2,
    isOfOneLength: false,
    isSpelled: true,
    own: { sign: 'C', rule: 'callsign', rules: grammarRules },
  },
  mayBeCutShort: false,
  match: matchCallsign,
  names: ({ telephony = NONE }) => telephony,
  mistake: () => undefined,
  isReadBack: false,
}
