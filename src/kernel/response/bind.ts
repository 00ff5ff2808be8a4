/**
 * Atoms -> what was said for each part of a response. Labels bind the number behind them, other numbers go to the
 * figures in their order; "correction" replaces. Form decides and never a value: the figures' values are not here, so
 * that a number lands at the same part whether it is right or wrong (law 2).
 */

import type { KindSpec } from '../kinds/kind.ts'
import type { Reading } from '../kinds/reading.ts'
import { affixesOf } from '../kinds/table.ts'
import type { Token } from '../numbers/tokens.ts'
import { hasFormOf, isSound, readRun, splitRun } from './assign.ts'
import { joinDirections } from './beside.ts'
import type { Because } from './model.ts'
import type { Atom } from './scan.ts'
import type { KnownPhrase, Scene } from './scene.ts'

export interface Saying {
  readonly tokens: readonly Token[]
  readonly readings: readonly Reading[]
  /** "Not" stood before it. */
  readonly negated: boolean
}
export interface WordSaying {
  readonly tokens: readonly Token[]
  /** The part's own wording, or another state. */
  readonly own: boolean
  readonly literal: boolean
}

export interface Bound {
  /** By the slots of the path. */
  readonly figures: ReadonlyMap<number, readonly Saying[]>
  readonly words: ReadonlyMap<number, readonly WordSaying[]>
  /** Why the answer cannot be placed, if it cannot. */
  readonly doubt: Because | undefined
  /** Words that are not known to be harmless. */
  readonly unknown: boolean
  /** Words of a command stood in it. */
  readonly commanded: boolean
  /** Parts in the response's order. */
  readonly inOrder: boolean
  readonly labelled: ReadonlySet<number>
}

interface Binding {
  readonly scene: Scene
  readonly figureSlots: readonly number[]
  readonly figures: Map<number, Saying[]>
  readonly words: Map<number, WordSaying[]>
  /** In which stretch between corrections a slot was said last. */
  readonly stretch: Map<number, number>
  readonly said: number[]
  readonly labelled: Set<number>
  doubt: Because | undefined
  unknown: boolean
  commanded: boolean
}

type RunAtom = Extract<Atom, { type: 'run' }>

/** Binds an answer; `stretches` are the atoms between one "correction" and the next. */
export function bind(scene: Scene, stretches: readonly (readonly Atom[])[], held: ReadonlySet<string>): Bound {
  const figureSlots = scene.path.flatMap((slot, i) => (slot.type === 'figure' ? [i] : []))
  const binding: Binding = {
    scene,
    figureSlots,
    figures: new Map(),
    words: new Map(),
    stretch: new Map(),
    said: [],
    labelled: new Set(),
    doubt: undefined,
    unknown: false,
    commanded: false,
  }
  stretches.forEach((atoms, index) => {
    bindStretch(binding, joinDirections(scene, atoms), index, held)
  })
  const { figures, words, doubt, unknown, commanded, labelled, said } = binding
  const inOrder = said.every((slot, i) => i === 0 || (said[i - 1] ?? 0) <= slot)
  return { figures, words, doubt, unknown, commanded, labelled, inOrder }
}

/** Where the reading of one stretch stands. */
interface Hearing {
  readonly stretch: number
  readonly held: ReadonlySet<string>
  /** Figure whose label was said last, until its number comes. */
  label: number | undefined
  not: Token | undefined
  /** Behind a correction: something of the answer was replaced. */
  begun: boolean
  /** Which figure comes next. */
  place: number
}

function bindStretch(binding: Binding, atoms: readonly Atom[], stretch: number, held: ReadonlySet<string>): void {
  const hearing: Hearing = { stretch, held, label: undefined, not: undefined, begun: stretch === 0, place: 0 }
  atoms.forEach((_, index) => {
    bindAtom(binding, hearing, atoms, index)
  })
  if (hearing.not) binding.doubt ??= 'ambiguous'
  if (!hearing.begun) binding.doubt ??= 'notUnderstood'
}

function bindAtom(binding: Binding, hearing: Hearing, atoms: readonly Atom[], index: number): void {
  const atom = atoms[index] as Atom
  switch (atom.type) {
    case 'unknown':
      binding.unknown = true
      // Among words a number is just not understood: "one open" is still another state.
      if (atom.amount && binding.scene.figureCount > 0) binding.doubt ??= 'notUnderstood'
      return
    case 'refusal':
      binding.doubt ??= 'ambiguous'
      return
    case 'command':
      binding.commanded = true
      return
    case 'not':
      if (hearing.not) binding.doubt ??= 'ambiguous'
      hearing.not = atom.token
      return
    case 'phrase':
      if (atom.known.type === 'unit') return
      if (atom.known.type === 'partial' && !hearing.not) {
        binding.unknown = true
        return
      }
      if (atom.known.type === 'label') {
        hearing.label = atom.known.slot
        binding.labelled.add(atom.known.slot)
        return
      }
      if (!bindWord(binding, hearing, atom)) return
      break
    case 'run':
      bindRun(binding, hearing, atom, atoms.slice(index + 1))
      hearing.label = undefined
  }
  hearing.not = undefined
  hearing.begun = true
}

/** Marks a part as said in a stretch; what an earlier stretch said of it is replaced. */
function note(binding: Binding, slot: number, stretch: number): void {
  if ((binding.stretch.get(slot) ?? stretch) !== stretch) {
    binding.figures.delete(slot)
    binding.words.delete(slot)
  }
  binding.stretch.set(slot, stretch)
  if (!binding.said.includes(slot)) binding.said.push(slot)
}

type PhraseAtom = Extract<Atom, { type: 'phrase' }>

/** False for a word that may be left out before the number that a correction is about: it corrects nothing itself. */
function bindWord(binding: Binding, { stretch, not, begun }: Hearing, atom: PhraseAtom): boolean {
  const slot = freeSlot(binding, atom.known)
  const corrects = begun || binding.words.has(slot)
  const isBeside = !corrects && !not && atom.known.type !== 'state' && binding.scene.path[slot]?.required === false
  // A correction must have something to correct.
  if (!corrects && !isBeside) binding.doubt ??= 'notUnderstood'
  note(binding, slot, stretch)
  const own = atom.known.type !== 'state'
  if (not && !own) binding.doubt ??= 'ambiguous'
  const sayings = binding.words.get(slot) ?? []
  const tokens = not ? [not, ...atom.tokens] : atom.tokens
  sayings.push({ tokens, own: own && !not, literal: atom.known.literal && !atom.near })
  binding.words.set(slot, sayings)
  return !isBeside
}

/** Where two parts have the same wording, the next one that has not been said. */
function freeSlot(binding: Binding, known: KnownPhrase): number {
  if (known.type !== 'own' || !binding.words.has(known.slot)) return known.slot
  const { path } = binding.scene
  const free = path.findIndex(
    (slot, i) =>
      slot.type === 'word' && !binding.words.has(i) && slot.wordings.some(({ canon }) => canon === known.phrase.canon),
  )
  return free < 0 ? known.slot : free
}

/**
 * The figures a value may be for, in order: from its label on, else from `place` on those not yet said in this
 * stretch, else those before it; what has not the form of a figure's kind is not for that one, unless it is for none
 * otherwise. With one figure it is that one said again; with several nobody knows which.
 */
function targets(binding: Binding, hearing: Hearing, run: RunAtom, ahead: readonly Atom[]): readonly number[] {
  const { figureSlots, scene } = binding
  const { label, place, stretch, held } = hearing
  const isOpen = (slot: number) =>
    !held.has(scene.path[slot]?.name ?? '') && !(binding.figures.has(slot) && binding.stretch.get(slot) === stretch)
  const from = label === undefined ? place : figureSlots.indexOf(label)
  const onward = figureSlots.slice(from).filter((slot) => slot === label || isOpen(slot))
  const open = figureSlots.filter(isOpen)
  const fits = (slot: number) => slot === label || hasFormOf(run, scene.specs[slot])
  const row = [onward.filter(fits), open.filter(fits), onward, open].find((slots) => slots.length > 0)
  if (!row) return figureSlots.length === 1 ? figureSlots : []
  const labelled = ahead.flatMap((atom) =>
    atom.type === 'phrase' && atom.known.type === 'label' ? [atom.known.slot] : [],
  )
  const end = row.findIndex((slot, i) => i > 0 && labelled.includes(slot))
  return end < 0 ? row : row.slice(0, end)
}

/** What a number behind "correction" replaces: the labelled figure, or the last one said that it fits. */
function corrected(binding: Binding, label: number | undefined, run: RunAtom): number[] {
  const said = label === undefined ? binding.said.toReversed() : [label]
  const fits = said.find((slot) => {
    const spec = binding.scene.specs[slot]
    return (
      binding.figures.has(slot) &&
      spec &&
      (label !== undefined || readRun(run, spec).some((each) => isSound(each, spec)))
    )
  })
  return fits === undefined ? [] : [fits]
}

/** A telephony designator says what it begins: the call sign, wherever it stands. */
function slotOfName({ scene, figureSlots }: Binding, { tokens }: RunAtom): number | undefined {
  const word = tokens[0]?.text ?? ''
  const named = figureSlots.filter((slot) => {
    const spec = scene.specs[slot]
    return spec && affixesOf(spec).get(word)?.role === 'name'
  })
  return named.length === 1 ? named[0] : undefined
}

/** Binds one run of number words to its figure, or to several in a row. */
function bindRun(binding: Binding, hearing: Hearing, run: RunAtom, ahead: readonly Atom[]): void {
  const { scene, figureSlots } = binding
  const { stretch, not, begun } = hearing
  const label = hearing.label ?? slotOfName(binding, run)
  const slots = begun ? targets(binding, hearing, run, ahead) : corrected(binding, label, run)
  const specs = slots.map((slot) => scene.specs[slot]).filter((spec) => spec !== undefined)
  if (slots.length === 0 || specs.length !== slots.length) {
    binding.doubt ??= figureSlots.length > 1 ? 'twoValues' : 'notUnderstood'
    return
  }
  const end = ahead.findIndex((atom) => atom.type === 'phrase' && atom.known.type === 'label')
  const runsAhead = (end < 0 ? ahead : ahead.slice(0, end)).filter((atom) => atom.type === 'run').length
  const split = splitRun(run, specs, runsAhead, label !== undefined)
  if (split.doubt) binding.doubt ??= split.doubt
  const pieces = split.pieces.map((piece) => ({ ...piece, slot: slots[piece.place] ?? -1 }))
  for (const { slot, tokens, readings } of elsewhere(binding, hearing, run, specs, pieces)) {
    note(binding, slot, stretch)
    const sayings = binding.figures.get(slot) ?? []
    sayings.push({ tokens, readings, negated: not !== undefined })
    binding.figures.set(slot, sayings)
    hearing.place = figureSlots.indexOf(slot) + 1
  }
}

interface SlotPiece {
  readonly slot: number
  readonly tokens: readonly Token[]
  readonly readings: readonly Reading[]
}

/**
 * A number without a label that its figure cannot have, but exactly one other kind can: parts of different kinds may
 * change places.
 */
function elsewhere(
  binding: Binding,
  { label, stretch, held, begun }: Hearing,
  run: RunAtom,
  specs: readonly KindSpec[],
  pieces: readonly SlotPiece[],
): readonly SlotPiece[] {
  const { scene, figureSlots, figures } = binding
  const [piece] = pieces
  const [spec] = specs
  if (!begun || label !== undefined || pieces.length !== 1 || !piece || !spec || figureSlots.length < 2) return pieces
  if (piece.readings.some((reading) => isSound(reading, spec))) return pieces
  const others = figureSlots.flatMap((slot): SlotPiece[] => {
    const other = scene.specs[slot]
    const said = figures.has(slot) && binding.stretch.get(slot) === stretch
    if (!other || other.kind === spec.kind || said || held.has(scene.path[slot]?.name ?? '')) return []
    const readings = readRun(run, other)
    return readings.some((reading) => isSound(reading, other)) ? [{ slot, tokens: run.tokens, readings }] : []
  })
  return others.length === 1 ? others : pieces
}
