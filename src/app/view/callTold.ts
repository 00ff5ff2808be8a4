/** What a room is told of a start and its calls: which call it was taken for, what was read out with it, and how it stands. */

import { capital } from '../../kernel/capital.ts'
import { partsOfCall } from '../../kernel/interpret/watchCall.ts'
import type { Figure, Value } from '../../kernel/kinds/kind.ts'
import { showValue } from '../../kernel/kinds/table.ts'
import { transcriptOf } from '../../kernel/numbers/tokens.ts'
import type { CallValue, Pack, Watch, WatchCall } from '../../kernel/pack/checklist.ts'
import { bandWords } from '../../kernel/response/explain.ts'
import type { Part } from '../../kernel/response/model.ts'
import type { RunEvent } from '../../kernel/run/core/events.ts'
import { verdictOf } from '../../kernel/run/core/forRoom.ts'
import type { RunState } from '../../kernel/run/core/state.ts'
import { step } from '../../kernel/run/core/step.ts'
import { type CallOutcome, callOutcome } from '../../kernel/run/watch/callOutcome.ts'
import { missingBefore, timed, watchById, watchState } from '../../kernel/run/watch/watchTiming.ts'
import type { DemonstrationView } from './demonstrated.ts'
import { type ReadWords, readWords } from './readWords.ts'

type WatchEvent = RunEvent<'watchBegan'> | RunEvent<'watchCalled'> | RunEvent<'watchStopped'>
interface CallMoment {
  readonly before: RunState
  readonly event: WatchEvent
}
type Told = Pick<DemonstrationView, 'challenge' | 'read' | 'judgement' | 'verdict' | 'why'>

export function callTold(pack: Pack, { before, event }: CallMoment): Told {
  const after = step(pack, before, event).state
  const watch = watchById(pack, event.watch, before)
  const same = {
    challenge: watch.name,
    judgement: { verdict: verdictOf(before, after, event), parts: [] },
  }
  switch (event.type) {
    case 'watchBegan': {
      const isBegun = same.judgement.verdict === 'correct'
      return {
        ...same,
        read: wordsOf(event, { label: watch.name, say: watch.begins }, isBegun),
        verdict: isBegun ? 'Begun' : 'Not begun',
        why: isBegun ? 'The time of the start runs from here.' : after.said,
      }
    }
    case 'watchStopped': {
      const {
        label = '',
        say = watch.begins,
        stopWords = '',
        actions = [],
      } = watch.abnormal.find(({ id }) => id === event.abnormal) ?? {}
      const read = wordsOf(event, { label, say }, true)
      if (same.judgement.verdict !== 'correct')
        return { ...same, read, verdict: CALL_VERDICTS.noStart, why: after.said }
      const orders = [stopWords, ...actions].join(', ')
      return {
        ...same,
        read,
        verdict: 'Stopped',
        why: `It is an abnormal call of this start, and stops it at once: ${orders}.`,
      }
    }
    case 'watchCalled': {
      const call = watch.calls.find(({ id }) => id === event.call)
      if (!call) return { ...same, read: [], why: '' }
      const outcome = callOutcome(before, after, event)
      return {
        ...same,
        read: wordsOf(event, call, same.judgement.verdict === 'correct'),
        verdict: CALL_VERDICTS[outcome],
        why: `${capital(clausesOf(watch, { before, event }, call, outcome).join('; '))}.`,
      }
    }
  }
}

export const CALL_VERDICTS: Readonly<Record<CallOutcome, string>> = {
  noStart: 'No start',
  taken: 'Correct',
  late: 'Late',
  tooEarly: 'Too early',
  outOfOrder: 'Out of order',
  outOfLimits: 'Out of limits',
  unlikely: 'Unlikely',
  doesNotFit: 'Does not fit',
  noValue: 'Value missing',
  again: 'Called before',
}

/** Words of a call that is not taken are its words all the same: they are neither right nor wrong. */
function wordsOf(
  { evidence }: WatchEvent,
  call: Pick<WatchCall, 'label' | 'say' | 'value'>,
  isTaken: boolean,
): ReadWords[] {
  const parts = partsOfCall(call, transcriptOf(evidence.text))
  return readWords(evidence.text, parts, (part) => {
    if (!part) return { state: 'beside', label: 'let through' }
    return isValue(part) && call.value
      ? valueRead(part, call.value)
      : { state: isTaken ? 'ok' : 'beside', label: call.label }
  })
}

const isValue = ({ kind, name }: Part): boolean => kind === 'figure' && name === 'value'

const valueRead = ({ state, read }: Part, value: CallValue): Omit<ReadWords, 'words'> => ({
  state,
  label: value.label ?? 'value',
  ...(read !== undefined && { read: shown(value, read) }),
})

const shown = ({ spec }: CallValue, value: Value): string => showValue({ ...spec, value } as Figure)

/** Its turn, its time, and its value, each with what they were held against. */
function clausesOf(
  watch: Watch,
  { before, event }: { readonly before: RunState; readonly event: RunEvent<'watchCalled'> },
  call: WatchCall,
  outcome: CallOutcome,
): string[] {
  if (outcome === 'noStart') return ['no start is running']
  const own = watchState(before, watch.id)
  if (outcome === 'again') return ['it had been called, and stands']
  const missing = missingBefore(watch, own, call.id)
  const order = missing ? `${missing.label} comes before it` : 'in its turn'
  return [order, ...(missing ? [] : timeOf(watch, { before, event }, call)), ...readOutOf(call, event)]
}

function timeOf(watch: Watch, { before, event }: CallMoment, call: WatchCall): string[] {
  const own = watchState(before, watch.id)
  const { since, soonestAt, dueAt } = timed(watch, own, call)
  const named = watch.calls.find(({ id }) => id === call.after)?.label ?? 'the call before'
  const after = since === own.beganAt ? 'the beginning' : named
  const at = 'at' in event ? event.at : since
  const called = `${inSeconds(at - since)} after ${after}`
  if (soonestAt !== undefined && at < soonestAt)
    return [`${called}, and nobody can have seen it before ${inSeconds(soonestAt - since)}`]
  if (dueAt === undefined) return []
  const limit = inSeconds(dueAt - since)
  return [at > dueAt ? `${called}, for ${limit} at most` : `${called}, within ${limit}`]
}

const inSeconds = (ms: number): string => `${Math.round(ms / 1_000)} s`

function readOutOf({ label, value }: WatchCall, { value: read, inRange }: RunEvent<'watchCalled'>): string[] {
  if (!value) return []
  const name = value.label ?? label
  if (read === undefined) return [`its ${value.label ?? 'value'} is still to be read out`]
  const band = `${name} ${shown(value, read)} is ${inRange === false ? 'outside' : 'inside'}: ${bandWords(value)}`
  return inRange === false && value.stopWords !== undefined ? [band, `${value.stopWords}, or recheck`] : [band]
}
