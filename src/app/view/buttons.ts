/** What may be pressed now: each button does what its phrase does when spoken. */

import type { Pack } from '../../kernel/pack/checklist.ts'
import { findItem, findLine, listById, saidFigures } from '../../kernel/pack/place.ts'
import { usualWording } from '../../kernel/response/sentence.ts'
import { dueList } from '../../kernel/run/core/moving.ts'
import { REASON_WORDS } from '../../kernel/run/core/phrases.ts'
import type { Floor, RunState } from '../../kernel/run/core/state.ts'
import { nextCall, watchState } from '../../kernel/run/watch/watchTiming.ts'
import type { ViewButton } from './press.ts'
import { talkButtons } from './talkButtons.ts'

const command = (label: string, phrase: string, name: string, argument?: string): ViewButton => ({
  label,
  phrase,
  press: { type: 'command', command: name, ...(argument !== undefined && { argument }) },
})

/** What may be pressed now; each button is also a phrase. */
export function buttonsOf(pack: Pack, run: RunState): ViewButton[] {
  const { floor, question } = run
  if (run.status !== 'running') return []
  if (run.standingBy) return [command('Continue', 'continue', 'continue')]
  if (question?.about === 'reading') {
    return [command('Say again', 'say again', 'sayAgain'), command('Disregard', 'disregard', 'disregard')]
  }
  if (question?.about === 'callOrder' && floor.at === 'watch') {
    return [...YES_NO, ...watchButtons(pack, run, floor)]
  }
  if (question) return [...YES_NO]
  const again = command('Say again', 'say again', 'sayAgain')
  const standBy = command('Stand by', 'stand by', 'standBy')
  switch (floor.at) {
    case 'item':
      return [...confirmButton(pack, run, floor.item), again, standBy, ...ITEM_BUTTONS]
    case 'line': {
      const line = findLine(listById(pack, floor.list), floor.line)
      return [
        {
          label: capital(line.label),
          phrase: usualWording(line.say),
          press: { type: 'cleared', clearance: line.clearance },
        },
        again,
        standBy,
      ]
    }
    case 'flow': {
      const flow = pack.phases[floor.phase]?.activities[floor.activity]
      const close: ViewButton = {
        label: 'Flow done',
        phrase: 'done',
        press: { type: 'flowDone', flow: flow?.id ?? '' },
      }
      return flow ? [close, ...callButton(pack, run), again, standBy] : [again, standBy]
    }
    case 'watch':
      return [...watchButtons(pack, run, floor), command('From the top', 'from the top', 'fromTop'), again]
    case 'exchange':
    case 'briefing':
      return [...talkButtons(pack, run), again, standBy, command('From the top', 'from the top', 'fromTop')]
    case 'call':
      return [...callButton(pack, run), again, standBy]
    case 'end':
      return [command('What is left', 'what is left', 'whatIsLeft')]
  }
}

const YES_NO = [command('Affirm', 'affirm', 'affirm'), command('Negative', 'negative', 'negative')] as const

const ITEM_BUTTONS: readonly ViewButton[] = [
  command('Go back one', 'go back one', 'goBack'),
  command('From the top', 'from the top', 'fromTop'),
  command('What is left', 'what is left', 'whatIsLeft'),
  command('Leave it open', 'leave it open', 'leaveOpen'),
  ...Object.entries(REASON_WORDS).map(([reason, label]) => command(`Pass: ${label}`, `pass, ${label}`, 'pass', reason)),
]

/** A word item may be confirmed by key; values are typed. */
function confirmButton(pack: Pack, run: RunState, id: string): ViewButton[] {
  const { item } = findItem(pack, id)
  if (saidFigures(item, run.situation).length > 0) return []
  return [{ label: 'Confirm by key', phrase: 'your answer', press: { type: 'confirmItem', item: id } }]
}

/** What may be called now: its beginning, the next call, and every abnormal one. */
function watchButtons(pack: Pack, run: RunState, floor: Extract<Floor, { at: 'watch' }>): ViewButton[] {
  const watch = pack.phases[floor.phase]?.activities[floor.activity]
  if (watch?.type !== 'watch') return []
  const state = watchState(run, watch.id)
  const { id } = watch
  if (state.status === 'ahead') {
    return [{ label: 'Begin', phrase: usualWording(watch.begins), press: { type: 'watchBegin', watch: id } }]
  }
  const next = state.status === 'running' ? nextCall(watch, state)?.call : undefined
  const call: ViewButton[] = next
    ? [{ label: next.label, phrase: usualWording(next.say), press: { type: 'watchCall', watch: id, call: next.id } }]
    : []
  const abnormal = watch.abnormal.map(
    (one): ViewButton => ({
      label: one.label,
      phrase: usualWording(one.say),
      press: { type: 'watchAbnormal', watch: id, abnormal: one.id },
    }),
  )
  return [...call, ...abnormal]
}

function callButton(pack: Pack, run: RunState): ViewButton[] {
  const due = dueList(pack, run)
  return due ? [{ label: `Call ${due.name}`, phrase: due.name, press: { type: 'call', list: due.id } }] : []
}

const capital = (text: string) => `${text[0]?.toUpperCase() ?? ''}${text.slice(1)}`
