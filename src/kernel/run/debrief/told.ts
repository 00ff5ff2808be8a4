/**
 * Where the debrief takes each event and each command from: the event itself, the state that it leaves, or nothing. One
 * that is added to `events.ts` or `commands.ts` does not compile until that is decided here.
 */

import { activityName, listById } from '../../pack/place.ts'
import { quirkIn } from '../../pack/quirks.ts'
import type { EventType, RunCommand } from '../core/events.ts'
import { placeName } from '../core/interruption.ts'
import { flowAt } from '../list/flowSteps.ts'
import { turnState } from '../talk/talk.ts'
import { tellBriefed, tellBriefingEnded } from './debriefBriefing.ts'
import { tellAcknowledged, tellOwnValue, tellRevision } from './debriefFigures.ts'
import { tellHandled } from './debriefPapers.ts'
import { tellAskedAgain } from './debriefTalk.ts'
import { answerOf, asObjection, transmissionOf } from './debriefTry.ts'
import { tellAttempts } from './debriefWatch.ts'
import { tellLook } from './look/looks.ts'
import { tellNotEnded } from './notEnded.ts'
import { add, count, type Moment, reopenedBetween, type Tally, type Tell, type TooEarly } from './tally.ts'
import { tooEarlyIn } from './tooEarly.ts'

type Told<Type extends EventType> = Tell<Type> | 'from the state' | 'nothing'

const EVENTS_TOLD: { readonly [Type in EventType]: Told<Type> } = {
  runStarted: 'from the state',
  begunAt: 'from the state',
  demonstrated: 'from the state',
  frozen: 'nothing',
  unfrozen: 'nothing',
  figuresRevised: tellRevision,
  sheetCame: 'from the state',
  paperHandled: tellHandled,
  padWritten: 'from the state',
  crossCheckAsked: 'nothing',
  stated: (tally, { event }) => {
    tally.readAloud = event
  },
  ownValueSaid: tellOwnValue,
  ownValueBegun: 'nothing',
  situationSet: (tally, { pack, event }) => {
    const situation = pack.situations.find(({ name }) => name === event.name)
    if (!situation) return
    const option = situation.options.find(({ value }) => value === event.value)?.label ?? event.value
    tally.situations.push({ t: event.t, label: situation.label, option })
  },
  cleared: 'nothing',
  listCalled: (tally, { pack, event, before, after: { question } }) => {
    if (question?.about !== 'outOfOrder' || question === before.question) return
    const { list, next } = question
    tally.outOfOrder.push({ t: event.t, list: listById(pack, list).name, before: activityName(pack, next) })
  },
  stepDone: 'from the state',
  flowClosed: 'from the state',
  flowAsked: 'nothing',
  answered: (tally, { event, after, early }) =>
    add(tally.answers, event.item, { ...answerOf(after, event), ...refusal(early) }),
  voided: (tally) => {
    tally.voided++
  },
  transmitted: (tally, { event, before, after, early }) => {
    const isObjection =
      turnState(before, event.turn).slip !== 'noticed' && turnState(after, event.turn).slip === 'noticed'
    const told = transmissionOf(after, event)
    add(tally.transmissions, event.turn, isObjection ? asObjection(told) : { ...told, ...refusal(early) })
  },
  briefed: tellBriefed,
  briefingEnded: tellBriefingEnded,
  wordsShown: 'from the state',
  overheard: 'nothing',
  commanded: (tally, moment) => {
    const told = COMMANDS_TOLD[moment.event.command]
    if (typeof told === 'function') told(tally, moment)
  },
  confirmedByKey: 'from the state',
  radioed: 'from the state',
  faultPlanned: 'from the state',
  breakPlanned: 'from the state',
  injected: 'from the state',
  breakOver: 'from the state',
  challenged: 'from the state',
  accepted: 'from the state',
  objected: 'from the state',
  watchBegan: 'from the state',
  watchCalled: 'from the state',
  watchStopped: 'from the state',
  watchDue: 'from the state',
  timeUp: 'nothing',
  silent: 'nothing',
  earFailed: 'nothing',
  earBack: 'nothing',
  voiceFailed: 'nothing',
  resumed: 'from the state',
  stopped: 'nothing',
  ended: 'nothing',
}

const COMMANDS_TOLD: Readonly<Record<RunCommand, Told<'commanded'>>> = {
  stop: (tally, { pack, event, before }) => {
    tally.stops.push({ t: event.t, text: event.evidence.text, at: placeName(pack, before) })
  },
  sayAgain: tellAskedAgain,
  standBy: 'from the state',
  continue: 'from the state',
  disregard: 'nothing',
  correction: 'from the state',
  whatIsLeft: 'nothing',
  whereAreWe: 'nothing',
  whatCanISay: 'nothing',
  skip: 'nothing',
  goBack: 'from the state',
  recheck: 'from the state',
  fromTop: 'from the state',
  leaveOpen: 'from the state',
  pass: 'from the state',
  confirm: 'from the state',
  remark: (tally, { pack, event }) => {
    const text = event.argument ?? event.evidence.text
    const quirk = quirkIn(pack, text)
    tally.remarks.push({ t: event.t, text, ...(quirk && { known: quirk.say }) })
  },
  radioCheck: 'nothing',
  affirm: tellAcknowledged,
  negative: ({ outOfOrder }, { before, after }) => {
    const last = outOfOrder.at(-1)
    const { question } = before
    const isRun = question?.about === 'outOfOrder' && after.lists[question.list]?.called
    if (isRun && last) outOfOrder.splice(-1, 1, { ...last, wasRun: true })
  },
}

/** In a try that was right and came too early: what had to come first. */
const refusal = (early: TooEarly | undefined) => (early ? { tooEarly: early.caution } : {})

/** Notes one event, and what it changed. */
export function tell<Type extends EventType>(tally: Tally, moment: Moment<Type>): void {
  const early = tooEarlyIn(moment)
  const told: Told<Type> = EVENTS_TOLD[moment.event.type]
  if (typeof told === 'function') told(tally, { ...moment, ...(early && { early }) })
  if (early) tally.tooEarly.push(early)
  for (const id of reopenedBetween(moment.before, moment.after)) count(tally.reopened, id)
  tellAttempts(tally, moment)
  tellNotEnded(tally, moment)
  tellGiven(tally, moment)
  tellLook(tally, moment)
}

/** Flows read out and values given, each when it was first. */
function tellGiven({ readOut, givenAt }: Tally, { pack, event, before, after }: Moment): void {
  const flow = after.readingFlow ? flowAt(pack, after.floor) : undefined
  if (flow && !readOut.has(flow.id)) readOut.set(flow.id, event.t)
  const items = Object.keys(after.items).filter((id) => after.items[id]?.revealed && !before.items[id]?.revealed)
  for (const id of items) if (!givenAt.has(id)) givenAt.set(id, event.t)
}
