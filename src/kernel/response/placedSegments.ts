/** A transmission as segments, one for each element: what was placed, in words that the element's own response has. */

import type { Figures } from '../kinds/kind.ts'
import type { Token } from '../numbers/tokens.ts'
import { ownOf } from '../own.ts'
import { type PlacePlan, placePlanOf } from './placePlan.ts'
import { withCorrections } from './corrections.ts'
import { isOwnWord, WEAKLY_CORRECTING } from './lexemes.ts'
import { elementOf, placed, type Said } from './placing.ts'
import { isNegation } from './lexicon.ts'
import { allOf, type Response } from './response.ts'
import type { Segment } from './segments.ts'
import type { SpokenElement } from './spokenElement.ts'

interface Growing extends Segment {
  readonly tokens: Token[]
  readonly places: Set<number>
}

/** `held` are the places of elements said in an earlier breath. Undefined where nothing is certain. */
export function placedSegments(
  elements: readonly SpokenElement[],
  figures: Figures,
  tokens: readonly Token[],
  held: ReadonlySet<number>,
  mayBeBare = false,
): readonly Segment[] | undefined {
  const responses = elements.map(({ response }) => response)
  const plan = placePlanOf(allOf(responses), figures, responses)
  const heldPlaces = plan.places.flatMap(({ element }, place) => (held.has(element) ? [place] : []))
  const said = placed(plan, withCorrections(tokens, (word) => isOwnWord(plan, word)), {
    ...{ held: new Set(heldPlaces), mayBeBare, callSignLength: callSignLengthOf(plan, elements, figures) },
  })
  if (!said?.some(({ type }) => type === 'value' || type === 'words')) return undefined
  return segmentsFrom(plan, said).map((segment) => approved(plan, responses[segment.element], segment))
}

const CORRECTION = { text: 'correction', canon: 'correction', number: undefined }
const APPROVED = 'approved'

/** "Push and start" is approved where nothing else is said of it. */
function approved({ vocabularies }: PlacePlan, response: Response | undefined, segment: Segment): Segment {
  const { element, tokens } = segment
  const required = response?.paths[0]?.filter((slot) => slot.required) ?? []
  const isOwed = required.some(({ type, name }) => type === 'word' && name === APPROVED) && required.length > 1
  const isPlain = tokens.every(({ text }) => text !== APPROVED && vocabularies[element]?.has(text))
  const last = tokens.at(-1)
  if (!isOwed || !isPlain || !last) return segment
  return { element, tokens: [...tokens, { ...last, text: APPROVED, canon: APPROVED, number: undefined }] }
}

function callSignLengthOf({ callSign, places }: PlacePlan, elements: readonly SpokenElement[], figures: Figures) {
  const place = callSign === undefined ? undefined : places[callSign]
  const slots = place ? elements[place.element]?.response.paths.flat() : undefined
  const slot = slots?.find(({ name }) => name === place?.part)
  const value = slot?.type === 'figure' ? ownOf(figures, slot.figure)?.value : undefined
  return value === undefined ? undefined : (/\d+$/.exec(String(value))?.[0].length ?? undefined)
}

function segmentsFrom(plan: PlacePlan, said: readonly Said[]): readonly Segment[] {
  const segments: Growing[] = []
  const callSign = plan.callSign === undefined ? undefined : plan.places[plan.callSign]?.element
  let correction: Token | undefined
  let waiting: Token[] = []
  for (const each of said) {
    const last = segments.at(-1)
    if (each.type === 'correction') {
      correction = each.token
      continue
    }
    const element = elementOf(plan, each)
    if (element === undefined) {
      if (each.type !== 'other') continue
      // Words after the call sign are about what comes next, and a denial perhaps about both.
      const isAfterCallSign = last?.element === callSign
      if (last && !isAfterCallSign) last.tokens.push(each.token)
      if (!last || isAfterCallSign || isNegation(each.token.text)) waiting.push(each.token)
      continue
    }
    const before = segments.findLast((one) => one.element === element)
    const isAgain = each.type === 'value' && before?.places.has(each.place) === true
    const isSecond =
      correction === undefined && (isAgain || (each.type === 'words' && each.opens && (before?.places.size ?? 0) > 0))
    if (correction && !isAgain && each.type === 'value' && WEAKLY_CORRECTING.has(correction.text)) {
      last?.tokens.push(correction)
      waiting.push(correction)
      correction = undefined
    }
    const segment = before && !isSecond ? before : { element, tokens: [], places: new Set<number>() }
    if (segment !== before) segments.push(segment)
    if (correction && segment.tokens.length > 0) {
      segment.tokens.push({ ...correction, ...CORRECTION })
      segment.places.clear()
    }
    correction = undefined
    segment.tokens.push(...waiting, ...wordsOf(plan, each, segment.tokens.length > 0))
    waiting = []
    if (each.type === 'value') segment.places.add(each.place)
  }
  segments.at(-1)?.tokens.push(...waiting)
  return segments
}

function wordsOf(plan: PlacePlan, said: Said, isMore: boolean): readonly Token[] {
  if (said.type !== 'value') return said.type === 'words' ? said.tokens : []
  const place = plan.places[said.place]
  const vocabulary = plan.vocabularies[place?.element ?? -1]
  const own = said.names.filter((name) => name.every(({ text }) => vocabulary?.has(text)))
  const isNamed = own.some((name) => place?.label.every(({ text }, index) => name[index]?.text === text))
  const label = isNamed || !place || (!isMore && place.label.length === 0) ? [] : place.label
  return [...own.flat(), ...label, ...said.tokens]
}
