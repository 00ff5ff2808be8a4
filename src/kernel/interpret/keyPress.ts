/** What a key or a click means: an event, logged as a key's and never as something said. */

import type { Pack } from '../pack/checklist.ts'
import { findItem } from '../pack/place.ts'
import type { EventBody, EventFields, Evidence, RunCommand } from '../run/core/events.ts'
import { restedOn } from '../run/core/progress.ts'
import type { RunState } from '../run/core/state.ts'
import { freezePressed } from './freeze.ts'

/** What was pressed. */
export type Press =
  | { readonly type: 'command'; readonly command: RunCommand; readonly argument?: string }
  | { readonly type: 'crossCheck'; readonly figure: string; readonly source: string }
  | { readonly type: 'call'; readonly list: string }
  | { readonly type: 'cleared'; readonly clearance: string }
  | { readonly type: 'stepDone'; readonly step: string }
  | { readonly type: 'flowDone'; readonly flow: string }
  | { readonly type: 'watchBegin'; readonly watch: string }
  | { readonly type: 'watchCall'; readonly watch: string; readonly call: string }
  | { readonly type: 'watchAbnormal'; readonly watch: string; readonly abnormal: string }
  /** An item of words alone: logged as not read back. */
  | { readonly type: 'confirmItem'; readonly item: string }
  /** A call or a read-back of words alone. */
  | { readonly type: 'confirmTurn'; readonly turn: string; readonly part: EventFields['transmitted']['part'] }
  /** Stops everything, or goes on. */
  | { readonly type: 'freeze' }
  | { readonly type: 'showWords'; readonly turn: string }
  | ({ readonly type: 'paper' } & EventFields['paperHandled'])
  | ({ readonly type: 'pad' } & EventFields['padWritten'])
  | { readonly type: 'briefingDone'; readonly briefing: string }
  /** Where the pilot challenges. */
  | { readonly type: 'challenge'; readonly item: string }
  | { readonly type: 'accept'; readonly item: string }
  /** What was said last is to be looked at again. */
  | { readonly type: 'object'; readonly chance: number }
  | { readonly type: 'breakOver' }
  | { readonly type: 'situation'; readonly name: string; readonly value: string }

const evidence: Evidence = { by: 'key', text: '' }

/** `now`: clock time, ms since 1970. Throws where the press names an item that the pack does not have. */
export function keyPress(pack: Pack, state: RunState, press: Press, now: number): EventBody {
  const at = now - state.startedAt
  const { revision } = state
  switch (press.type) {
    case 'command': {
      const { command, argument } = press
      return { type: 'commanded', command, evidence, ...(argument !== undefined && { argument }) }
    }
    case 'crossCheck':
      return { type: 'crossCheckAsked', figure: press.figure, source: press.source, evidence }
    case 'call':
      return { type: 'listCalled', list: press.list, evidence }
    case 'cleared':
      return { type: 'cleared', clearance: press.clearance, evidence }
    case 'stepDone':
      return { type: 'stepDone', step: press.step, evidence }
    case 'flowDone':
      return { type: 'flowClosed', flow: press.flow, evidence }
    case 'watchBegin':
      return { type: 'watchBegan', watch: press.watch, at, evidence }
    case 'watchCall':
      return { type: 'watchCalled', watch: press.watch, call: press.call, at, evidence }
    case 'watchAbnormal':
      return { type: 'watchStopped', watch: press.watch, abnormal: press.abnormal, at, evidence }
    case 'challenge':
      return { type: 'challenged', item: press.item, evidence }
    case 'accept':
      return { type: 'accepted', item: press.item, evidence }
    case 'object':
      return { type: 'objected', to: 'any', chance: press.chance, evidence }
    case 'breakOver':
      return { type: 'breakOver', evidence }
    case 'situation':
      return { type: 'situationSet', name: press.name, value: press.value, evidence }
    case 'confirmTurn': {
      const { turn, part } = press
      const exchange = turn.split('.')[0] ?? ''
      const judgement = { verdict: 'correct', parts: [] } as const
      return { type: 'transmitted', exchange, turn, part, evidence, judgement, expected: {}, revision }
    }
    case 'freeze':
      return freezePressed(pack, state)
    case 'showWords':
      return { type: 'wordsShown', turn: press.turn, evidence }
    case 'paper':
      return { type: 'paperHandled', edition: press.edition, how: press.how }
    case 'pad':
      return { type: 'padWritten', text: press.text, strokes: press.strokes }
    case 'briefingDone':
      return { type: 'briefingEnded', briefing: press.briefing, evidence }
    case 'confirmItem': {
      const { item } = findItem(pack, press.item)
      return { type: 'confirmedByKey', item: item.id, evidence, expected: restedOn(item, state), revision }
    }
  }
}
