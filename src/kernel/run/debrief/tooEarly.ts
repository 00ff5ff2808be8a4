/**
 * What was called done before its time: right as said and refused all the same, since something that protects somebody had
 * to come first, or because some seconds had to pass still.
 */

import { findItem, flowsOf } from '../../pack/place.ts'
import type { EventType } from '../core/events.ts'
import { type Unmet, unmet } from '../core/interlocks.ts'
import { flowAt, openSteps } from '../list/flowSteps.ts'
import { callableTurns, findTurn, turnState } from '../talk/talk.ts'
import { tooSoon } from '../watch/watching.ts'
import { watchById, watchState } from '../watch/watchTiming.ts'
import type { Moment, TooEarly } from './tally.ts'

const OF: { readonly [Type in EventType]?: NonNullable<TooEarly['of']> } = {
  answered: 'item',
  transmitted: 'call',
  watchBegan: 'start',
}

/** Undefined where the event was not refused for that. */
export function tooEarlyIn({ pack, event, before }: Moment): TooEarly | undefined {
  const of = OF[event.type]
  const early = (what: string, by: Unmet | undefined): TooEarly | undefined => {
    if (by === undefined) return undefined
    const text = 'evidence' in event ? (event.evidence?.text ?? '') : ''
    const { interlock, waitMs } = by
    const short = { ...(waitMs !== undefined && { waitMs }), ...(of && { of }) }
    return { t: event.t, text, what, caution: interlock.say, ...short }
  }
  const blocked = (interlocks: Parameters<typeof unmet>[2]) => unmet(pack, before, interlocks, event.t)
  switch (event.type) {
    case 'answered': {
      if (event.judgement.verdict !== 'correct') return undefined
      const { item } = findItem(pack, event.item)
      return early(item.challenge, blocked(item.interlocks))
    }
    case 'transmitted': {
      const { exchange, turn } = findTurn(pack, event.turn)
      const isCall = event.part === 'call' && event.judgement.verdict === 'correct'
      if (!isCall || event.revision !== before.revision || turnState(before, turn.id).slip === 'open') return undefined
      const callable = callableTurns(exchange, before)
      const [first] = callable
      const by = blocked(turn.interlocks)
      if (by || !first || callable.includes(turn)) return early(turn.label, by)
      return {
        t: event.t,
        text: event.evidence.text,
        what: turn.label,
        caution: first.label,
        isOrder: true,
        of: 'call',
      }
    }
    case 'stepDone': {
      const step = flowsOf(pack)
        .flatMap(({ steps }) => steps)
        .find(({ id }) => id === event.step)
      return step && !before.stepsDone.includes(step.id) ? early(step.text, blocked(step.interlocks)) : undefined
    }
    case 'flowClosed': {
      const flow = flowAt(pack, before.floor)
      const cautions =
        flow?.id === event.flow ? openSteps(flow, before).map((step) => early(step.text, blocked(step.interlocks))) : []
      return cautions.find((one) => one !== undefined)
    }
    case 'watchBegan': {
      const watch = watchById(pack, event.watch)
      const { status } = watchState(before, watch.id)
      if (status === 'running' || status === 'done') return undefined
      return early(watch.name, blocked(watch.interlocks) ?? tooSoon({ ...before, t: event.t }, watch))
    }
    default:
      return undefined
  }
}
