/** Where the topics of a briefing are named in free talk, and whether what is said there is affirmed, denied or put right. */

import { LETTERS } from '../kinds/letters.ts'
import { isNumberToken, type Token } from '../numbers/tokens.ts'
import { isSaidAt } from './cues.ts'
import { HARMLESS, HESITATIONS, isNegation, isStateWord } from './lexicon.ts'
import type { Keyword } from './topicWords.ts'

export interface Mention extends Keyword {
  readonly from: number
  /** Where its own words are over. */
  readonly named: number
  /** Where the next words of a topic begin, or the words that deny this one. */
  readonly to: number
  readonly before: 'denied' | 'corrected' | undefined
  /** "Is wrong", "not briefed" comes after it. */
  readonly deniedAfter: boolean
}

type Begin = Keyword & Pick<Mention, 'from' | 'named'>

/** Mentions in their order. */
export function mentionsIn(keywords: readonly Keyword[], tokens: readonly Token[]): Mention[] {
  const all = ownMentions(beginsIn(keywords, tokens))
  const begins = all.filter((begin) => !isReason(tokens, begin, all))
  let spent = 0
  return begins.map((begin) => {
    const next = begins.find(({ from }) => from > begin.from)?.from ?? tokens.length
    const before = saidBefore(tokens, begin, spent)
    const denial = denialIn(tokens, begin, next)
    spent = denial?.end ?? spent
    return { ...begin, to: denial?.from ?? next, before, deniedAfter: denial !== undefined }
  })
}

function beginsIn(keywords: readonly Keyword[], tokens: readonly Token[]): Begin[] {
  const longestFirst = [...keywords].sort((a, b) => b.words.length - a.words.length)
  return tokens.flatMap((_, from) => {
    const here = longestFirst.filter(
      ({ words, isValue, own }) =>
        isSaidAt(words, isValue, tokens, from) && !isOther(words[0] ?? '', own, tokens[from - 1]?.text ?? ''),
    )
    // Of one topic the longest words.
    return here
      .filter((one, i) => here.findIndex(({ topic }) => topic === one.topic) === i)
      .map((keyword) => ({ ...keyword, from, named: from + keyword.words.length }))
  })
}

/** A flight level or an acceleration altitude is none of the levels that are asked for, unless they are. */
const isOther = (noun: string, own: ReadonlySet<string>, before: string) =>
  HEIGHTS.has(noun) && OTHER_HEIGHTS.has(before) && !own.has(before)
const HEIGHTS = new Set(['level', 'altitude', 'height'])
const OTHER_HEIGHTS = new Set(
  `flight acceleration transition decision safety safe sector minimum reduction retraction cleanup circuit pattern
  cruising cruise diversion failure out engine`.split(/\s+/),
)

/**
 * Words inside longer words of another topic name only that one: the V one of "stop below V one". Of a topic without
 * figures, words that overlap are one mention: "engine failure" and "failure after V one".
 */
function ownMentions(begins: readonly Begin[]): Begin[] {
  const isInside = (one: Begin) =>
    begins.some(
      (other) =>
        other.topic !== one.topic &&
        other.from <= one.from &&
        other.named >= one.named &&
        other.words.length > one.words.length,
    )
  const merged: Begin[] = []
  for (const begin of begins.filter((one) => !isInside(one))) {
    const last = merged.findLast(({ topic }) => topic === begin.topic)
    if (!last || begin.hasFigures || last.hasFigures || begin.from >= last.named) merged.push(begin)
    else merged[merged.indexOf(last)] = { ...last, named: Math.max(last.named, begin.named) }
  }
  return merged
}

const ARTICLES = new Set(['a', 'an', 'any', 'the', 'this', 'only'])
/** Before what is only a reason for something else: "we stop for fire or engine failure". */
const REASONS = new Set(['for', 'or', 'except', 'like'])
/** Where one of these stands between, "for" is not about it: "for anything, engine failure", "for you I call stop". */
const CLAUSE = new Set(
  `i we you it he she they is are was were be will would call calls stop stops go goes continue continues
  then any anything everything reason reasons that this correction and`.split(/\s+/),
)
/** In words: "fire, smoke, loss of control, engine failure". */
const LONGEST_LIST = 6

/** One of several reasons in talk of something else: named there, and not talked about. */
function isReason(tokens: readonly Token[], { from, named, hasFigures }: Begin, all: readonly Begin[]): boolean {
  if (hasFigures) return false
  if (tokens[named]?.text === 'or') return true
  let at = from - 1
  while (ARTICLES.has(tokens[at]?.text ?? '')) at--
  if (REASONS.has(tokens[at]?.text ?? '')) return true
  for (let back = at; back >= 0 && back >= from - LONGEST_LIST; back--) {
    const token = tokens[back] as Token
    if (token.text === 'for') return true
    const isNamed = all.some((other) => other.from <= back && back < other.named)
    if (isNamed || isNumberToken(token) || CLAUSE.has(token.text)) return false
  }
  return false
}

/** What a crew does with what it names, behind "not": "we will not use runway two four". */
const DOING = new Set(
  `use using used take taking fly flying do doing brief briefing cover covering discuss select selecting expect expecting
  plan planning need want depart departing going talk mention about include`.split(/\s+/),
)
const IF = new Set(['if', 'unless', 'when', 'whenever', 'until', 'case'])
const SKIPPING = new Set(['skip', 'skipping', 'omit', 'omitting', 'ignore', 'forget'])
/** May stand before the "not" of a condition: "if we do not have". */
const OF_A_CONDITION = new Set('we i you it do does did have has is are can could'.split(' '))

/** What was said right before the words, other than harmless ones and more of its own; not before `since`. */
function saidBefore(tokens: readonly Token[], { from, own }: Begin, since: number): Mention['before'] {
  for (let at = from - 1; at >= since; at--) {
    const { text, number } = tokens[at] as Token
    if (text === 'correction') return 'corrected'
    if (isNegation(text) || SKIPPING.has(text)) return isCondition(tokens, at) ? undefined : 'denied'
    const isBetween = own.has(text) || HARMLESS.has(text) || HESITATIONS.has(text) || DOING.has(text)
    if (number || !isBetween) return undefined
  }
  return undefined
}

function isCondition(tokens: readonly Token[], not: number): boolean {
  let at = not - 1
  while (OF_A_CONDITION.has(tokens[at]?.text ?? '')) at--
  return IF.has(tokens[at]?.text ?? '')
}

/** Between what is named and the words that deny it. */
const LINKING = new Set(
  `is are was were be been has have had will would should does do i we it it's that that's this still really actually
  briefing topic part value values speed speeds knots feet`.split(/\s+/),
)
const WRONG = new Set(['wrong', 'incorrect', 'invalid', 'false', 'skipped', 'omitted', 'unbriefed', 'negative'])
/** What is not so, or not done, behind "not" or "no". */
const OF_A_BRIEFING = new Set(
  `briefed brief briefing covered cover discussed discuss mentioned correct right true valid used needed required
  applicable planned`.split(/\s+/),
)

/** "Is wrong", "are not correct", "nothing" at the end: where it begins and ends. "Not" before the next topic is of that. */
function denialIn(
  tokens: readonly Token[],
  begin: Begin,
  next: number,
): { readonly from: number; readonly end: number } | undefined {
  const { named } = begin
  for (let at = named; at < next; at++) {
    const { text } = tokens[at] as Token
    const end = WRONG.has(text) ? at + 1 : isNegation(text) ? denialEnd(tokens, at, next) : undefined
    if (end !== undefined) return isAbout(tokens, begin, at) ? { from: linkedFrom(tokens, named, at), end } : undefined
  }
  return undefined
}

/** End of a denial by the negation at `not`; undefined where it says something else. */
function denialEnd(tokens: readonly Token[], not: number, next: number): number | undefined {
  for (let at = not + 1; at < next; at++) {
    const { text } = tokens[at] as Token
    if (OF_A_BRIEFING.has(text)) return at + 1
    if (text === 'correction') return at
    if (!HARMLESS.has(text) && !HESITATIONS.has(text) && !LINKING.has(text) && text !== 'yet') return undefined
  }
  return next === tokens.length ? next : undefined
}

const isLink = ({ text }: Token) => LINKING.has(text) || HESITATIONS.has(text)

/** Nothing but a value and linking words stands between what is named and what denies it. */
function isAbout(tokens: readonly Token[], { named, own, hasFigures }: Begin, at: number): boolean {
  const isValue = (token: Token) =>
    isNumberToken(token) || own.has(token.text) || isStateWord(token.text) || LETTERS.has(token.text)
  return tokens.slice(named, at).every((token) => isLink(token) || (hasFigures && isValue(token)))
}

function linkedFrom(tokens: readonly Token[], named: number, at: number): number {
  let from = at
  while (from > named && isLink(tokens[from - 1] as Token)) from--
  return from
}
