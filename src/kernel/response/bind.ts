/**
 * Atoms -> what was said for each part of a response. Labels bind the number behind them, other numbers go to the
 * figures in their order; "correction" replaces. Form decides and never a value: the figures' values are not here, so
 * that a number lands at the same part whether it is right or wrong (law 2).
 */

import type { KindSpec } from '../kinds/kind.ts'
import type { Reading } from '../kinds/reading.ts'
import type { Token } from '../numbers/tokens.ts'
import { isSound, readRun, splitRun } from './assign.ts'
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
  if (stretches.length === 1) reorder(binding)
  const { figures, words, doubt, unknown, commanded, labelled, said } = binding
  const inOrder = said.every((slot, i) => i === 0 || (said[i - 1] ?? 0) <= slot)
  return { figures, words, doubt, unknown, commanded, labelled, inOrder }
}

/** Directions said apart from their number ("five point two, and that's nose up") go to it. */
function joinDirections(scene: Scene, atoms: readonly Atom[]): readonly Atom[] {
  if (!scene.specs.some((spec) => spec?.kind === 'trim' || spec?.kind === 'runway')) return atoms
  const joined: Atom[] = []
  let waiting: Token[] = []
  for (const atom of atoms) {
    if (atom.type !== 'run') {
      joined.push(atom)
      continue
    }
    if (atom.tokens.some((token) => token.number) || isNeutral(atom)) {
      joined.push({ ...atom, tokens: [...waiting, ...atom.tokens] })
      waiting = []
      continue
    }
    const at = joined.findLastIndex((each) => each.type === 'run')
    const before = joined[at]
    if (before?.type === 'run') joined[at] = { ...before, tokens: [...before.tokens, ...atom.tokens] }
    else waiting = [...waiting, ...atom.tokens]
  }
  if (waiting.length > 0) joined.push({ type: 'run', tokens: waiting, looseHead: false, looseTail: false })
  return joined
}

const isNeutral = (atom: RunAtom) => atom.tokens.some(({ text }) => /^(neutral|cent(er|re|ered|red))$/.test(text))

function bindStretch(binding: Binding, atoms: readonly Atom[], stretch: number, held: ReadonlySet<string>): void {
  let label: number | undefined
  let not = false
  let begun = stretch === 0
  let place = 0
  atoms.forEach((atom, index) => {
    switch (atom.type) {
      case 'unknown':
        binding.unknown = true
        if (atom.amount) binding.doubt ??= 'ambiguous'
        return
      case 'refusal':
        binding.doubt ??= 'ambiguous'
        return
      case 'command':
        binding.commanded = true
        return
      case 'not':
        if (not) binding.doubt ??= 'ambiguous'
        not = true
        return
      case 'phrase':
        if (atom.known.type === 'unit') return
        if (atom.known.type === 'label') {
          label = atom.known.slot
          binding.labelled.add(label)
          return
        }
        bindWord(binding, atom, stretch, not, begun)
        not = false
        begun = true
        return
      case 'run': {
        const ahead = atoms.slice(index + 1)
        const slots = begun ? targets(binding, label, place, ahead, held) : corrected(binding, label, atom)
        place = bindRun(binding, atom, slots, ahead, stretch, not)
        label = undefined
        not = false
        begun = true
      }
    }
  })
  if (not) binding.doubt ??= 'ambiguous'
  if (!begun) binding.doubt ??= 'notUnderstood'
}

function note(binding: Binding, slot: number, stretch: number): void {
  if ((binding.stretch.get(slot) ?? stretch) !== stretch) {
    binding.figures.delete(slot)
    binding.words.delete(slot)
  }
  binding.stretch.set(slot, stretch)
  const last = binding.said.indexOf(slot)
  if (last < 0 || stretch > 0) {
    if (last >= 0) return
    binding.said.push(slot)
  }
}

type PhraseAtom = Extract<Atom, { type: 'phrase' }>

function bindWord(binding: Binding, atom: PhraseAtom, stretch: number, not: boolean, begun: boolean): void {
  const slot = freeSlot(binding, atom.known)
  // A correction must have something to correct.
  if (!begun && !binding.words.has(slot)) binding.doubt ??= 'notUnderstood'
  note(binding, slot, stretch)
  const own = atom.known.type === 'own'
  if (not && !own) binding.doubt ??= 'ambiguous'
  const sayings = binding.words.get(slot) ?? []
  sayings.push({ tokens: atom.tokens, own: own && !not, literal: atom.known.literal && !atom.near })
  binding.words.set(slot, sayings)
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

/** The figures a number may be for, in order: from its label on, else from the first one that has not been said. */
function targets(
  binding: Binding,
  label: number | undefined,
  place: number,
  ahead: readonly Atom[],
  held: ReadonlySet<string>,
): number[] {
  const { figureSlots, scene } = binding
  const labelledAhead = ahead.flatMap((atom) =>
    atom.type === 'phrase' && atom.known.type === 'label' ? [atom.known.slot] : [],
  )
  const from = label === undefined ? place : figureSlots.indexOf(label)
  const row = figureSlots.slice(from).filter((slot) => slot === label || !held.has(scene.path[slot]?.name ?? ''))
  const end = row.findIndex((slot, i) => i > 0 && (labelledAhead.includes(slot) || binding.labelled.has(slot)))
  const open = end < 0 ? row : row.slice(0, end)
  if (open.length > 0) return open
  // Nothing is open any more: with one figure it is said again, with several nobody knows which.
  return figureSlots.length === 1 ? [...figureSlots] : []
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

/** Binds one run of number words and returns the place of the next figure. */
function bindRun(
  binding: Binding,
  run: RunAtom,
  slots: readonly number[],
  ahead: readonly Atom[],
  stretch: number,
  negated: boolean,
): number {
  const { scene, figureSlots } = binding
  const specs = slots.map((slot) => scene.specs[slot]).filter((spec) => spec !== undefined)
  if (slots.length === 0 || specs.length !== slots.length) {
    binding.doubt ??= figureSlots.length > 1 ? 'twoValues' : 'notUnderstood'
    return figureSlots.length
  }
  const end = ahead.findIndex((atom) => atom.type === 'phrase' && atom.known.type === 'label')
  const runsAhead = (end < 0 ? ahead : ahead.slice(0, end)).filter((atom) => atom.type === 'run').length
  const split = splitRun(run, specs, runsAhead)
  if (split.doubt) binding.doubt ??= split.doubt
  let last = slots[0] ?? 0
  for (const piece of split.pieces) {
    last = slots[piece.place] ?? last
    note(binding, last, stretch)
    const sayings = binding.figures.get(last) ?? []
    sayings.push({ tokens: piece.tokens, readings: piece.readings, negated })
    binding.figures.set(last, sayings)
  }
  return figureSlots.indexOf(last) + 1
}

/** Unlabelled numbers of different kinds in another order: taken where only one order reads them all. */
function reorder(binding: Binding): void {
  const { figures, labelled, scene } = binding
  const slots = [...figures.keys()].filter((slot) => !labelled.has(slot) && figures.get(slot)?.length === 1)
  const runs = slots.map((slot) => figures.get(slot)?.[0] as Saying)
  const specs = slots.map((slot) => scene.specs[slot] as KindSpec)
  const kinds = new Set(specs.map(({ kind }) => kind))
  if (slots.length < 2 || slots.length > 4 || kinds.size !== slots.length) return
  const readsAs = (saying: Saying, spec: KindSpec) => {
    const run: RunAtom = { type: 'run', tokens: saying.tokens, looseHead: false, looseTail: false }
    return readRun(run, spec)
  }
  if (runs.every((run, i) => run.readings.some((reading) => isSound(reading, specs[i] as KindSpec)))) return
  const orders = permutations(slots.length).filter((order) =>
    order.every((from, i) => {
      const spec = specs[i] as KindSpec
      return readsAs(runs[from] as Saying, spec).some((reading) => isSound(reading, spec))
    }),
  )
  const order = orders[0]
  if (orders.length !== 1 || !order) return
  order.forEach((from, i) => {
    const run = runs[from] as Saying
    figures.set(slots[i] as number, [{ ...run, readings: readsAs(run, specs[i] as KindSpec) }])
  })
  binding.said.reverse()
}

function permutations(length: number): number[][] {
  if (length === 0) return [[]]
  return permutations(length - 1).flatMap((rest) =>
    Array.from({ length }, (_, at) => [...rest.slice(0, at), length - 1, ...rest.slice(at)]),
  )
}
