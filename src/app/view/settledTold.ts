/** What a room is shown of the words that answer a question about a call of a start, or that stop it: how it stands now. */

import type { Pack } from '../../kernel/pack/checklist.ts'
import type { RunEvent } from '../../kernel/run/core/events.ts'
import type { RunState } from '../../kernel/run/core/state.ts'
import { step } from '../../kernel/run/core/step.ts'
import { callOutcome } from '../../kernel/run/watch/callOutcome.ts'
import { outsideOf } from '../../kernel/run/watch/callValue.ts'
import { runningWatch, watchById } from '../../kernel/run/watch/watchTiming.ts'
import { CALL_VERDICTS } from './callTold.ts'
import type { DemonstrationView } from './demonstrated.ts'

export interface SettledMoment {
  readonly before: RunState
  readonly event: RunEvent<'commanded'>
}
type Told = Pick<DemonstrationView, 'challenge' | 'read' | 'judgement' | 'verdict' | 'why'>

/** Whether these words change how the last call of a start stands. */
export function isSettled(pack: Pack, before: RunState, event: RunEvent): event is RunEvent<'commanded'> {
  if (event.type !== 'commanded') return false
  if (event.command === 'stop') return runningWatch(pack, before) !== undefined
  return (event.command === 'affirm' || event.command === 'negative') && aboutCall(before) !== undefined
}

function aboutCall({ question }: RunState) {
  const { about } = question ?? {}
  return about === 'callOrder' || about === 'callEarly' || about === 'callValue' ? question : undefined
}

export function settledTold(pack: Pack, { before, event }: SettledMoment): Told {
  const after = step(pack, before, event).state
  const question = aboutCall(before)
  const id = question && 'watch' in question ? question.watch : runningWatch(pack, before)?.id
  const watch = id === undefined ? undefined : watchById(pack, id, before)
  const same = {
    challenge: watch?.name ?? '',
    read: [{ words: event.evidence.text.split(' '), state: 'beside' as const, label: 'a command' }],
    why: after.said,
  }
  const negative = { verdict: 'negative', parts: [] } as const
  if (event.command === 'stop') return { ...same, verdict: 'Stopped', judgement: { verdict: 'correct', parts: [] } }
  if (!watch || !question || !('call' in question)) return { ...same, judgement: negative }
  if (event.command === 'negative')
    return { ...same, verdict: question.about === 'callOrder' ? 'Not seen' : 'Taken back', judgement: negative }
  const { id: call, value } = question.call
  const limits = watch.calls.find((one) => one.id === call)?.value
  const inRange = limits && value !== undefined ? outsideOf(limits, value) === undefined : undefined
  const outcome = callOutcome(before, after, {
    ...{ watch: watch.id, call },
    ...(value !== undefined && { value }),
    ...(inRange !== undefined && { inRange }),
  })
  const verdict = outcome === 'taken' ? 'correct' : outcome === 'noValue' ? 'incomplete' : 'negative'
  return { ...same, verdict: CALL_VERDICTS[outcome], judgement: { verdict, parts: [] } }
}
