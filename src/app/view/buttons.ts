/** What may be pressed now: each button does what its phrase does when spoken. */

import type { Item, Pack } from '../../kernel/pack/checklist.ts'
import { findItem, findLine, listById, saidFigures } from '../../kernel/pack/place.ts'
import { PASS_REASONS, type PassReason, phraseOf, reasonWords } from '../../kernel/response/commands.ts'
import { usualWording } from '../../kernel/response/sentence.ts'
import { dueList } from '../../kernel/run/core/dueList.ts'
import type { RunCommand } from '../../kernel/run/core/events.ts'
import { isForValue } from '../../kernel/run/core/ownQuestion.ts'
import type { Floor, RunState } from '../../kernel/run/core/state.ts'
import { groundCrewOf } from '../../kernel/run/core/stopping.ts'
import { radioBreath } from '../../kernel/run/partner/breath.ts'
import { meantBy } from '../../kernel/run/partner/meant.ts'
import { hasPartner, isWithoutCue, partnerOf, pilotChallenges } from '../../kernel/run/partner/partner.ts'
import { openCalls, watchAt, watchState } from '../../kernel/run/watch/watchTiming.ts'
import type { ViewButton } from './press.ts'
import { talkButtons } from './talkButtons.ts'

/** What stands on the button of each command; undefined where a command is only said or typed, with what it is about. */
const LABELS: Readonly<Record<RunCommand, string | undefined>> = {
  stop: 'Stop',
  sayAgain: 'Say again',
  standBy: 'Stand by',
  continue: 'Continue',
  disregard: 'Disregard',
  correction: undefined,
  whatIsLeft: 'What is left',
  whereAreWe: undefined,
  whatCanISay: undefined,
  skip: undefined,
  goBack: 'Go back one',
  recheck: undefined,
  fromTop: 'From the top',
  leaveOpen: 'Leave it open',
  pass: 'Pass',
  confirm: undefined,
  remark: undefined,
  radioCheck: undefined,
  affirm: 'Affirm',
  negative: 'Negative',
}

const buttonOf = (command: RunCommand): ViewButton[] => {
  const label = LABELS[command]
  return label === undefined ? [] : [{ label, phrase: phraseOf(command), press: { type: 'command', command } }]
}
const buttonsFor = (...commands: RunCommand[]): ViewButton[] => commands.flatMap(buttonOf)

/** What may be pressed now; each button is also a phrase. */
export function buttonsOf(pack: Pack, run: RunState): ViewButton[] {
  const { floor, question } = run
  if (run.status !== 'running') return []
  if (run.standingBy) return buttonsFor('continue')
  if (question && isForValue(question)) return buttonsFor('sayAgain', 'disregard')
  if (question?.about === 'passReason') return [...REASONS, ...buttonsFor('disregard')]
  if (
    floor.at === 'watch' &&
    (question?.about === 'callOrder' || question?.about === 'callEarly' || question?.about === 'callValue')
  ) {
    return [...buttonsFor('affirm', 'negative'), ...watchButtons(pack, run, floor)]
  }
  if (question) return buttonsFor('affirm', 'negative')
  const onRadio = checkButton(pack, run)
  const anywhere = [
    ...onRadio,
    ...(groundCrewOf(pack, run) ? buttonsFor('stop') : []),
    ...buttonsFor('sayAgain', 'standBy'),
  ]
  switch (floor.at) {
    case 'item':
      return [
        ...partnerButtons(pack, run, floor.item),
        ...confirmButtons(pack, run, floor.item),
        ...anywhere.filter((one) => !onRadio.includes(one)),
        ...ITEM_BUTTONS,
      ]
    case 'line': {
      const line = findLine(listById(pack, floor.list), floor.line)
      return [
        {
          label: capital(line.label),
          phrase: usualWording(line.say),
          press: { type: 'cleared', clearance: line.clearance },
        },
        ...anywhere,
      ]
    }
    case 'flow': {
      const flow = pack.phases[floor.phase]?.activities[floor.activity]
      const close: ViewButton = {
        label: 'Flow done',
        phrase: 'done',
        press: { type: 'flowDone', flow: flow?.id ?? '' },
      }
      return flow ? [close, ...callButton(pack, run), ...anywhere] : anywhere
    }
    case 'watch':
      return [...watchButtons(pack, run, floor), ...buttonsFor('stop', 'fromTop', 'sayAgain')]
    case 'exchange':
    case 'briefing': {
      // "Stop" comes first where it may be needed, and what would be refused now comes last: many of them fill a phone.
      const stop = groundCrewOf(pack, run) ? buttonsFor('stop') : []
      const talk = talkButtons(pack, run)
      const waiting = talk.filter(({ waitsFor }) => waitsFor !== undefined)
      const ready = talk.filter((one) => !waiting.includes(one))
      return [...stop, ...ready, ...onRadio, ...buttonsFor('sayAgain', 'standBy', 'fromTop'), ...waiting]
    }
    case 'call':
      return [...callButton(pack, run), ...anywhere]
    case 'end':
      return buttonsFor('whatIsLeft')
  }
}

const passFor = (reason: PassReason): ViewButton['press'] => ({ type: 'command', command: 'pass', argument: reason })

/** The reasons, where one is asked for. */
const REASONS: readonly ViewButton[] = PASS_REASONS.map((reason) => ({
  label: capital(reasonWords(reason)),
  phrase: reasonWords(reason),
  press: passFor(reason),
}))

/** Each passes the open item for a reason at once. */
const PASSES: readonly ViewButton[] = PASS_REASONS.map((reason) => ({
  label: `${LABELS.pass}: ${reasonWords(reason)}`,
  phrase: `${phraseOf('pass')}, ${reasonWords(reason)}`,
  press: passFor(reason),
  isPass: true,
}))

const ITEM_BUTTONS: readonly ViewButton[] = [...buttonsFor('goBack', 'fromTop', 'whatIsLeft', 'leaveOpen'), ...PASSES]

/** Behind a read-back of the colleague's, wherever the run has gone on to. */
function checkButton(pack: Pack, run: RunState): ViewButton[] {
  const chance = radioBreath(pack, run).length > 0 ? meantBy(pack, run, 'any') : undefined
  return chance === undefined ? [] : [{ label: 'Check that', phrase: 'check that', press: { type: 'object', chance } }]
}

/** What is said to the partner at an item. */
function partnerButtons(pack: Pack, run: RunState, id: string): ViewButton[] {
  const { challenge } = findItem(pack, id).item
  const { answered, breaks } = partnerOf(run)
  const chance = hasPartner(run) ? meantBy(pack, run, 'any') : undefined
  const isInterrupted = breaks.some(({ overAt, place }) => overAt === undefined && place === undefined)
  const isChallenged = answered === id
  return [
    ...(isInterrupted
      ? [{ label: 'One moment', phrase: 'one moment', press: { type: 'breakOver' } } satisfies ViewButton]
      : []),
    ...(pilotChallenges(run) && !isChallenged && !isWithoutCue(run)
      ? [{ label: 'Challenge', phrase: challenge, press: { type: 'challenge', item: id } } satisfies ViewButton]
      : []),
    ...(isChallenged
      ? [{ label: 'Checked', phrase: 'checked', press: { type: 'accept', item: id } } satisfies ViewButton]
      : []),
    ...(chance === undefined
      ? []
      : [{ label: 'Check that', phrase: 'check that', press: { type: 'object', chance } } satisfies ViewButton]),
  ]
}

/** A word item may be confirmed by key; values are typed. A question has its answers, an optional item may be left out. */
function confirmButtons(pack: Pack, run: RunState, id: string): ViewButton[] {
  const { item } = findItem(pack, id)
  const { optional, decides } = item
  if (decides) {
    const options = pack.situations.find(({ name }) => name === decides.situation)?.options ?? []
    return options.map(({ label, say, value }) => ({
      label: capital(label),
      phrase: usualWording(say),
      press: { type: 'situation', name: decides.situation, value },
    }))
  }
  const skip: ViewButton = {
    label: capital(reasonWords('notApplicable')),
    phrase: reasonWords('notApplicable'),
    press: passFor('notApplicable'),
  }
  return [...confirmButton(item, run), ...(optional ? [skip] : [])]
}

function confirmButton(item: Item, run: RunState): ViewButton[] {
  if (saidFigures(item, run).length > 0) return []
  return [{ label: 'Confirm by key', phrase: '', press: { type: 'confirmItem', item: item.id } }]
}

/** What may be called now: its beginning, the next calls, and every abnormal one. */
function watchButtons(pack: Pack, run: RunState, floor: Extract<Floor, { at: 'watch' }>): ViewButton[] {
  const watch = watchAt(pack, floor, run)
  if (!watch) return []
  const state = watchState(run, watch.id)
  const { id } = watch
  if (state.status === 'ahead') {
    return [{ label: 'Begin', phrase: usualWording(watch.begins), press: { type: 'watchBegin', watch: id } }]
  }
  const open = state.status === 'running' ? openCalls(watch, state) : []
  const calls = open.map(
    ({ call }): ViewButton => ({
      label: call.label,
      phrase: usualWording(call.say),
      press: { type: 'watchCall', watch: id, call: call.id },
    }),
  )
  const abnormal = watch.abnormal.map(
    (one): ViewButton => ({
      label: one.label,
      phrase: usualWording(one.say),
      press: { type: 'watchAbnormal', watch: id, abnormal: one.id },
    }),
  )
  return [...calls, ...abnormal]
}

function callButton(pack: Pack, run: RunState): ViewButton[] {
  const due = dueList(pack, run)
  return due ? [{ label: `Call ${due.name}`, phrase: due.name, press: { type: 'call', list: due.id } }] : []
}

function capital(text: string): string {
  return `${text[0]?.toUpperCase() ?? ''}${text.slice(1)}`
}
