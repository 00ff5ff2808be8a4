/**
 * The answer on paper -> the response in the notation, with the states that it could be in. What goes beyond the text is a
 * doubt, told to the author; a value is never taken from anywhere but the text.
 */

import { isNumberWord } from '../../kernel/numbers/words.ts'
import { quoted } from '../../kernel/quoted.ts'
import { CONFIRMATIONS, isStateWord, statesBeside } from '../../kernel/response/lexicon.ts'
import { parseResponse } from '../../kernel/response/response.ts'
import { tooManyWays } from '../responseBounds.ts'
import { ANSWER_WORDS, ASKS_FOR_VALUE, NAMES_SAID, SHORT_FORMS, SPELLED } from './answerWords.ts'
import { BLANK } from './cells.ts'
import { isOrOfLimit } from './limits.ts'
import { withUnitTokens } from './unitTokens.ts'
import type { Wanted } from './valueKind.ts'
import { type ReadValue, valueAt } from './values.ts'

export interface Answer {
  readonly say: string
  readonly states: readonly (readonly string[])[]
  readonly doubts: readonly string[]
}

export interface Asking {
  /** As it is spoken. */
  readonly challenge: string
  /** The unit of weights in this text. */
  readonly weight: 'kg' | 'lb'
  /** Declares the value and gives back its name, with what is in doubt about it. */
  readonly declare: (wanted: Wanted) => { readonly name: string; readonly doubts: readonly string[] }
}

const AS_REQUIRED = [
  'as required',
  'as req',
  "as req'd",
  'as reqd',
  'as rqrd',
  'as appropriate',
  'as desired',
  'as needed',
  'as necessary',
  'if required',
  'a/r',
  'as applicable',
  'as briefed',
]

/** Answers that hold no state, and whose opposite nobody would say. */
const NOT_TURNED = new Set(['both', 'none', 'neither', 'first', 'second', 'third', 'full', 'run', 'start', 'correct'])

export function answerOf(written: string, asking: Asking): Answer {
  const doubts: string[] = []
  const { text, asides } = withoutAsides(withUnitTokens(written))
  for (const aside of asides) doubts.push(`"(${aside})" is not said here; if it should be, write it into the response`)
  const low = text.toLowerCase()
  if (AS_REQUIRED.some((one) => ` ${low} `.includes(` ${one} `))) {
    doubts.push(
      `${quoted(text)} is no answer that can be checked: write the states that may be said (on | off), or cases with when`,
    )
    const words = low
      .split(' ')
      .map((word) => word.replace(/[^a-z' ]/g, '').replace(/^(req|req'd|reqd|rqrd)$/, 'required'))
      .filter(Boolean)
    return { say: usable(words.join(' '), words, doubts), states: [], doubts }
  }
  const unknown: string[] = []
  const parts = partsOf(text.replace(/(\d) - (?=\d)/g, '$1-'), doubts)
  const said = parts.map((part) => ({ joint: part.joint, ...partSaid(part.text, asking, doubts, unknown) }))
  if (unknown.length > 0)
    doubts.push(`${unknown.length > 4 ? 'are these words' : `is ${unknown.map(quoted).join(', ')}`} what is said?`)
  const kept = said.filter(({ say }) => say !== '')
  const say = usable(
    joined(kept),
    kept.flatMap(({ words }) => words),
    doubts,
  )
  const plain = kept.filter(({ words }) => isPlainState(words, asking.challenge))
  return {
    say,
    states: statesOf(
      plain.flatMap(({ words }) => words),
      asking.challenge,
    ),
    doubts: [...new Set(doubts)],
  }
}

/** Without what stands in brackets, tick boxes and the full stop at the end. */
function withoutAsides(written: string): { readonly text: string; readonly asides: readonly string[] } {
  const asides: string[] = []
  let text = ''
  let inside: string | undefined
  for (const sign of written) {
    if (inside === undefined && (sign === '(' || sign === '[')) inside = ''
    else if (inside !== undefined && (sign === ')' || sign === ']')) {
      const aside = inside.trim()
      if (aside.includes(BLANK) || /^(value|reading|figure|x+(\.x+)?)$/i.test(aside))
        text += ` ${aside.includes(BLANK) ? aside : BLANK} `
      else if (aside !== '' && !/^[x ]$/i.test(aside)) asides.push(aside)
      inside = undefined
    } else if (inside !== undefined) inside += sign
    else text += sign === '☐' || sign === ')' || sign === ']' ? ' ' : sign
  }
  if (inside !== undefined) text += ` ${inside}`
  const tidy = text.split(' ').filter(Boolean).join(' ')
  return { text: tidy.endsWith('.') && !tidy.endsWith('..') ? tidy.slice(0, -1) : tidy, asides }
}

type Joint = 'and' | 'or'
interface PartText {
  readonly text: string
  /** How it hangs on the one before. */
  readonly joint: Joint
}

/** At commas, "or" and slashes. */
function partsOf(text: string, doubts: string[]): PartText[] {
  const parts: { text: string; joint: Joint; isComma: boolean }[] = []
  let [joint, isComma]: [Joint, boolean] = ['and', false]
  let words: string[] = []
  const close = (next: Joint, atComma = false) => {
    if (words.length > 0) parts.push({ text: words.join(' '), joint, isComma })
    words = []
    joint = next
    isComma = atComma
  }
  const slash = (before: string, after: string) => {
    const [one, other] = [before.toLowerCase(), after.toLowerCase()]
    const exclude = statesBeside(one)
      .slice(1)
      .some((state) => state.includes(other))
    if (exclude)
      doubts.push(
        `${quoted(`${before} / ${after}`)}: which of them is right, and when? Either is taken; write the one, or cases with when`,
      )
    else
      doubts.push(
        `${quoted(`${before} / ${after}`)}: are both said? Both are asked for; where either is right, put | between them`,
      )
    close(exclude ? 'or' : 'and')
  }
  const all = spaced(text).split(' ').filter(Boolean)
  for (const [index, word] of all.entries()) {
    if (word === ',' || word === ';') close('and', true)
    else if (word === '/') {
      if (words.length > 0) slash(words.at(-1) ?? '', all[index + 1] ?? '')
    } else if (word.toLowerCase() === 'or' && words.length > 0 && !isOrOfLimit(all[index + 1] ?? '')) close('or')
    else words.push(word === '&' || word === '+' ? 'and' : word)
  }
  close('and')
  // "1, 2 or 3": the commas are "or" too.
  for (let at = parts.length - 2; at > 0; at--) {
    const part = parts[at]
    if (part?.isComma && parts[at + 1]?.joint === 'or') part.joint = 'or'
  }
  return parts
}

/** Commas and slashes between words set apart; those inside numbers and short forms stay. */
function spaced(text: string): string {
  return text
    .split(' ')
    .map((token) =>
      SHORT_FORMS.has(token.toLowerCase())
        ? token
        : [...token].map((sign, index) => apart(token, sign, index)).join(''),
    )
    .join(' ')
}

function apart(token: string, sign: string, index: number): string {
  if (!',;/&'.includes(sign)) return sign
  const isInNumber = sign === ',' && /\d/.test(token[index - 1] ?? '') && /\d/.test(token[index + 1] ?? '')
  return isInNumber ? sign : ` ${sign} `
}

/** Before a value: what to do with it, and no word of the answer. */
const LOOKED_AT = new Set(['check', 'chk', 'verify', 'ensure', 'confirm', 'observe', 'read', 'note'])

interface Said {
  readonly say: string
  /** Its words without values. */
  readonly words: readonly string[]
}

function partSaid(text: string, asking: Asking, doubts: string[], unknown: string[]): Said {
  const tokens = text.split(' ').filter(Boolean)
  const made: string[] = []
  const words: string[] = []
  const context = [...asking.challenge.toLowerCase().split(/[ ,]+/), ...tokens.map((token) => token.toLowerCase())]
  for (let at = 0; at < tokens.length; ) {
    const value = valueAt(tokens, at, { ...asking, context })
    if (value) {
      made.push(sayValue(value, asking, doubts))
      if (!value.wanted) words.push(value.say)
      at = value.end
      continue
    }
    const word = (tokens[at] ?? '').toLowerCase()
    if ((LOOKED_AT.has(word) || word === 'set') && valueAt(tokens, at + 1, { ...asking, context })?.wanted) {
      if (word === 'set') made.push('[set]')
      at++
      continue
    }
    const said = wordSaid(tokens[at] ?? '', asking, doubts, unknown)
    if (said !== '') {
      made.push(said)
      words.push(...said.split(' '))
    }
    at++
  }
  return { say: made.join(' '), words }
}

function sayValue({ say, wanted, isLimit }: ReadValue, { declare }: Asking, doubts: string[]): string {
  if (!wanted) return say
  const declared = declare(wanted)
  doubts.push(...declared.doubts)
  if (isLimit)
    doubts.push(
      'a limit is filled in here, which a draft cannot compare with: the value itself is asked for; where the limit is the same each time, write accept: {min, max}',
    )
  return say.replace('<>', `<${declared.name}>`)
}

/** One word of the notation. */
function wordSaid(token: string, { challenge }: Asking, doubts: string[], unknown: string[]): string {
  const low = token.toLowerCase()
  const name = NAMES_SAID.get(low)
  if (name !== undefined) return name
  const short = SHORT_FORMS.get(low.replace(/\.$/, ''))
  if (short !== undefined) doubts.push(`${quoted(token)} is said ${quoted(short)}`)
  const word = (short ?? low).replace(/[^\p{L}\p{N}'’ -]/gu, '')
  const bare = word.replace(/^[-'’]+|[-'’]+$/g, '')
  if (bare === '') {
    if (token !== '-' && token !== '') doubts.push(`${quoted(token)} cannot be said and is left out`)
    return ''
  }
  if (ASKS_FOR_VALUE.has(bare))
    doubts.push(`${quoted(token)}: is a value said here? Declare it in figures.yaml and write <its name>`)
  else if (SPELLED.has(bare)) return [...bare].join(' ')
  else if (!isKnown(bare, challenge)) unknown.push(token)
  return bare
}

function isKnown(word: string, challenge: string): boolean {
  if (isStateWord(word) || CONFIRMATIONS.has(word) || ANSWER_WORDS.has(word) || isNumberWord(word)) return true
  const asked = challenge.toLowerCase().split(/[ ,]+/)
  return asked.includes(word) || asked.includes(`${word}s`)
}

function joined(parts: readonly { readonly say: string; readonly joint: Joint }[]): string {
  if (parts.length === 1) return parts[0]?.say ?? ''
  const groups: string[][] = []
  for (const { say, joint } of parts) {
    const last = groups.at(-1)
    if (joint === 'or' && last) last.push(say)
    else groups.push([say])
  }
  if (groups.length === 1) return (groups[0] ?? []).join(' | ')
  return groups
    .map((group) => (group.length === 1 && group[0]?.startsWith('<') ? group[0] : `(${group.join(' | ')})`))
    .join(' ')
}

/** Something that parses, whatever was written. */
function usable(say: string, words: readonly string[], doubts: string[]): string {
  const parsed = parseResponse(say)
  if (say !== '' && 'response' in parsed && tooManyWays(parsed.response.tree) === undefined && say.length < 500)
    return say
  doubts.push(
    words.length === 0
      ? 'the paper gives no answer; "checked" stands for it'
      : 'this answer cannot be read; write it anew',
  )
  return words.slice(0, 20).join(' ') || 'checked'
}

/**
 * Whether the state is all that is said of the thing: "both on". Beside other words a state that is listed would be taken for
 * the whole of it: "idle" for "idle cutoff", "armed" for "not armed".
 */
function isPlainState(words: readonly string[], challenge: string): boolean {
  const asked = challenge.toLowerCase().split(/[ ,]+/)
  const isBeside = (word: string) => word === 'and' || asked.includes(word)
  const others = words.filter((word) => !isBeside(word))
  return others.every(isStateWord) && (others.length <= 1 || words.includes('and'))
}

/** Of each word that is a state, all that the thing can be in. */
function statesOf(words: readonly string[], challenge: string): string[][] {
  const isBrake = /\bbrakes?\b/i.test(challenge)
  const states: string[][] = []
  const taken = new Set<string>()
  const told = words.filter(
    (word) => (!CONFIRMATIONS.has(word) || (word === 'set' && isBrake)) && !NOT_TURNED.has(word),
  )
  const named = told.filter((word) => statesBeside(word).length > 0)
  // Sides only say where, if something else says how it is.
  const sides = new Set(['left', 'right', 'center', 'centre', 'neutral', 'port', 'starboard', 'forward', 'aft'])
  const how = named.some((word) => !sides.has(word)) ? named.filter((word) => !sides.has(word)) : named
  for (const word of how) {
    for (const state of statesBeside(word)) {
      const fresh = state.filter((one) => !taken.has(one))
      for (const one of fresh) taken.add(one)
      if (fresh.length > 0) states.push(fresh)
    }
  }
  return states.length > 1 ? states : []
}
