/**
 * Call signs: a telephony designator with a flight number ("Tidewick four two one"), or a registration, in full or
 * shortened as ICAO Annex 10 volume II 5.2.1.7.2.2 (from memory) allows.
 */

import { sayBelowHundred, sayDigits } from '../numbers/say.ts'
import type { Token } from '../numbers/tokens.ts'
import { numberWords } from '../numbers/words.ts'
import type { CallsignSpec, Phraseology, Value } from './kind.ts'
import { LETTERS, readSpelled, spell } from './letters.ts'
import type { Affix, Affixes, Match, Reading } from './reading.ts'

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

export function callsignAffixes(spec: CallsignSpec): Affixes {
  return namesOf(spec).affixes
}

/** No flight number and no registration has more characters. */
const LONGEST = 7

export function readCallsign(tokens: readonly Token[], spec: CallsignSpec): readonly Reading[] {
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
export function matchCallsign(spec: CallsignSpec, expected: Value, reading: Reading): Match {
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

export function callsignCharacters(value: Value, spec: CallsignSpec): string {
  const { name, ident } = parted(value, spec)
  return `${name} ${ident}`
}

/** The same for the designators alone. */
export function designatorsShould({ telephony = NONE }: CallsignSpec): string | undefined {
  const odd = telephony.find((name) => !isName(name))
  return odd && `designators of words that are neither numbers nor letters of the alphabet, not "${odd}"`
}

/** What is wrong with a call sign or its designators, as what would be right; undefined where nothing is. */
export function callsignShould(spec: CallsignSpec, value: Value): string | undefined {
  const designators = designatorsShould(spec)
  if (designators !== undefined) return designators
  const { name, ident } = parted(value, spec)
  const isRight = name === '' ? /^[A-Z0-9]{3,7}$/.test(ident) && /[A-Z]/.test(ident) : /^[A-Z0-9]{1,7}$/.test(ident)
  const isSpaced = name === '' && /\s/.test(String(value).trim())
  if (isRight && !isSpaced) return undefined
  return callsignLike(spec)
}

export function callsignLike({ telephony = NONE }: CallsignSpec): string {
  if (telephony.length === 0) return 'a registration: "QX-MRA"'
  return `one of its designators with a flight number, such as "${telephony[0]?.toUpperCase()} 421", or a registration`
}

function isName(name: string): boolean {
  const words = name.toLowerCase().split(/\s+/)
  return words.every((word) => /^[a-z']{2,}$/.test(word) && !numberWords.has(word) && !LETTERS.has(word))
}

export function sayCallsign(value: Value, spec: CallsignSpec, phraseology: Phraseology): string {
  const { name, ident } = parted(value, spec)
  return `${name.toLowerCase()} ${spell(ident, phraseology !== 'plain')}`.trim()
}

/** As FAA controllers say flight numbers: "Tidewick four twenty one" (JO 7110.65 2-4-20, looked up). */
export function sayCallsignGrouped(value: Value, spec: CallsignSpec): string {
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

export function showCallsign(value: Value): string {
  return String(value).trim().toUpperCase()
}
