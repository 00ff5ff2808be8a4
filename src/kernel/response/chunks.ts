/**
 * A transmission cut where the words of another element begin, or those of the same one again: each piece holds at most
 * one value of a part, so that a second value is a second piece. Which piece is whose follows from wordings and kinds.
 */

import { isLittle, isNumberToken, type Token } from '../numbers/tokens.ts'
import type { Anchor, Landmarks, Owner } from './anchors.ts'
import { HARMLESS } from './lexicon.ts'

export interface Chunk {
  /** Place of its element; -1 for what stands before any element's own words. */
  readonly element: number
  readonly tokens: readonly Token[]
}

interface Cut {
  readonly element: number
  readonly tokens: Token[]
  /** What was said since the last correction, and which parts had their own words in it, or their value by its name. */
  readonly since: number
  readonly parts: Set<string>
}

/** `held` are the places of elements that an earlier breath said. */
export function chunksOf(landmarks: Landmarks, tokens: readonly Token[], held: ReadonlySet<number>): Chunk[] {
  let cuts: Cut[] = [{ element: -1, tokens: [], since: 0, parts: new Set() }]
  // "Correction", and little words behind it, until it is known what they go with.
  let waiting: Token[] = []
  for (let at = 0; at < tokens.length; ) {
    const token = tokens[at] as Token
    const isCorrecting = waiting.length > 0
    const anchor =
      token.text === 'correction'
        ? undefined
        : (anchorAt(landmarks, tokens, at, cuts.at(-1)) ?? placeAt(landmarks, tokens, at, cuts, held))
    if (token.text === 'correction' || (isCorrecting && !anchor && HARMLESS.has(token.text))) {
      waiting.push(token)
      at += 1
      continue
    }
    const own = tokens.slice(at, at + (anchor?.words.length ?? 1))
    const owner = anchor && ownerOf(anchor.owners, cuts, held, isCorrecting)
    if (owner) cuts = withOwned(landmarks, cuts, owner, waiting, own)
    // A correction without words of an element's own is one of what was said right before.
    else cuts.at(-1)?.tokens.push(...waiting, ...own)
    waiting = []
    at += own.length
  }
  cuts.at(-1)?.tokens.push(...waiting)
  return cuts.filter((cut) => cut.tokens.length > 0)
}

/** The longest anchor that begins here, unless it goes on with the value under way. */
function anchorAt({ anchors, joints }: Landmarks, tokens: readonly Token[], at: number, last: Cut | undefined) {
  const anchor = anchors.find(({ words }) => words.every((word, i) => tokens[at + i]?.text === word))
  return anchor?.words.length === 1 && joints[last?.element ?? -1]?.has(anchor.words[0] ?? '') ? undefined : anchor
}

/** "At" before a letter, behind the number of another element, begins a place that was not said yet. */
function placeAt(
  { places, joints }: Landmarks,
  tokens: readonly Token[],
  at: number,
  cuts: readonly Cut[],
  held: ReadonlySet<number>,
): Anchor | undefined {
  const last = cuts.at(-1)
  if (tokens[at]?.text !== 'at' || !last || !hasNumber(last) || joints[last.element]?.has('at')) return undefined
  const element = places.findIndex(
    (letters, one) =>
      letters?.has(tokens[at + 1]?.text ?? '') && !held.has(one) && !cuts.some((cut) => cut.element === one),
  )
  return element < 0 ? undefined : { words: ['at'], owners: [{ element, part: 'at', begins: true, isValue: false }] }
}

function withOwned(
  { leads }: Landmarks,
  cuts: readonly Cut[],
  { element, part: name, isValue }: Owner,
  waiting: readonly Token[],
  own: readonly Token[],
): Cut[] {
  const part = isValue ? `${name} ${NAMED}` : name
  const before = cuts.filter((cut) => cut.element === element)
  if (waiting.length > 0 && before.length > 0) {
    // The correction goes with all that it may replace.
    const said = before.flatMap((cut) => cut.tokens)
    const cut = { element, tokens: [...said, ...waiting, ...own], since: said.length, parts: new Set([part]) }
    return [...cuts.filter((one) => one.element !== element), cut]
  }
  const last = cuts.at(-1)
  if (last?.element === element) {
    const isSaid = last.parts.has(part) && (isValue || hasNumber(last) || last.parts.has(`${name} ${NAMED}`))
    if (!isSaid) {
      last.tokens.push(...own)
      last.parts.add(part)
      return [...cuts]
    }
  }
  // "To" right before them is theirs where they have one, and not a digit of what was said before.
  const led =
    waiting.length === 0 && isLittle(last?.tokens.at(-1)) && leads[element]?.has(last?.tokens.at(-1)?.text ?? '')
  const lead = led ? [last?.tokens.pop() as Token] : waiting.slice(1)
  return [...cuts, { element, tokens: [...lead, ...own], since: 0, parts: new Set([part]) }]
}

/** Beside the name of a part whose value was said by one of its names. */
const NAMED = 'named'

const hasNumber = ({ tokens, since }: Cut) => tokens.slice(since).some(isNumberToken)

/** Whose words these are, where several elements have them ("runway"). */
function ownerOf(
  owners: readonly Owner[],
  cuts: readonly Cut[],
  held: ReadonlySet<number>,
  again: boolean,
): Owner | undefined {
  const last = cuts.at(-1)
  const underWay = owners.find(({ element }) => element === last?.element)
  if (underWay && (again || !hasNumber(last as Cut))) return underWay
  const said = (owner: Owner) => cuts.some(({ element }) => element === owner.element)
  if (again) {
    const latest = cuts.findLast(({ element }) => owners.some((owner) => owner.element === element))
    if (latest) return owners.find(({ element }) => element === latest.element)
  }
  // A second value of an element that these words begin, before a half of one that needs other words to begin.
  const choices = [
    (owner: Owner) => owner.begins && !held.has(owner.element) && !said(owner),
    (owner: Owner) => owner.begins && !held.has(owner.element),
    (owner: Owner) => !held.has(owner.element) && !said(owner),
    (owner: Owner) => owner.begins,
  ]
  for (const fits of choices) {
    const owner = owners.find(fits)
    if (owner) return owner
  }
  return owners[0]
}
