/**
 * What a room is shown of an answer, a topic or a call of a start: its words and what each was taken for, why the verdict, the values in force with their
 * reasons, and what answers close to it would have drawn. All of it follows from an answer that is in (law 4).
 */

import { type GivenAnswer, type NearAnswer, nearAnswers } from '../../kernel/interpret/nearAnswers.ts'
import { transcriptOf } from '../../kernel/numbers/tokens.ts'
import type { Pack } from '../../kernel/pack/checklist.ts'
import { findItem } from '../../kernel/pack/place.ts'
import { explained } from '../../kernel/response/explain.ts'
import type { Judgement, Part } from '../../kernel/response/model.ts'
import { isAnswer } from '../../kernel/run/core/forRoom.ts'
import type { RunState } from '../../kernel/run/core/state.ts'
import { findTurn, turnState } from '../../kernel/run/talk/talk.ts'
import type { ShownMoment } from '../run/lastAnswer.ts'
import type { Revision } from '../run/revision.ts'
import { callTold } from './callTold.ts'
import type { DemonstrationView, NearShown } from './demonstrated.ts'
import { labelling } from './partsShown.ts'
import { type ReadWords, readWords, shownValue } from './readWords.ts'
import { settledTold } from './settledTold.ts'
import { topicsTold } from './topicsTold.ts'
import { valuesInForce } from './valuesInForce.ts'

export function demonstrationView(pack: Pack, moment: ShownMoment, now: Now): DemonstrationView {
  const { before, event } = moment
  if (event.type === 'commanded')
    return { by: sayerOf(event), near: [], inForce: [], missing: [], ...settledTold(pack, { before, event }) }
  if (isAnswer(event)) return answerView(pack, { before, event }, now)
  const told = 'watch' in event ? callTold(pack, { before, event }) : topicsTold(pack, { before, event }, now.revisions)
  return { by: sayerOf(event), near: [], inForce: [], missing: [], ...told }
}

interface Now {
  readonly run: RunState
  readonly revisions: readonly Revision[]
}

/** `run`: as it is now. A read-back that a controller wrongly called correct looks right: noticing is the room's part. */
function answerView(pack: Pack, given: GivenAnswer, { run, revisions }: Now): DemonstrationView {
  const isSlip = isSlipped(run, given)
  const answer = isSlip ? lookingRight(given) : given
  const { before, event } = answer
  const { evidence, judgement, expected, revision } = event
  const labelOf = labelsFor(pack, answer)
  const isHeard = judgement.verdict !== 'sayAgain' && judgement.verdict !== 'command'
  const { parts } = judgement
  return {
    challenge: challengeOf(pack, answer),
    by: sayerOf(event),
    read: answerRead(pack, answer),
    missing: missingIn(judgement, labelOf),
    judgement,
    why: whyOf(pack, judgement, { text: evidence.text, labelOf }),
    inForce: isSlip || !isHeard ? [] : valuesInForce(pack, before, { parts, expected, revision }, revisions),
    near: isSlip ? [] : nearAnswers(pack, answer).map((near) => nearShown(pack, near, labelOf)),
  }
}

const sayerOf = ({ evidence: { by } }: ShownMoment['event']): DemonstrationView['by'] =>
  by === 'typed' ? 'typed' : by === 'key' ? 'by key' : 'heard'

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

const answerRead = (pack: Pack, answer: GivenAnswer): ReadWords[] => {
  const { evidence, judgement } = answer.event
  const labelOf = labelsFor(pack, answer)
  return readWords(evidence.text, judgement.parts, (part) =>
    part ? partRead(pack, part, judgement, labelOf) : besideRead(judgement),
  )
}

function partRead(pack: Pack, part: Part, { verdict, because }: Judgement, labelOf: LabelOf): Omit<ReadWords, 'words'> {
  const { kind, read, state, doubtful } = part
  // In another unit the words say more than a number with the unit that was wanted.
  const value =
    read === undefined || (because === 'unit' && state === 'wrong')
      ? undefined
      : kind === 'figure'
        ? shownValue(pack, part.name, read)
        : String(read)
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
    ...(read !== undefined && { read: shownValue(pack, name, read) }),
    ...(expected !== undefined && { expected: shownValue(pack, name, expected) }),
  }
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
