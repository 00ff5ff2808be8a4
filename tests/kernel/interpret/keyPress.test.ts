/** What each key means: the event that its phrase would be, logged as a key's. */

import { describe, expect, it } from 'vitest'
import { buttonsOf } from '../../../src/app/view/buttons.ts'
import { interpret } from '../../../src/kernel/interpret/interpret.ts'
import { keyPress, type Press } from '../../../src/kernel/interpret/keyPress.ts'
import type { Pack } from '../../../src/kernel/pack/checklist.ts'
import type { RunState } from '../../../src/kernel/run/core/state.ts'
import { begun, call, PACK } from '../run/fixture.ts'
import { beforeEngine, began, inFlow, STARTING } from '../run/startFixture.ts'
import { TALK, talkRun } from '../run/talkFixture.ts'

const ROWS: readonly (readonly [Press, object])[] = [
  [
    { type: 'command', command: 'standBy' },
    { type: 'commanded', command: 'standBy' },
  ],
  [
    { type: 'command', command: 'pass', argument: 'training' },
    { type: 'commanded', argument: 'training' },
  ],
  [
    { type: 'crossCheck', figure: 'trim', source: 'loadSheet' },
    { type: 'crossCheckAsked', figure: 'trim', source: 'loadSheet' },
  ],
  [
    { type: 'call', list: 'load' },
    { type: 'listCalled', list: 'load' },
  ],
  [
    { type: 'cleared', clearance: 'push' },
    { type: 'cleared', clearance: 'push' },
  ],
  [
    { type: 'stepDone', step: 'loadFlow.setTrim' },
    { type: 'stepDone', step: 'loadFlow.setTrim' },
  ],
  [
    { type: 'flowDone', flow: 'loadFlow' },
    { type: 'flowClosed', flow: 'loadFlow' },
  ],
  [
    { type: 'watchBegin', watch: 'engine' },
    { type: 'watchBegan', watch: 'engine', at: 4_000 },
  ],
  [
    { type: 'watchCall', watch: 'engine', call: 'light' },
    { type: 'watchCalled', watch: 'engine', call: 'light', at: 4_000 },
  ],
  [
    { type: 'watchAbnormal', watch: 'engine', abnormal: 'hot' },
    { type: 'watchStopped', watch: 'engine', abnormal: 'hot', at: 4_000 },
  ],
  [
    { type: 'situation', name: 'stand', value: 'self' },
    { type: 'situationSet', name: 'stand', value: 'self' },
  ],
  [
    { type: 'confirmItem', item: 'load.windows' },
    { type: 'confirmedByKey', item: 'load.windows', expected: {}, revision: 1 },
  ],
  [
    { type: 'confirmItem', item: 'start.beacon' },
    { type: 'confirmedByKey', item: 'start.beacon', expected: { flap: 14 } },
  ],
  [
    { type: 'confirmTurn', turn: 'crew.beacon', part: 'call' },
    { type: 'transmitted', exchange: 'crew', turn: 'crew.beacon', part: 'call', judgement: { verdict: 'correct' } },
  ],
  [
    { type: 'showWords', turn: 'clearance.full' },
    { type: 'wordsShown', turn: 'clearance.full' },
  ],
  [
    { type: 'briefingDone', briefing: 'briefing' },
    { type: 'briefingEnded', briefing: 'briefing' },
  ],
]

describe('a key', () => {
  it.each(ROWS)('%o is %o', (press, event) => {
    const state = { ...begun().state, startedAt: 1_000 }
    expect(keyPress(PACK, state, press, 5_000)).toMatchObject({
      ...event,
      evidence: { by: 'key', text: '' },
    })
  })

  it('for an item that the pack does not have says which', () => {
    const press: Press = { type: 'confirmItem', item: 'load.nope' }
    expect(() => keyPress(PACK, begun().state, press, 0)).toThrow('pack fixture has no item load.nope')
  })
})

const PLACES: readonly (readonly [string, Pack, RunState])[] = [
  ['in a flow', STARTING, inFlow().state],
  ['at an item', PACK, begun().happen(call('load')).state],
  ['standing by', PACK, begun().happen(call('load')).command('standBy').state],
  ['asked yes or no', PACK, begun().happen(call('start')).state],
  ['asked for the reason of a pass', PACK, begun().happen(call('load')).command('pass').state],
  ['before an engine start', STARTING, beforeEngine().state],
  ['in an engine start', STARTING, beforeEngine().happen(began(4_000)).state],
  ['before a clearance', TALK, talkRun().state],
]

describe('every button', () => {
  it.each(PLACES)('does what the phrase beside it does, %s', (_, pack, state) => {
    const buttons = buttonsOf(pack, state)
    expect(buttons.length).toBeGreaterThan(0)
    for (const { phrase, press } of buttons) {
      const heard = { text: phrase, by: 'typed', listenId: state.listenId, beganAt: 4_000, endedAt: 4_500 } as const
      const { evidence: _said, ...said } = { evidence: undefined, ...interpret(pack, state, heard).event }
      const { evidence: _pressed, ...pressed } = { evidence: undefined, ...keyPress(pack, state, press, 4_000) }
      expect(said, phrase).toMatchObject(pressed.type === 'transmitted' ? { ...pressed, judgement: {} } : pressed)
    }
  })
})
