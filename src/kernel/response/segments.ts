/**
 * A transmission cut into segments: each begins where the words of another element do, or those of the same one again, and
 * holds at most one value of a part, so that a second value is a second segment. Which segment is whose follows from
 * wordings and kinds.
 */

import { isHomophone, isLittle, isNumberToken, type Token } from '../numbers/tokens.ts'
import { isSound, readRun } from './assign.ts'
import { type Cue, type CueOwner, type Cues, cueAt, isLittleWord } from './cues.ts'
import { HARMLESS } from './lexicon.ts'

export interface Segment {
  /** Place of its element; -1 for what stands before any element's own words. */
  readonly element: number
  readonly tokens: readonly Token[]
}

interface Cut extends Segment {
  readonly tokens: Token[]
  /** What was said since the last correction, and which parts had their own words in it, or their value by its name. */
  readonly since: number
  readonly parts: Set<string>
}

/** `held` are the places of elements that an earlier breath said. */
export function segmentsOf(cues: Cues, tokens: readonly Token[], held: ReadonlySet<number>): Segment[] {
  let cuts: Cut[] = [{ element: -1, tokens: [], since: 0, parts: new Set() }]
  // "Correction", and little words behind it, until it is known what they go with.
  let waiting: Token[] = []
  for (let at = 0; at < tokens.length; ) {
    const token = tokens[at] as Token
    const isCorrecting = waiting.length > 0
    const cue =
      token.text === 'correction'
        ? undefined
        : (nextCue(cues, tokens, at, cuts.at(-1)) ?? placeCue(cues, tokens, at, cuts, held))
    if (token.text === 'correction' || (isCorrecting && !cue && HARMLESS.has(token.text))) {
      waiting.push(token)
      at += 1
      continue
    }
    const own = tokens.slice(at, at + (cue?.words.length ?? 1))
    at += own.length
    const owner = cue && ownerOf(likelyOwners(cues, cue, tokens, at), cuts, held, isCorrecting)
    if (owner) cuts = withOwned(cues, cuts, owner, waiting, own)
    // A correction without words of an element's own is one of what was said right before.
    else cuts.at(-1)?.tokens.push(...waiting, ...own)
    waiting = []
  }
  cuts.at(-1)?.tokens.push(...waiting)
  return cuts.filter((cut) => cut.tokens.length > 0)
}

/** The longest cue that begins here, unless it goes on with the value under way. */
function nextCue(cues: Cues, tokens: readonly Token[], at: number, last: Cut | undefined): Cue | undefined {
  const cue = cueAt(cues, tokens, at)
  return cue?.words.length === 1 && cues.joints[last?.element ?? -1]?.has(cue.words[0] ?? '') ? undefined : cue
}

/** "At" before a letter, behind the number of another element, begins a place that was not said yet. */
function placeCue(
  { places, joints }: Cues,
  tokens: readonly Token[],
  at: number,
  cuts: readonly Cut[],
  held: ReadonlySet<number>,
): Cue | undefined {
  const last = cuts.at(-1)
  if (tokens[at]?.text !== 'at' || !last || !hasNumber(last) || joints[last.element]?.has('at')) return undefined
  const element = places.findIndex(
    (letters, one) =>
      letters?.has(tokens[at + 1]?.text ?? '') && !held.has(one) && !cuts.some((cut) => cut.element === one),
  )
  if (element < 0) return undefined
  const owner = { element, part: 'at', spec: undefined, begins: true, isValue: false, isImplied: false }
  return { words: ['at'], isValue: false, owners: [owner] }
}

/**
 * Of elements that have the same words, those with which the next ones go on: another cue of theirs, or a number that
 * is one of their values. All, where neither tells them apart.
 */
function likelyOwners(cues: Cues, cue: Cue, tokens: readonly Token[], end: number): readonly CueOwner[] {
  if (cue.owners.length === 1) return cue.owners
  const next = cueAt(cues, tokens, end)
  const likely = next
    ? cue.owners.filter(({ element }) => next.owners.some((owner) => owner.element === element))
    : ownersOfNumber(cue.owners, numberFrom(tokens, end))
  return likely.length > 0 ? likely : cue.owners
}

/** The first number after little words. */
function numberFrom(tokens: readonly Token[], from: number): readonly Token[] {
  let begin = from
  while (begin < tokens.length && isBefore(tokens[begin] as Token)) begin++
  let end = begin
  while (end < tokens.length && isPartOfNumber(tokens[end] as Token)) end++
  return tokens.slice(begin, end)
}

const isPartOfNumber = (token: Token) => isNumberToken(token) || isHomophone(token)
const isBefore = (token: Token) => !isNumberToken(token) && (HARMLESS.has(token.text) || isLittleWord(token.text))

function ownersOfNumber(owners: readonly CueOwner[], number: readonly Token[]): readonly CueOwner[] {
  if (number.length === 0) return []
  const run = { type: 'run', tokens: number, looseHead: false, looseTail: false } as const
  return owners.filter(({ spec }) => spec && readRun(run, spec).some((reading) => isSound(reading, spec)))
}

function withOwned(
  { leads }: Cues,
  cuts: readonly Cut[],
  { element, part: name, isValue }: CueOwner,
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
  owners: readonly CueOwner[],
  cuts: readonly Cut[],
  held: ReadonlySet<number>,
  again: boolean,
): CueOwner | undefined {
  const last = cuts.at(-1)
  const underWay = owners.find(({ element }) => element === last?.element)
  if (underWay && (again || !underWay.spec || !hasNumber(last as Cut))) return underWay
  const said = (owner: CueOwner) => cuts.some(({ element }) => element === owner.element)
  if (again) {
    const latest = cuts.findLast(({ element }) => owners.some((owner) => owner.element === element))
    if (latest) return owners.find(({ element }) => element === latest.element)
  }
  // A second value of an element that these words begin, before a half of one that needs other words to begin.
  const choices = [
    (owner: CueOwner) => owner.begins && !held.has(owner.element) && !said(owner),
    (owner: CueOwner) => owner.begins && !held.has(owner.element),
    (owner: CueOwner) => !held.has(owner.element) && !said(owner),
    (owner: CueOwner) => owner.begins,
  ]
  for (const fits of choices) {
    const owner = owners.find(fits)
    if (owner) return owner
  }
  return owners[0]
}
