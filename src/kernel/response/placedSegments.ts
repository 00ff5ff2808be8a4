/** A transmission as segments, one for each element: what was placed, in words that the element's own response has. */

import { shortChannel } from '../kinds/frequency.ts'
import type { Figures, KindSpec } from '../kinds/kind.ts'
import { type Token, tokensOf } from '../numbers/tokens.ts'
import { ownOf } from '../own.ts'
import { withCorrections } from './corrections.ts'
import { isOwnWord, WEAKLY_CORRECTING } from './lexemes.ts'
import { isNegation } from './lexicon.ts'
import { phraseStatesOf } from './phraseStates.ts'
import { type PlacePlan, placePlanOf } from './placePlan.ts'
import { placed } from './placing.ts'
import { elementOf, type Said } from './placingWays.ts'
import { allOf, type Response } from './response.ts'
import type { Segment } from './segments.ts'
import type { SpokenElement } from './spokenElement.ts'

interface Growing extends Segment {
  readonly tokens: Token[]
  readonly places: Set<number>
  /** Phrases of the response that were said. */
  readonly words: Set<string>
  hasCallSign: boolean
  /** Nothing was said of it that is not the response's. */
  isClear: boolean
}

export interface Transmitted {
  readonly elements: readonly SpokenElement[]
  readonly figures: Figures
  readonly tokens: readonly Token[]
  /** Elements said in an earlier breath. */
  readonly held: ReadonlySet<number>
  /** What goes without saying need not be said. */
  readonly isPlain: boolean
  /** The pilot's own call: what it may hold besides needs no name. */
  readonly isCall?: boolean
}

/** `stray` where a number is nobody's; undefined where nothing is certain. */
export function placedSegments(transmitted: Transmitted): readonly Segment[] | 'stray' | undefined {
  const { elements, figures, tokens, held, isPlain, isCall = false } = transmitted
  const responses = elements.map(({ response }) => response)
  const plan = placePlanOf(allOf(responses), figures, responses)
  const heldPlaces = plan.places.flatMap(({ element }, place) => (held.has(element) ? [place] : []))
  const said = placed(
    plan,
    withCorrections(tokens, (word) => isOwnWord(plan, word)),
    {
      held: new Set(heldPlaces),
      mayBeBare: isCall,
      isPlain,
      callSignLength: callSignLengthOf(plan, elements, figures),
    },
  )
  if (said === 'stray') return said
  if (!said?.some(({ type }) => type === 'value' || type === 'words')) return undefined
  const segments = segmentsFrom(plan, said)
  return isPlain ? segments.map((segment) => withImplied(responses[segment.element], segment)) : segments
}

const CORRECTION = { text: 'correction', canon: 'correction', number: undefined }
/** "Push and start, facing east" is approved, and "push and start, please" is a request, where nothing else is said of it. */
const IMPLIED = ['approved', 'request']

function withImplied(response: Response | undefined, segment: Growing): Segment {
  const { element, tokens, isClear, words } = segment
  const required = response?.paths[0]?.filter((slot) => slot.required && slot.type === 'word') ?? []
  const word = IMPLIED.find((one) => required.length > 1 && required.some(({ name }) => name === one))
  const ways = required.find(({ name }) => name === word)
  const isSaid =
    ways?.type === 'word' &&
    ways.wordings
      .flatMap((wording) => [wording.words, ...phraseStatesOf(wording.words).same])
      .some((way) => words.has(way.join(' ')))
  const last = tokens.at(-1)
  // A call is one only with the call sign.
  const isMeant = word !== 'request' || segment.hasCallSign
  if (word === undefined || isSaid || !isClear || !isMeant || words.size === 0 || !last) return segment
  return { element, tokens: [...tokens, { ...last, text: word, canon: word, number: undefined }] }
}

function callSignLengthOf({ callSign, places }: PlacePlan, elements: readonly SpokenElement[], figures: Figures) {
  const place = callSign === undefined ? undefined : places[callSign]
  const slots = place ? elements[place.element]?.response.paths.flat() : undefined
  const slot = slots?.find(({ name }) => name === place?.part)
  const value = slot?.type === 'figure' ? ownOf(figures, slot.figure)?.value : undefined
  return value === undefined ? undefined : (/\d+$/.exec(String(value))?.[0].length ?? undefined)
}

function segmentsFrom(plan: PlacePlan, said: readonly Said[]): readonly Growing[] {
  const segments: Growing[] = []
  const callSign = plan.callSign === undefined ? undefined : plan.places[plan.callSign]?.element
  let correction: Token | undefined
  let waiting: Token[] = []
  let last: Growing | undefined
  for (const [index, each] of said.entries()) {
    if (each.type === 'correction') {
      correction = each.token
      continue
    }
    const element = elementOf(plan, each)
    if (element === undefined) {
      if (each.type !== 'other') continue
      // Words after the call sign are about what comes next, and a denial perhaps about both.
      const isAfterCallSign = last !== undefined && last.element === callSign && plan.vocabularies.length > 1
      const isNext = isAfterCallSign || isBehindName(said[index + 1], each.token)
      if (last && !isNext) last.tokens.push(each.token)
      if (last && !isNext && !plan.vocabularies[last.element]?.has(each.token.text)) last.isClear = false
      if (!last || isNext || isNegation(each.token.text)) waiting.push(each.token)
      continue
    }
    const before = segments.findLast((one) => one.element === element)
    const isAgain = each.type === 'value' && before?.places.has(each.place) === true
    const opensAgain = each.type === 'words' && each.opens.some((place) => before?.places.has(place))
    const isSecond = correction === undefined && (isAgain || opensAgain)
    if (correction && !isAgain && each.type === 'value' && WEAKLY_CORRECTING.has(correction.text)) {
      last?.tokens.push(correction)
      waiting.push(correction)
      correction = undefined
    }
    const segment = before && !isSecond ? before : emptySegment(element)
    if (segment !== before) segments.push(segment)
    if (correction && segment.tokens.length > 0) {
      segment.tokens.push({ ...correction, ...CORRECTION })
      segment.places.clear()
    }
    correction = undefined
    if (waiting.some(({ text }) => !plan.vocabularies[element]?.has(text))) segment.isClear = false
    if (each.type === 'words') segment.words.add(each.tokens.map(({ text }) => text).join(' '))
    if (each.type === 'value' && each.place === plan.callSign) segment.hasCallSign = true
    segment.tokens.push(...wordsOf(plan, each, waiting, segment.tokens.length > 0))
    waiting = []
    last = segment
    if (each.type === 'value') segment.places.add(each.place)
  }
  last?.tokens.push(...waiting)
  return segments
}

const emptySegment = (element: number): Growing => ({
  ...{ element, tokens: [], places: new Set<number>(), words: new Set<string>(), hasCallSign: false, isClear: true },
})

/** Said after the name of the value that comes next: "squawk, about, four two seven one". */
const isBehindName = (next: Said | undefined, token: Token) =>
  next?.type === 'value' && next.names.some(([first]) => first !== undefined && first.start < token.start)

/** `waiting` are other words, which stay where they were said. */
function wordsOf(plan: PlacePlan, said: Said, waiting: readonly Token[], isMore: boolean): readonly Token[] {
  if (said.type !== 'value') return said.type === 'words' ? [...waiting, ...said.tokens] : []
  const place = plan.places[said.place]
  const vocabulary = plan.vocabularies[place?.element ?? -1]
  const own = said.names.filter((name) => name.every(({ text }) => vocabulary?.has(text)))
  const isNamed = own.some((name) => place?.label.every(({ text }, index) => name[index]?.text === text))
  const label = isNamed || !place || (!isMore && place.label.length === 0) ? [] : place.label
  const before = [...waiting, ...own.flat()].sort((one, other) => one.start - other.start)
  return [...label, ...before, ...inFull(said.tokens, place?.spec)]
}

/** A channel that was said short, as it is read. */
function inFull(tokens: readonly Token[], spec: KindSpec | undefined): readonly Token[] {
  const full = spec?.kind === 'frequency' ? shortChannel(tokens) : undefined
  const start = tokens[0]?.start ?? 0
  return full === undefined
    ? tokens
    : tokensOf(full).map((token) => ({ ...token, start: start + token.start, end: start + token.end }))
}
