/** Which figures of a frame a value is for: by its label, its place and its form, and never by what it is. */

import type { Reading } from '../kinds/reading.ts'
import { affixesOf } from '../kinds/table.ts'
import type { Token } from '../numbers/tokens.ts'
import type { Frame } from './frame.ts'
import { hasFormOf, isSound, readRun } from './runs.ts'
import type { Atom, RunAtom } from './scan.ts'

/** A value that was said, and what is known where it stands. */
export interface RunContext {
  readonly frame: Frame
  readonly run: RunAtom
  /** The figure whose label was said before it. */
  readonly label: number | undefined
  /** Which figure comes next. */
  readonly place: number
  /** Neither held from an earlier breath nor said in this attempt. */
  readonly isOpen: (slot: number, name: string) => boolean
}

const openSlots = ({ frame, isOpen }: RunContext) =>
  frame.figureSlots.filter((slot) => isOpen(slot, frame.path[slot]?.name ?? ''))

/**
 * The figures a value may be for, in order: from its label on, else from its place on those not yet said in this attempt,
 * else those before it. What has not the form of a figure's kind is not for that one, unless it is for none otherwise.
 * With one figure it is that one said again; with several nobody knows which.
 */
export function slotsFor(context: RunContext, ahead: readonly Atom[]): readonly number[] {
  const { frame, run, label, place } = context
  const { figureSlots } = frame
  const open = openSlots(context)
  const from = label === undefined ? place : figureSlots.indexOf(label)
  const onward = figureSlots.slice(from).filter((slot) => slot === label || open.includes(slot))
  const hasForm = (slot: number) => slot === label || hasFormOf(run, frame.specs[slot])
  const labelledAhead = ahead.flatMap((atom) =>
    atom.type === 'phrase' && atom.known.type === 'label' ? [atom.known.slot] : [],
  )
  // "Seventy one on board, edition two": each is said once, so what has its label still to come is not meant.
  const isEachOnce = open.length === 1 + ahead.filter(({ type }) => type === 'run').length
  const unnamed = isEachOnce ? open.filter((slot) => slot !== label && !labelledAhead.includes(slot)) : []
  const isToCome = label === undefined && labelledAhead.includes(onward[0] ?? -1)
  const row = [
    isToCome ? unnamed.filter(hasForm) : [],
    onward.filter(hasForm),
    open.filter(hasForm),
    onward,
    open,
  ].find((slots) => slots.length > 0)
  if (!row) return figureSlots.length === 1 ? figureSlots : []
  const end = row.findIndex((slot, index) => index > 0 && labelledAhead.includes(slot))
  return end < 0 ? row : row.slice(0, end)
}

/** What a number after "correction" replaces: the figure that is named with it, or the last one said that it fits. */
export function slotsReplaced(
  { frame, run }: RunContext,
  named: number | undefined,
  { said, figures }: { readonly said: readonly number[]; readonly figures: ReadonlyMap<number, unknown> },
): readonly number[] {
  const isSoundFor = (slot: number) => {
    const spec = frame.specs[slot]
    return spec !== undefined && readRun(run, spec).some((reading) => isSound(reading, spec))
  }
  const candidates = named === undefined ? said.toReversed() : [named]
  const replaced = candidates.find((slot) => figures.has(slot) && (slot === named || isSoundFor(slot)))
  return replaced === undefined ? [] : [replaced]
}

/** The same, and the figures after it where the number is more than one: "edition one, correction, two, seventy one on board". */
export function slotsCorrected(
  context: RunContext,
  named: number | undefined,
  filling: { readonly said: readonly number[]; readonly figures: ReadonlyMap<number, unknown> },
): readonly number[] {
  const [replaced, ...none] = slotsReplaced(context, named, filling)
  if (replaced === undefined) return none
  const { frame, run } = context
  const spec = frame.specs[replaced]
  const isOne = spec !== undefined && readRun(run, spec).some((reading) => isSound(reading, spec))
  return isOne ? [replaced] : [replaced, ...openSlots(context).filter((slot) => slot > replaced)]
}

/** A telephony designator says what it begins: the call sign, wherever it stands. */
export function slotOfName({ figureSlots, specs }: Frame, { tokens }: RunAtom): number | undefined {
  const word = tokens[0]?.text ?? ''
  const named = figureSlots.filter((slot) => {
    const spec = specs[slot]
    return spec && affixesOf(spec).get(word)?.role === 'name'
  })
  return named.length === 1 ? named[0] : undefined
}

export interface SlotPiece {
  readonly slot: number
  readonly tokens: readonly Token[]
  readonly readings: readonly Reading[]
}

/**
 * A number without a label that its figure cannot have, but exactly one of another kind can: parts of different kinds may
 * change places.
 */
export function swapped(context: RunContext, pieces: readonly SlotPiece[]): readonly SlotPiece[] {
  const { frame, run, label } = context
  const [piece, ...more] = pieces
  const spec = frame.specs[piece?.slot ?? -1]
  if (label !== undefined || more.length > 0 || !piece || !spec || frame.figureCount < 2) return pieces
  if (piece.readings.some((reading) => isSound(reading, spec))) return pieces
  const others = openSlots(context).flatMap((slot): SlotPiece[] => {
    const other = frame.specs[slot]
    if (!other || other.kind === spec.kind) return []
    const readings = readRun(run, other)
    return readings.some((reading) => isSound(reading, other)) ? [{ slot, tokens: run.tokens, readings }] : []
  })
  return others.length === 1 ? others : pieces
}
