/**
 * What was said -> what fills each slot of a frame. A label takes the number after it, other numbers go to the figures in
 * their order; "correction" replaces. Form decides and never a value: the figures' values are not here, so a number fills
 * the same slot whether it is right or wrong (law 2).
 */

import type { Reading } from '../kinds/reading.ts'
import type { Token } from '../numbers/tokens.ts'
import { attachDirections } from './attach.ts'
import type { Frame } from './frame.ts'
import type { KnownPhrase } from './framePhrases.ts'
import { isNegation, isStateWord } from './lexicon.ts'
import type { Because } from './model.ts'
import { withLabelsBefore, withLateLabel } from './postLabels.ts'
import { type Weighed, withoutRemarks } from './remarks.ts'
import { ALL, isSide, SIDES } from './remarkWords.ts'
import { splitRun } from './runs.ts'
import { type Atom, type PhraseAtom, type RunAtom, scanAll } from './scan.ts'
import { type RunContext, slotOfName, slotsCorrected, slotsFor, swapped } from './slots.ts'

/** A value said for a figure. */
export interface ValueFiller {
  readonly tokens: readonly Token[]
  readonly readings: readonly Reading[]
  /** "Not" stood before it. */
  readonly negated: boolean
}

/** Words said for a part that is words. */
export interface WordFiller {
  readonly tokens: readonly Token[]
  /** The part's own wording, or another state. */
  readonly own: boolean
  /** In the very words of the response. */
  readonly literal: boolean
}

export interface Filled {
  /** By the place of the slot in the path. */
  readonly figures: ReadonlyMap<number, readonly ValueFiller[]>
  /** The same for words; -1 for a state of the item that no slot has. */
  readonly words: ReadonlyMap<number, readonly WordFiller[]>
  /** Why the answer cannot be placed, if it cannot. */
  readonly doubt: Because | undefined
  /** Words that are nobody's were let through. */
  readonly beside: boolean
  /** Something that was said beside it may speak against it. */
  readonly unknown: boolean
  /** A word beside it is not known to be harmless. */
  readonly unheard: boolean
  /** Only one of two was named, where both are asked for. */
  readonly partial: boolean
  /** Each of two was said to be in another state. */
  readonly mixed: boolean
  /** Words of a command stood in it. */
  readonly commanded: boolean
  /** Parts came in the response's order. */
  readonly inOrder: boolean
  /** Slots whose label was said. */
  readonly labelled: ReadonlySet<number>
}

/** The same while it is being made. */
interface Filling extends Filled {
  readonly frame: Frame
  readonly figures: Map<number, ValueFiller[]>
  readonly words: Map<number, WordFiller[]>
  /** Slot -> the attempt in which it was said last. */
  readonly attemptOf: Map<number, number>
  readonly said: number[]
  readonly labelled: Set<number>
  /** Slots of which another state was denied: "main, no cross feed". */
  readonly denied: number[]
  doubt: Because | undefined
  beside: boolean
  unknown: boolean
  unheard: boolean
  partial: boolean
  mixed: boolean
  commanded: boolean
}

/** `attempts` stand before, between and after words of correction; `held` are parts that an earlier breath said. */
export function fillSlots(frame: Frame, attempts: readonly (readonly Token[])[], held: ReadonlySet<string>): Filled {
  const filling: Filling = {
    frame,
    figures: new Map(),
    words: new Map(),
    attemptOf: new Map(),
    said: [],
    labelled: new Set(),
    denied: [],
    doubt: undefined,
    beside: false,
    unknown: false,
    unheard: false,
    partial: false,
    mixed: false,
    commanded: false,
    inOrder: true,
  }
  let said: readonly Token[] = []
  const all: Weighed[] = []
  for (const [index, tokens] of attempts.entries()) {
    const weighed = withoutRemarks(frame, withLateLabel(scanAll(frame, tokens)))
    // Where nothing was understood of what was taken back, the answer begins anew.
    const isNew = index === 0 || (said.length > 0 && filling.attemptOf.size === 0)
    fillFromAttempt(filling, withLabelsBefore(attachDirections(frame, weighed.atoms)), index, held, isNew)
    said = weighed.said
    all.push(weighed)
  }
  // What was said beside an attempt of which nothing stands fell with it.
  const standing = new Set([attempts.length - 1, ...filling.attemptOf.values()])
  for (const [index, { beside, doubt, unheard, partial, mixed }] of all.entries()) {
    filling.beside ||= beside
    if (!standing.has(index)) continue
    filling.unknown ||= doubt
    filling.unheard ||= unheard
    filling.partial ||= partial
    filling.mixed ||= mixed
  }
  if (attempts.length === 1) fillFromBags(filling, said, held)
  const { denied } = filling
  if (denied.some((slot) => !filling.words.get(slot)?.some(({ own }) => own))) filling.doubt ??= 'ambiguous'
  return { ...filling, inOrder: isSorted(filling.said) }
}

const isSorted = (slots: readonly number[]) =>
  slots.every((slot, index) => index === 0 || (slots[index - 1] ?? 0) <= slot)

/** How far the reading of one attempt has come. */
interface Progress {
  readonly attempt: number
  readonly held: ReadonlySet<string>
  /** Figure whose label was said last, until its number comes. */
  label: number | undefined
  not: Token | undefined
  /** Something was said; in an attempt after a correction, something that it replaces. */
  begun: boolean
  /** Which figure comes next. */
  place: number
}

function fillFromAttempt(
  filling: Filling,
  atoms: readonly Atom[],
  attempt: number,
  held: ReadonlySet<string>,
  begun: boolean,
): void {
  const progress: Progress = { attempt, held, label: undefined, not: undefined, begun, place: 0 }
  for (const [index, atom] of atoms.entries()) fillFromAtom(filling, progress, atom, atoms.slice(index + 1))
  if (progress.not) filling.doubt ??= 'ambiguous'
  if (!progress.begun) filling.doubt ??= 'notUnderstood'
}

function fillFromAtom(filling: Filling, progress: Progress, atom: Atom, ahead: readonly Atom[]): void {
  switch (atom.type) {
    case 'unknown':
    case 'harmless':
      return
    case 'refusal':
      filling.doubt ??= 'ambiguous'
      return
    case 'command':
      filling.commanded = true
      return
    case 'not':
      if (progress.not) filling.doubt ??= 'ambiguous'
      progress.not = atom.token
      return
    case 'phrase':
      if (!fillFromPhrase(filling, progress, atom)) return
      break
    case 'run':
      fillFromRun(filling, progress, atom, ahead)
      progress.label = undefined
  }
  progress.not = undefined
  progress.begun = true
}

/** False where the phrase says nothing by itself: a unit, a label, a word of a longer wording. */
function fillFromPhrase(filling: Filling, progress: Progress, atom: PhraseAtom): boolean {
  const { type, slot } = atom.known
  switch (type) {
    case 'unit':
      return false
    case 'label':
      progress.label = slot
      filling.labelled.add(slot)
      return false
    case 'partial':
      return progress.not !== undefined && fillWord(filling, progress, atom)
    case 'own':
    case 'state':
      return fillWord(filling, progress, atom)
  }
}

/**
 * A part whose words were all said, if not in its order: "pin is in his hand", "left on, right on" for `both on`. Nothing
 * of it was denied, and no other part shares its words.
 */
function fillFromBags(filling: Filling, tokens: readonly Token[], held: ReadonlySet<string>): void {
  const { frame, words } = filling
  if (tokens.some(({ text }) => isNegation(text) || text === 'negative')) return
  const said = new Set(tokens.map(({ text }) => text))
  for (const [index, slot] of frame.path.entries()) {
    if (slot.type !== 'word' || !slot.required || words.has(index) || held.has(slot.name)) continue
    const isSaid = (bag: readonly string[]) =>
      bag.every((word) => said.has(word) || (ALL.has(word) && isEachSaid(tokens, said, words)))
    const bag = frame.bags.get(index)?.find(isSaid)
    if (!bag) continue
    note(filling, index, 0)
    const own = tokens.filter(({ text }) => bag.includes(text) || bag.some((word) => ALL.has(word) && isSide(text)))
    words.set(index, [{ tokens: own, own: true, literal: false }])
  }
}

/** "Left and right", "one and two"; or the state once for each, "left main, right main". */
function isEachSaid(tokens: readonly Token[], said: ReadonlySet<string>, words: Filling['words']): boolean {
  const has = (side: ReadonlySet<string>) => [...side].some((word) => said.has(word))
  const pair = SIDES.find(([one, other]) => has(one) && has(other))
  const isJoined = ({ text }: Token, at: number) =>
    text === 'and' &&
    pair?.some((side) => side.has(tokens[at - 1]?.text ?? '')) === true &&
    pair.some((side) => side.has(tokens[at + 1]?.text ?? ''))
  const isTwice = [...words.values()].some((fillers) => fillers.filter(({ own }) => own).length > 1)
  return pair !== undefined && (isTwice || tokens.some(isJoined))
}

/** Marks a slot as said in an attempt; what an earlier attempt said of it is replaced. */
function note(filling: Filling, slot: number, attempt: number): void {
  if ((filling.attemptOf.get(slot) ?? attempt) !== attempt) {
    filling.figures.delete(slot)
    filling.words.delete(slot)
  }
  filling.attemptOf.set(slot, attempt)
  if (!filling.said.includes(slot)) filling.said.push(slot)
}

/** False for a word that may be left out before the number that a correction is about: it corrects nothing itself. */
function fillWord(filling: Filling, { attempt, not, begun }: Progress, { known, tokens, near }: PhraseAtom): boolean {
  const slot = freeSlot(filling, known)
  const isOwn = known.type !== 'state'
  // "Down" before the part that must not be down was named: it may be that one's.
  const isOther = (one: number) => one < slot && !filling.words.has(one) && filling.attemptOf.get(one) !== attempt
  if (isOwn && known.against?.some(isOther)) filling.doubt ??= 'ambiguous'
  if (isOwn && !isInPlace(filling, slot, attempt)) filling.doubt ??= 'ambiguous'
  const corrects = begun || filling.words.has(slot)
  const isBeside = !corrects && !not && isOwn && filling.frame.path[slot]?.required === false
  // A correction must have something to correct.
  if (!corrects && !isBeside) filling.doubt ??= 'notUnderstood'
  // "On, no, off" takes it back; "on, not off" does not. Speech has no commas.
  if (not?.text === 'no' && filling.words.has(slot)) filling.doubt ??= 'twoValues'
  if (not && !isOwn) {
    filling.denied.push(slot)
    return true
  }
  note(filling, slot, attempt)
  const filler = { tokens: not ? [not, ...tokens] : tokens, own: isOwn && !not, literal: known.literal && !near }
  filling.words.set(slot, [...(filling.words.get(slot) ?? []), filler])
  return !isBeside
}

/** "Tower … in standby, departure …", asked as `tower <tower> departure <departure> standby`: a state goes with the value before it. */
function isInPlace({ frame, said, attemptOf }: Filling, slot: number, attempt: number): boolean {
  if (frame.figureCount < 2 || !frame.path[slot]?.required) return true
  const before = frame.figureSlots.findLast((figure) => figure < slot)
  const last = said.findLast((one) => frame.path[one]?.type === 'figure' && attemptOf.get(one) === attempt)
  return before === undefined || last === undefined || last >= before || !isStateWord(frame.path[slot]?.name ?? '')
}

/** Where two parts have the same wording, the next one that has not been said. */
function freeSlot({ frame, words }: Filling, { type, slot: first, phrase, against = [] }: KnownPhrase): number {
  if (type === 'state' && words.has(first)) return against.find((slot) => !words.has(slot)) ?? first
  if (type !== 'own' || !words.has(first)) return first
  const free = frame.path.findIndex(
    (slot, index) =>
      slot.type === 'word' && !words.has(index) && slot.wordings.some(({ canon }) => canon === phrase.canon),
  )
  return free < 0 ? first : free
}

/** One run of number words fills its figure, or several in a row. */
function fillFromRun(filling: Filling, progress: Progress, run: RunAtom, ahead: readonly Atom[]): void {
  const { frame, figures, attemptOf } = filling
  const { attempt, not, begun, held, place, label } = progress
  const behind = begun ? slotBefore(frame, ahead[0]) : undefined
  const named = label ?? slotOfName(frame, run) ?? behind
  const isSaid = (slot: number) => figures.has(slot) && attemptOf.get(slot) === attempt
  const context: RunContext = {
    frame,
    run,
    label: label ?? behind,
    place,
    isOpen: (slot, name) => !held.has(name) && !isSaid(slot),
  }
  const slots = begun ? slotsFor(context, ahead) : slotsCorrected(context, named, filling)
  const specs = slots.map((slot) => frame.specs[slot]).filter((spec) => spec !== undefined)
  if (slots.length === 0 || specs.length !== slots.length) {
    filling.doubt ??= frame.figureCount > 1 ? 'twoValues' : 'notUnderstood'
    return
  }
  const split = splitRun(run, specs, runsAhead(ahead), named !== undefined)
  filling.doubt ??= split.doubt
  const pieces = split.pieces.map((piece) => ({ ...piece, slot: slots[piece.place] ?? -1 }))
  for (const { slot, tokens, readings } of begun ? swapped(context, pieces) : pieces) {
    note(filling, slot, attempt)
    const filler = { tokens, readings, negated: not !== undefined }
    figures.set(slot, [...(figures.get(slot) ?? []), filler])
    progress.place = frame.figureSlots.indexOf(slot) + 1
  }
}

/** "Seventy one on board": the value that the words after it belong to. */
function slotBefore({ path, figureCount }: Frame, next: Atom | undefined): number | undefined {
  const isOwn = next?.type === 'phrase' && next.known.type === 'own'
  const slot = isOwn ? next.known.slot : -1
  return figureCount > 1 && path[slot]?.required && path[slot - 1]?.type === 'figure' ? slot - 1 : undefined
}

/** Runs up to the next label. */
function runsAhead(ahead: readonly Atom[]): number {
  const end = ahead.findIndex((atom) => atom.type === 'phrase' && atom.known.type === 'label')
  return (end < 0 ? ahead : ahead.slice(0, end)).filter((atom) => atom.type === 'run').length
}
