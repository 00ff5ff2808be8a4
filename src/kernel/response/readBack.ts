/**
 * A transmission of several elements read back in one breath. It is cut into segments, one for each element that was
 * said, and each is judged by itself; where that gives nothing clear, all are judged as one response. Where a segment
 * begins follows from wordings and kinds, never from values (law 2).
 */

import type { Specs } from '../kinds/kind.ts'
import { isNumberToken, type Token, type Transcript } from '../numbers/tokens.ts'
import { ownOf } from '../own.ts'
import { cuesOf } from './cues.ts'
import { judge, vetoed } from './judge.ts'
import { HARMLESS, HESITATIONS, opposites } from './lexicon.ts'
import type { Judgement, Part, TransmittedInput } from './model.ts'
import { withoutClearedMove } from './phraseStates.ts'
import { placedSegments } from './placedSegments.ts'
import { allOf, NOTHING, type Response } from './response.ts'
import { type Segment, segmentsOf } from './segments.ts'
import { isSpoiled } from './spoiled.ts'
import type { SpokenElement } from './spokenElement.ts'
import { strayIn } from './strays.ts'
import { withUnitLabels } from './unitLabels.ts'

export type ElementState = 'ok' | 'wrong' | 'missing'

/** What is said after the name of the station, where that comes first. */
export function withoutAddress<T extends Transcript>(heard: T, name: string): T {
  const address = name.split(' ')
  const isFirst = name !== '' && address.every((word, index) => heard.tokens[index]?.text === word)
  return isFirst ? { ...heard, tokens: heard.tokens.slice(address.length) } : heard
}

type Input = Omit<TransmittedInput, 'response'>

/** All elements as one response. */
export function wholeResponse(elements: readonly SpokenElement[]): Response {
  return allOf(elements.map(({ response }) => response))
}

/** Judges what was said of several elements, in their order or each with its own words. Never throws. */
export function judgeReadBack(elements: readonly SpokenElement[], input: Input): Judgement {
  const { alternatives: _, ...alone } = input
  const judgeTranscript = (heard: Transcript) => {
    const tokens = withUnitLabels(elements, input.figures, heard.tokens)
    return judgeOne(elements, { ...alone, heard: { ...heard, tokens } })
  }
  return vetoed(input, judgeTranscript(input.heard), judgeTranscript)
}

/** Of two moves at a runway, the one that was not cleared decides: it is a wrong one, and no question which is meant. */
function judgeOne(elements: readonly SpokenElement[], input: Input): Judgement {
  const judged = judgePlain(elements, input)
  if (judged.because !== 'twoValues') return judged
  const cleared = elements.flatMap(({ response }) => response.wordings.map((text) => text.split(' ')))
  const tokens = withoutClearedMove(cleared, input.heard.tokens)
  const other = tokens && judgePlain(elements, { ...input, heard: { ...input.heard, tokens } })
  return other?.verdict === 'negative' ? other : judged
}

function judgePlain(elements: readonly SpokenElement[], input: Input): Judgement {
  const judged = judgedPlaces(elements, input)
  if (judged !== 'stray' && judged?.every(isClear)) return merged(elements, judged, new Set(input.held))
  const cut = judgeCut(elements, input)
  const own = wordsOf(elements)
  const isDoubtful = judged !== undefined || isSpoiled(input.heard.tokens, (word) => own.has(word))
  return isDoubtful && cut.verdict === 'correct' ? doubted(cut) : cut
}

/** It says what was heard, for right or wrong. */
export const isClear = ({ verdict, because }: Judgement) =>
  verdict !== 'sayAgain' && verdict !== 'command' && because !== 'refused'
const doubted = ({ parts }: Judgement): Judgement => ({ verdict: 'sayAgain', because: 'notUnderstood', parts })

/** A number beside words that have none is another element's, or nobody's. */
function judgeElement(input: Input, response: Response, tokens: readonly Token[]): Judgement {
  const judgement = judge({ ...input, response, heard: { ...input.heard, tokens } })
  const hasStray =
    response.figures.length === 0 && tokens.some((token) => isNumberToken(token) && !response.words.has(token.canon))
  return hasStray && judgement.verdict === 'correct' ? doubted(judgement) : judgement
}

/** Where it is certain whose each value is: each element by what was said of it. */
function judgedPlaces(elements: readonly SpokenElement[], input: Input): readonly Judgement[] | 'stray' | undefined {
  const { figures, heard, phraseology = 'plain' } = input
  const held = heldElements(elements, input)
  if (isContrary(elements, heard.tokens)) return undefined
  const segments = placedSegments({ elements, figures, tokens: heard.tokens, held, isPlain: phraseology === 'plain' })
  if (segments === 'stray') return segments
  return segments?.flatMap(({ element, tokens }) => {
    const response = elements[element]?.response ?? NOTHING
    const judgement = judgeElement(input, response, tokens)
    return isHalfCallSign(response, figures, tokens, judgement) ? [] : [judgement]
  })
}

const wordsOf = (elements: readonly SpokenElement[]): ReadonlySet<string> =>
  new Set(elements.flatMap(({ response }) => [...response.words]))

const DIRECTIONS = new Set('on off in out up down left right'.split(' '))

/** "Push and stop": the contrary of a word of theirs, which is nobody's value. */
function isContrary(elements: readonly SpokenElement[], tokens: readonly Token[]): boolean {
  const own = wordsOf(elements)
  return tokens.some(
    ({ text }) => !own.has(text) && !DIRECTIONS.has(text) && [...opposites(text)].some((other) => own.has(other)),
  )
}

/** The flight number without its designator: understood, and no call sign. */
function isHalfCallSign(
  { figures }: Response,
  specs: Specs,
  [first]: readonly Token[],
  { verdict }: Judgement,
): boolean {
  const isCallSign = figures.every((name) => ownOf(specs, name)?.kind === 'callsign')
  return isCallSign && verdict === 'incomplete' && first?.number !== undefined
}

/** Cut where the words of an element begin; where that gives nothing clear, all as one response. */
function judgeCut(elements: readonly SpokenElement[], input: Input): Judgement {
  const judged = judgedSegments(elements, input)
  const held = new Set(input.held)
  const clear = judged.filter(({ verdict }) => verdict !== 'sayAgain' && verdict !== 'command')
  if (judged.length > 0 && clear.length === judged.length) return merged(elements, judged, held)
  const whole = judge({ ...input, response: wholeResponse(elements) })
  if (whole.verdict !== 'sayAgain') return whole
  const twice = judged.filter(({ because }) => because === 'twoValues')
  const isClear = twice.length > 0 && clear.length + twice.length === judged.length
  return isClear ? merged(elements, judged, held) : whole
}

/** Places of those whose every required part an earlier breath said. */
function heldElements(elements: readonly SpokenElement[], { held = [] }: Input): ReadonlySet<number> {
  const isHeld = (element: SpokenElement) => {
    const { required } = partNames(element)
    return required.size > 0 && [...required].every((name) => held.includes(name))
  }
  return new Set([...elements.keys()].filter((index) => isHeld(elements[index] as SpokenElement)))
}

/** Each segment judged by itself; one that is nobody's, as an answer to all that no other one is about. */
function judgedSegments(elements: readonly SpokenElement[], input: Input): Judgement[] {
  const held = heldElements(elements, input)
  const known = segmentsOf(cuesOf(elements, input.figures), input.heard.tokens, held)
  const named = new Set(known.map(({ element }) => element))
  const others = elements.filter((_, index) => !named.has(index))
  const unsaid = [...elements.keys()].filter((index) => !named.has(index) && !held.has(index))
  const segments = known.flatMap((segment) => parted(segment, elements, unsaid, input.figures))
  return segments.flatMap((segment): Judgement[] => {
    if (segment.element < 0 && isHarmless(segment)) return []
    const response = segment.element < 0 ? wholeResponse(others) : (elements[segment.element]?.response ?? NOTHING)
    const judgement = judgeElement(input, response, segment.tokens)
    return judgement.because === 'refused' ? [{ ...judgement, verdict: 'sayAgain' }] : [judgement]
  })
}

/** A segment without the number of another element that stands in it without words of its own, and that number. */
function parted(
  segment: Segment,
  elements: readonly SpokenElement[],
  unsaid: readonly number[],
  specs: Specs,
): readonly Segment[] {
  const responseOf = (index: number) => elements[index]?.response ?? NOTHING
  const { element, tokens } = segment
  const stray = element < 0 ? undefined : strayIn(responseOf(element), unsaid.map(responseOf), specs, tokens)
  if (!stray) return [segment]
  const [owner, ...more] = unsaid.filter((index) => stray.owners.includes(responseOf(index)))
  const rest = { element: owner === undefined || more.length > 0 ? -1 : owner, tokens: tokens.slice(stray.at) }
  const left = unsaid.filter((index) => index !== rest.element)
  return [{ element, tokens: tokens.slice(0, stray.at) }, ...parted(rest, elements, left, specs)]
}

const isHarmless = ({ tokens }: Segment) => tokens.every(({ text }) => HARMLESS.has(text) || HESITATIONS.has(text))

/** One judgement of all: wrong where a part of it is, right only where every required part is. */
function merged(
  elements: readonly SpokenElement[],
  judged: readonly Judgement[],
  held: ReadonlySet<string>,
): Judgement {
  const said = new Map<string, Part>()
  const twice = judged.filter(({ because }) => because === 'twoValues')
  for (const part of judged.flatMap((one) => (twice.includes(one) ? one.parts.map(asWrong) : one.parts))) {
    const before = said.get(part.name)
    if (!before || WEIGHT[part.state] > WEIGHT[before.state]) said.set(part.name, part)
    // Half of a value after all of it: nobody knows which of the two is meant.
    else if (before.state === 'ok' && part.state === 'missing' && part.heard !== undefined) said.set(part.name, part)
  }
  for (const { name, kind, required } of elements.flatMap(slotsOf)) {
    if (required && !said.has(name)) said.set(name, { name, kind, state: held.has(name) ? 'ok' : 'missing' })
  }
  const parts = [...said.values()]
  const wrong = judged.find(({ verdict }) => verdict === 'negative') ?? twice[0]
  if (wrong) return { verdict: 'negative', ...(wrong.because && { because: wrong.because }), parts }
  if (parts.every(({ state, doubtful }) => state === 'ok' && !doubtful)) return { verdict: 'correct', parts }
  return { verdict: 'incomplete', because: 'missing', parts }
}

const WEIGHT: Readonly<Record<Part['state'], number>> = { missing: 0, ok: 1, wrong: 2 }

/** Two values without "correction" between them: none of them was read back. */
const asWrong = (part: Part): Part => (part.heard === undefined ? part : { ...part, state: 'wrong' })

/** What a judgement says of each element: wrong where a part of it is, right only where all of it is. */
export function statesOf(
  elements: readonly SpokenElement[],
  { parts }: Judgement,
): Readonly<Record<string, ElementState>> {
  return Object.fromEntries(
    elements.map((element) => {
      const names = partNames(element)
      const own = parts.filter(({ name }) => names.all.has(name))
      const wrong = own.some(({ state }) => state === 'wrong')
      const right = [...names.required].every((name) => own.some((part) => part.name === name && part.state === 'ok'))
      const state = wrong ? 'wrong' : right && own.every((part) => part.state === 'ok') ? 'ok' : 'missing'
      return [element.id, state]
    }),
  )
}

/** Names of the parts that an element makes, and of those that must be said. */
export function partNames(element: SpokenElement): { all: ReadonlySet<string>; required: ReadonlySet<string> } {
  const slots = slotsOf(element)
  return {
    all: new Set(slots.map(({ name }) => name)),
    required: new Set(slots.filter(({ required }) => required).map(({ name }) => name)),
  }
}

function slotsOf({ response }: SpokenElement): { name: string; kind: Part['kind']; required: boolean }[] {
  return response.paths.flat().map(({ type, name, required }) => ({ name, kind: type, required }))
}
