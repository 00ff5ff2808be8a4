/**
 * Hop three of an utterance: words, the open item and the figures of this moment become one
 * happening. Typed, spoken and read from a file are judged by the same lines.
 */

import { hasAnswerShape } from '../hearing/answerShape.ts'
import type { Heard } from '../hearing/heard.ts'
import type { Item, Pack } from '../pack/checklist.ts'
import { figuresFor, findItem, findLine, listById, listsOf, responseOf, saidFigures } from '../pack/place.ts'
import { specsOf } from '../pack/specs.ts'
import { readCommand } from '../response/commands.ts'
import { isWhole } from '../response/form.ts'
import { judge } from '../response/judge.ts'
import type { JudgeInput, Judgement } from '../response/model.ts'
import type { Evidence, Happening } from '../run/core/events.ts'
import type { RunState } from '../run/core/state.ts'
import { flowAt, itemState, restedOn } from '../run/core/turn.ts'
import { isUnderWay, talkAt } from '../run/talk/talk.ts'
import { runningWatch } from '../run/watch/watchTiming.ts'
import { crossCheckIn, readingOf } from './crossCheck.ts'
import { flowHeard, isSaid, situationHeard, watchHeard } from './hearCalls.ts'
import { briefingHeard, isHalfOther, secondThoughts, transmissionIn } from './hearTalk.ts'
import { withCauses } from './lineage.ts'

/** One utterance, judged against the floor as it is now. */
export function happeningFor(pack: Pack, state: RunState, heard: Heard): Happening {
  const evidence = evidenceOf(heard)
  const overheard: Happening = { type: 'overheard', evidence }
  const { floor } = state
  if (heard.text.trim() === '' || heard.doubt === 'otherSpeech') return overheard
  if (heard.order < state.floorOrder) {
    const changed = state.revisedOrder === state.floorOrder
    const item = changed ? state.revisedItem : floor.at === 'item' ? floor.item : undefined
    return item === undefined
      ? overheard
      : { type: 'voided', item, evidence, because: changed ? 'figuresChanged' : 'late' }
  }
  // An engine that is being started is heard whatever else is open.
  const call = runningWatch(pack, state) && watchHeard(pack, state, heard, evidence)
  if (call) return call
  if (state.question?.about === 'reading') {
    const commanded = commandIn(pack, state, heard, evidence)
    const again: Happening = { type: 'commanded', command: 'sayAgain', evidence }
    return readingOf(pack, state.question, heard, evidence) ?? commanded ?? (heard.doubt ? overheard : again)
  }
  const crossCheck = state.standingBy || heard.doubt ? undefined : crossCheckIn(pack, heard.text)
  if (crossCheck) return { type: 'crossCheckAsked', ...crossCheck, evidence }
  if (state.standingBy || state.question) {
    const command = commandIn(pack, state, heard, evidence, state.question !== undefined)
    if (!state.question) return command ?? transmittedNow(talkHeard(pack, state, heard, evidence)) ?? overheard
    if (state.question.about !== 'order') return command ?? overheard
    // "Correction, flap twelve" is said of the order that was just questioned.
    const text = heard.text.replace(/^\s*correction\b[\s,]*(?=\S)/i, '')
    const reordered = talkHeard(pack, state, { ...heard, text }, evidence)
    return (text === heard.text ? (command ?? reordered) : reordered) ?? overheard
  }
  const again = secondThoughts(pack, state, heard, evidence)
  if (again) return again
  switch (floor.at) {
    case 'item':
      return answerTo(pack, state, floor.item, heard, evidence)
    case 'line': {
      const line = findLine(listById(pack, floor.list), floor.line)
      const isIn = isSaid(line.say, heard.text)
      return isIn && !heard.doubt
        ? { type: 'cleared', clearance: line.clearance, evidence }
        : beside(pack, state, heard, evidence)
    }
    case 'flow': {
      const flow = flowAt(pack, floor)
      const step = flow && flowHeard(flow, state, heard, evidence)
      return step ?? beside(pack, state, heard, evidence)
    }
    case 'exchange':
    case 'briefing':
      return talkHeard(pack, state, heard, evidence) ?? beside(pack, state, heard, evidence)
    case 'watch':
    case 'call':
    case 'end':
      return beside(pack, state, heard, evidence)
  }
}

/** The read-back that was waited for ends the wait; other speech does not. */
function transmittedNow(happening: Happening | undefined): Happening | undefined {
  return happening?.type === 'transmitted' && happening.judgement.verdict !== 'sayAgain' ? happening : undefined
}

/** Where no answer is awaited: a start that begins, a command, a situation that has changed. */
function beside(pack: Pack, state: RunState, heard: Heard, evidence: Evidence): Happening {
  return (
    watchHeard(pack, state, heard, evidence) ??
    commandIn(pack, state, heard, evidence) ??
    situationHeard(pack, state, heard, evidence) ?? { type: 'overheard', evidence }
  )
}

/** A call, a read-back, or topics of a briefing. */
function talkHeard(pack: Pack, state: RunState, heard: Heard, evidence: Evidence): Happening | undefined {
  const talk = talkAt(pack, state.floor)
  if (heard.doubt === 'onsetCut') return undefined
  // Nothing was said here yet that it could be about: it means what was closed before.
  if (talk && !isUnderWay(talk, state) && !heard.doubt && /^\s*correction\b/i.test(heard.text)) return undefined
  return talk?.type === 'exchange'
    ? transmissionIn(pack, state, talk, heard, evidence)
    : talk && briefingHeard(pack, state, talk, heard, evidence)
}

export function evidenceOf(heard: Heard): Evidence {
  const { by, text, score, alternatives, beganAt, endedAt, early } = heard
  return {
    by,
    text,
    beganAt,
    endedAt,
    ...(score !== undefined && { score }),
    ...(alternatives && { alternatives }),
    ...(early && { early }),
  }
}

/** Spoken names of what the pack has, for "call" and "confirm". */
export function namesIn(pack: Pack): Required<Pick<JudgeInput, 'lists' | 'confirmable'>> {
  const lists = listsOf(pack).map((list) => [list.id, [list.name, ...list.alsoCalled]] as const)
  const figures = Object.values(pack.figures.declarations).map((f) => [f.name, [f.label, ...f.alsoCalled]] as const)
  return { lists: Object.fromEntries(lists), confirmable: Object.fromEntries(figures) }
}

function commandIn(
  pack: Pack,
  state: RunState,
  heard: Heard,
  evidence: Evidence,
  yesNo = false,
): Happening | undefined {
  const command = heard.doubt ? undefined : readCommand(heard.text, { yesNo, ...namesIn(pack) })
  return command && !isRadioTalk(state, command, heard) ? happeningOf(command, evidence) : undefined
}

/** "Continue" is said on the radio all day; to Otherseat it means something only where it stands by. */
const isRadioTalk = ({ standingBy }: RunState, { command }: { command: string }, { by }: Heard) =>
  command === 'continue' && by === 'voice' && !standingBy

function happeningOf(command: { command: string; argument?: string }, evidence: Evidence): Happening {
  if (command.command === 'call') return { type: 'listCalled', list: command.argument ?? '', evidence }
  const { argument } = command
  return { type: 'commanded', command: command.command, evidence, ...(argument !== undefined && { argument }) }
}

function answerTo(pack: Pack, state: RunState, id: string, heard: Heard, evidence: Evidence): Happening {
  const { item } = findItem(pack, id)
  const overheard: Happening = { type: 'overheard', evidence }
  const isShaped = heard.by !== 'voice' || isAnswerShaped(pack, state, item, heard.text)
  // What is not like an answer is asked for again once: whoever talks on does not mean Otherseat.
  const isTalkedOn = (!isShaped || isHalfOther(heard)) && itemState(state, id).sayAgains > 0
  if (heard.doubt === 'onsetCut') {
    return isTalkedOn ? overheard : { type: 'voided', item: id, evidence, because: 'onsetCut' }
  }
  const late = /^\s*correction\b[\s,]*(.*)$/is.exec(heard.text)
  if (late && isFresh(state, id) && state.closed.length > 0) {
    return { type: 'commanded', command: 'correction', argument: late[1] ?? '', evidence }
  }
  const judged = judgeAnswer(pack, state, item, heard)
  const isDoubted = heard.doubt !== undefined || (!isShaped && judged.verdict !== 'command')
  const judgement = withCauses(pack, state, isDoubted ? unclear(judged) : judged)
  if (judgement.verdict === 'command' && judgement.command) {
    const { command, argument } = judgement
    if (isRadioTalk(state, { command }, heard)) return overheard
    return happeningOf({ command, ...(argument !== undefined && { argument }) }, evidence)
  }
  const situation = judgement.verdict === 'correct' ? undefined : situationHeard(pack, state, heard, evidence)
  if (situation) return situation
  if (isTalkedOn || (heard.by === 'voice' && isOtherSpeech(pack, state, item, judgement, heard))) return overheard
  const expected = restedOn(item, state)
  const { challengeRevision } = itemState(state, id)
  return { type: 'answered', item: id, evidence, judgement, expected, challengeRevision, revision: state.revision }
}

/** Nothing was said on it yet: "correction" then means the item before. */
function isFresh(state: RunState, id: string): boolean {
  const { held, misses, sayAgains } = itemState(state, id)
  return held.length === 0 && misses === 0 && sayAgains === 0
}

function judgeAnswer(pack: Pack, state: RunState, item: Item, heard: Heard): Judgement {
  const names = saidFigures(item, state.situation)
  const figures = figuresFor(pack, state.values, names)
  // An item whose figure has no value cannot be answered right, whatever is said.
  if (names.some((name) => !figures[name])) {
    const command = readCommand(heard.text, namesIn(pack))
    return command
      ? { verdict: 'command', parts: [], ...command }
      : { verdict: 'sayAgain', because: 'notUnderstood', parts: [] }
  }
  const { held, begun, implausible } = itemState(state, item.id)
  return judge({
    challenge: item.challenge,
    response: responseOf(item, state.situation),
    figures,
    heard: heard.text,
    phraseology: state.settings.phraseology,
    held,
    begun,
    implausibleBefore: implausible,
    ...namesIn(pack),
    ...(item.states && { states: item.states }),
    ...(heard.score !== undefined && { score: heard.score }),
    ...(heard.alternatives && { alternatives: heard.alternatives }),
  })
}

/** What the ear does not stand by, or nobody answers so, is never right, wrong or a command. */
const unclear = ({ parts }: Judgement): Judgement => ({ verdict: 'sayAgain', because: 'notUnderstood', parts })

function isAnswerShaped(pack: Pack, state: RunState, item: Item, text: string): boolean {
  const shapes = Object.values(specsOf(pack, saidFigures(item, state.situation)))
  return hasAnswerShape(shapes, item.challenge, text)
}

/** Other speech in the room draws no reaction: nothing in it has the form of an answer to the item. */
function isOtherSpeech(pack: Pack, state: RunState, item: Item, judgement: Judgement, heard: Heard): boolean {
  if (judgement.verdict !== 'sayAgain' || judgement.because !== 'notUnderstood') return false
  const { challenge, states } = item
  const response = responseOf(item, state.situation)
  const specs = specsOf(pack, saidFigures(item, state.situation))
  return isWhole(response, specs, heard.text, { challenge, ...(states && { states }) }) === 'none'
}
