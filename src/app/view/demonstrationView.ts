/**
 * What a room is shown of an answer: its words and what each was taken for, why the verdict, the values in force with their
 * reasons, and what answers close to it would have drawn. All of it follows from an answer that is in (law 4).
 */

import type { FigureSet, Reason } from '../../kernel/figures/model.ts'
import { type GivenAnswer, type NearAnswer, nearAnswers } from '../../kernel/interpret/nearAnswers.ts'
import type { Figure, Value } from '../../kernel/kinds/kind.ts'
import { showValue } from '../../kernel/kinds/table.ts'
import { transcriptOf } from '../../kernel/numbers/tokens.ts'
import type { Pack } from '../../kernel/pack/checklist.ts'
import { findItem } from '../../kernel/pack/place.ts'
import { explained } from '../../kernel/response/explain.ts'
import type { Judgement, Part } from '../../kernel/response/model.ts'
import { partsOfWords, wordsIn } from '../../kernel/response/wordsOf.ts'
import type { RunState } from '../../kernel/run/core/state.ts'
import { findTurn, turnState } from '../../kernel/run/talk/talk.ts'
import type { Revision } from '../run/revision.ts'
import { labelling } from './partsShown.ts'

/** Words that were taken for one thing. */
export interface ReadWords {
  readonly words: readonly string[]
  readonly state: 'ok' | 'wrong' | 'missing' | 'doubt' | 'beside'
  /** The part, or what was made of words that are none: "let through". */
  readonly label: string
  /** The value or state read from them. */
  readonly read?: string
}

export interface ValueInForce {
  readonly label: string
  readonly value: string
  /** The revision that it is of, by name. */
  readonly revision: string
  /** Its reasons, and those of what it rests on, each under its name. */
  readonly chain: readonly { readonly label: string; readonly why: readonly Reason[] }[]
}

export interface NearShown {
  readonly how: string
  readonly words: readonly string[]
  readonly changed: readonly number[]
  readonly judgement: Judgement | undefined
  readonly why: string
}

export interface DemonstrationView {
  readonly challenge: string
  readonly by: 'heard' | 'typed' | 'by key'
  readonly read: readonly ReadWords[]
  /** Parts of which nothing was said. */
  readonly missing: readonly string[]
  readonly judgement: Judgement
  readonly why: string
  readonly inForce: readonly ValueInForce[]
  readonly near: readonly NearShown[]
}

/** `run`: as it is now. A read-back that a controller wrongly called correct looks right: noticing is the room's part. */
export function demonstrationView(
  pack: Pack,
  given: GivenAnswer,
  { run, revisions }: { readonly run: RunState; readonly revisions: readonly Revision[] },
): DemonstrationView {
  const isSlip = isSlipped(run, given)
  const answer = isSlip ? lookingRight(given) : given
  const { event } = answer
  const { evidence, judgement } = event
  const labelOf = labelsFor(pack, answer)
  return {
    challenge: challengeOf(pack, answer),
    by: evidence.by === 'typed' ? 'typed' : evidence.by === 'key' ? 'by key' : 'heard',
    read: readWords(pack, answer),
    missing: missingIn(judgement, labelOf),
    judgement,
    why: whyOf(pack, judgement, { text: evidence.text, labelOf }),
    inForce: isSlip ? [] : valuesInForce(pack, answer, revisions),
    near: isSlip ? [] : nearAnswers(pack, answer).map((near) => nearShown(pack, near, labelOf)),
  }
}

function isSlipped(run: RunState, { event }: GivenAnswer): boolean {
  const isWrong = event.type === 'transmitted' && event.part === 'readBack' && event.judgement.verdict === 'negative'
  return isWrong && turnState(run, event.turn).slip !== undefined
}

function lookingRight({ before, event }: GivenAnswer): GivenAnswer {
  const parts = event.judgement.parts.map((part) => ({ ...part, state: 'ok' as const }))
  return { before, event: { ...event, judgement: { verdict: 'correct', parts } } }
}

function challengeOf(pack: Pack, { event }: GivenAnswer): string {
  return event.type === 'answered' ? findItem(pack, event.item).item.challenge : findTurn(pack, event.turn).turn.label
}

/** Runs of words that were taken for the same. */
function readWords(pack: Pack, answer: GivenAnswer): ReadWords[] {
  const { evidence, judgement } = answer.event
  const labelOf = labelsFor(pack, answer)
  const words = wordsIn(evidence.text)
  const taken = partsOfWords(words, judgement.parts)
  const runs: { readonly part: number | undefined; readonly words: string[] }[] = []
  words.forEach((word, at) => {
    const last = runs.at(-1)
    if (last && last.part === taken[at]) last.words.push(word)
    else runs.push({ part: taken[at], words: [word] })
  })
  return runs.map((run) => {
    const part = judgement.parts[run.part ?? -1]
    return { words: run.words, ...(part ? partRead(pack, part, judgement, labelOf) : besideRead(judgement)) }
  })
}

function partRead(pack: Pack, part: Part, { verdict }: Judgement, labelOf: LabelOf): Omit<ReadWords, 'words'> {
  const { kind, read, state, doubtful } = part
  const value = read === undefined ? undefined : kind === 'figure' ? shown(pack, part.name, read) : String(read)
  const isUnsure = doubtful || (verdict === 'sayAgain' && state !== 'wrong')
  return {
    state: isUnsure ? 'doubt' : state,
    label: labelOf(part),
    ...(value !== undefined && { read: value }),
  }
}

/** As the sentence of the reasons has it. */
function besideRead({ verdict, parts }: Judgement): Omit<ReadWords, 'words'> {
  const isDoubt = verdict === 'sayAgain' || parts.some(({ doubtful }) => doubtful)
  if (verdict === 'command') return { state: 'beside', label: 'a command' }
  if (parts.every(({ heard }) => heard === undefined))
    return { state: isDoubt ? 'doubt' : 'beside', label: 'no part of the answer' }
  return isDoubt ? { state: 'doubt', label: 'not understood' } : { state: 'beside', label: 'let through' }
}

const labelsFor = (pack: Pack, { before, event }: GivenAnswer): LabelOf =>
  event.type === 'answered'
    ? labelling(pack, before, { item: event.item })
    : labelling(pack, before, { item: event.turn, of: event.part })

type LabelOf = (part: Part) => string

function missingIn({ verdict, parts }: Judgement, labelOf: LabelOf): string[] {
  if (verdict !== 'incomplete') return []
  const missing = parts.filter(({ state, heard }) => state === 'missing' && heard === undefined)
  return [...new Set(missing.map(labelOf))]
}

/** Names and values as people write them, where the sentence has those of the pack's files. */
function whyOf(pack: Pack, judgement: Judgement, said: { readonly text: string; readonly labelOf: LabelOf }): string {
  const parts = judgement.parts.map((part) => ({
    ...part,
    name: said.labelOf(part),
    ...(part.kind === 'figure' && shownValues(pack, part)),
  }))
  return explained({ ...judgement, parts }, transcriptOf(said.text))
}

function shownValues(pack: Pack, { name, read, expected }: Part): Partial<Part> {
  return {
    ...(read !== undefined && { read: shown(pack, name, read) }),
    ...(expected !== undefined && { expected: shown(pack, name, expected) }),
  }
}

function shown(pack: Pack, name: string, value: Value): string {
  const spec = pack.figures.declarations[name]?.spec
  return spec ? showValue({ ...spec, value } as Figure) : String(value)
}

/** How far down a value's reasons are told: a room reads no more. */
const MOST_LINKS = 4

/** Of the values that were said, right or wrong; what was left out, or not understood, is still to be said. */
function valuesInForce(pack: Pack, { before, event }: GivenAnswer, revisions: readonly Revision[]): ValueInForce[] {
  const { judgement, expected } = event
  if (judgement.verdict === 'sayAgain' || judgement.verdict === 'command') return []
  const revision = revisions.find((one) => one.revision === event.revision)
  const parts = judgement.parts.filter(
    ({ kind, state, doubtful }) => kind === 'figure' && state !== 'missing' && !doubtful,
  )
  return parts.flatMap(({ name, limits, expected: asked }): ValueInForce[] => {
    const value = asked ?? expected[name] ?? before.values[name]
    if (value === undefined || limits) return []
    const isGiven = before.fromStations[name] !== undefined
    return [
      {
        label: pack.figures.declarations[name]?.label ?? name,
        value: shown(pack, name, value),
        revision: isGiven
          ? 'as a station gave it'
          : `${revision?.inputs.label ?? revision?.inputs.status ?? ''} figures, revision ${revision?.accepted ?? ''}`.trim(),
        chain: revision && !isGiven ? chainOf(revision.set, name) : [],
      },
    ]
  })
}

/** The figure itself, then what its reasons use, nearest first. */
function chainOf({ figures }: FigureSet, name: string): ValueInForce['chain'] {
  const names = [name]
  for (const one of names) {
    const uses = figures[one]?.why.flatMap((reason) => reason.uses) ?? []
    for (const used of uses) if (!names.includes(used) && names.length < MOST_LINKS) names.push(used)
  }
  return names.flatMap((one) => {
    const figure = figures[one]
    return figure && figure.why.length > 0 ? [{ label: figure.label, why: figure.why }] : []
  })
}

const HOW: Readonly<Record<NearAnswer['how'], string>> = {
  putRight: 'the value in force',
  otherDigit: 'one digit different',
  opposite: 'the opposite',
  leftOut: 'something left out',
}

function nearShown(pack: Pack, { how, words, changed, judgement }: NearAnswer, labelOf: LabelOf): NearShown {
  const why = judgement ? whyOf(pack, judgement, { text: words.join(' '), labelOf }) : 'It would be no answer to this.'
  return { how: HOW[how], words, changed, judgement, why }
}
