/** What a key or a click means as a body. */

import type { Pack } from '../../kernel/pack/checklist.ts'
import { findItem } from '../../kernel/pack/place.ts'
import type { EventBody, Evidence } from '../../kernel/run/core/events.ts'
import type { RunState } from '../../kernel/run/core/state.ts'
import { restedOn } from '../../kernel/run/core/turn.ts'
import type { Press } from '../view/press.ts'

/** A key or a click, logged as just that. */
export function pressed(pack: Pack | undefined, run: RunState, press: Press, now: number): EventBody | undefined {
  const evidence: Evidence = { by: 'key', text: '' }
  switch (press.type) {
    case 'command':
      return {
        type: 'commanded',
        command: press.command,
        evidence,
        ...(press.argument !== undefined && { argument: press.argument }),
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
      return { type: 'watchBegan', watch: press.watch, at: now - run.startedAt, evidence }
    case 'watchCall':
      return { type: 'watchCalled', watch: press.watch, call: press.call, at: now - run.startedAt, evidence }
    case 'watchAbnormal':
      return { type: 'watchStopped', watch: press.watch, abnormal: press.abnormal, at: now - run.startedAt, evidence }
    case 'situation':
      return { type: 'situationSet', name: press.name, value: press.value, evidence }
    case 'confirmTurn':
      return {
        type: 'transmitted',
        exchange: press.turn.split('.')[0] ?? '',
        turn: press.turn,
        part: press.part,
        evidence,
        judgement: { verdict: 'correct', parts: [] },
        expected: {},
        revision: run.revision,
      }
    case 'showWords':
      return { type: 'wordsShown', turn: press.turn, evidence }
    case 'briefingDone':
      return { type: 'briefingEnded', briefing: press.briefing, evidence }
    case 'confirmItem': {
      if (!pack) return undefined
      const { item } = findItem(pack, press.item)
      const expected = restedOn(item, run)
      return { type: 'confirmedByKey', item: press.item, evidence, expected, revision: run.revision }
    }
  }
}
