/** "What can I say": three things for this moment, by the place where the run is. Never a value (law 4). */

import type { Pack } from '../../pack/checklist.ts'
import { findItem, findLine, listById } from '../../pack/place.ts'
import { PASS_REASONS, reasonWords } from '../../response/commands.ts'
import { usualWording } from '../../response/sentence.ts'
import { callableTurns, exchangeAt, isRelayed, pendingTurn } from '../talk/talk.ts'
import { nextCall, watchAt, watchState } from '../watch/watchTiming.ts'
import { missingFigures } from './progress.ts'
import type { RunState } from './state.ts'

export function whatToSay(pack: Pack, state: RunState): readonly string[] {
  const { floor, question } = state
  if (state.standingBy) return ['continue', 'where are we', 'stop']
  if (question?.about === 'reading') return ['the value as it stands', 'say again', 'disregard']
  if (question?.about === 'ownValue') return ['the value', 'say again', 'disregard']
  if (question?.about === 'passReason') return PASS_REASONS.slice(0, 3).map(reasonWords)
  if (question?.about === 'brakes') return ['brakes set', 'say again', 'continue']
  if (question) return ['affirm', 'negative', 'say again']
  switch (floor.at) {
    case 'item': {
      // No answer can be right while a value is missing.
      const isBlocked = missingFigures(pack, state, findItem(pack, floor.item).item).length > 0
      return [isBlocked ? 'settle it on the figures page' : 'the answer', 'say again', 'leave it open']
    }
    case 'line':
      return [usualWording(findLine(listById(pack, floor.list), floor.line).say), 'stand by', 'what is left']
    case 'flow':
      return ['done', 'read the flow', 'what is left']
    case 'watch': {
      const watch = watchAt(pack, floor, state)
      const next = watch && nextCall(watch, watchState(state, watch.id))
      return [next?.call.label ?? 'from the top', 'stop', 'say again']
    }
    case 'exchange': {
      const exchange = exchangeAt(pack, floor)
      const pending = exchange && pendingTurn(exchange, state)
      if (pending && isRelayed(state, pending.id)) return ['check that', 'say again', 'stand by']
      if (pending) return ['read it back', 'say again', 'stand by']
      const [turn] = exchange ? callableTurns(exchange, state) : []
      return [turn?.label ?? 'where are we', 'say again', 'stand by']
    }
    case 'briefing':
      return ['any topic', 'briefing complete', 'what is left']
    case 'call':
      return [pack.phases[floor.phase]?.activities[floor.activity]?.name ?? '', 'stand by', 'what is left']
    case 'end':
      return ['what is left', 'where are we', 'remark']
  }
}
