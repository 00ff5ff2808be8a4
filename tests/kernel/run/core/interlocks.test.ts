import { describe, expect, test } from 'vitest'
import type { Activity, Pack } from '../../../../src/kernel/pack/checklist.ts'
import type { Interlock } from '../../../../src/kernel/pack/condition.ts'
import { responseFrom } from '../../../../src/kernel/response/response.ts'
import { emptyRun } from '../../../../src/kernel/run/core/emptyRun.ts'
import { isFree, stamped, unmet } from '../../../../src/kernel/run/core/interlocks.ts'
import { itemState, listState } from '../../../../src/kernel/run/core/progress.ts'
import type { ItemStatus, RunState } from '../../../../src/kernel/run/core/state.ts'
import { turnState } from '../../../../src/kernel/run/talk/talk.ts'
import { WATCH_AHEAD } from '../../../../src/kernel/run/watch/watchTiming.ts'
import { PACK } from '../fixture.ts'

const ACTIVITIES: readonly Activity[] = [
  {
    type: 'flow',
    id: 'flow',
    name: 'flow',
    steps: [
      { id: 'flow.power', text: 'power off', sets: [] },
      { id: 'flow.pin', text: 'pin in', sets: [], when: { each: { stand: ['push'] } } },
    ],
  },
  {
    type: 'list',
    id: 'list',
    name: 'list',
    alsoCalled: [],
    needsFinal: false,
    entries: [
      {
        type: 'line',
        id: 'list.push',
        clearance: 'push',
        label: 'push',
        say: responseFrom('push'),
        when: { each: { stand: ['push'] } },
      },
    ],
  },
  {
    type: 'exchange',
    id: 'ground',
    name: 'ground',
    station: { role: 'groundCrew', name: 'Ground' },
    order: 'free',
    turns: [
      { id: 'ground.signal', label: 'signal', calls: responseFrom('signal'), elements: [], sets: [], clears: 'leave' },
      {
        id: 'ground.bar',
        label: 'bar',
        calls: responseFrom('bar'),
        elements: [],
        sets: [],
        when: { each: { stand: ['push'] } },
      },
    ],
  },
  { type: 'briefing', id: 'brief', name: 'briefing', topics: [], ends: responseFrom('that is all') },
]
const TALKING: Pack = { ...PACK, phases: [{ id: 'all', name: 'all', activities: ACTIVITIES }] }

function at(change: Partial<RunState>): RunState {
  return stamped({ ...emptyRun('test'), status: 'running', situation: { stand: 'push' }, ...change }, 1_000)
}
const waitsFor = (name: string, seconds?: number): Interlock[] => [
  { after: name, say: 'first the other', ...(seconds !== undefined && { seconds }) },
]
const EMPTY = emptyRun('test')
const [NEW_ITEM, NEW_LIST, NEW_TURN] = [itemState(EMPTY, 'x'), listState(EMPTY, 'x'), turnState(EMPTY, 'x')]
const VOICES = { script: { values: {} } }

describe('an interlock', () => {
  test.each([
    ['a step', 'flow.power', {}],
    ['a clearance', 'cleared:push', {}],
    ['what the ground crew does', 'ground.signal', VOICES],
    ['a clearance that a station gives', 'cleared:leave', VOICES],
    ['a briefing', 'brief', VOICES],
    ['something that the pack does not tell of', 'cleared:start', {}],
  ])('holds back until %s is done', (_, name, change) => {
    expect(unmet(TALKING, at(change), waitsFor(name), 2_000)?.interlock.say).toBe('first the other')
  })

  test.each([
    ['a turn, where the voices outside are left out', 'ground.signal', {}],
    ['a clearance that only a station gives, where they are left out', 'cleared:leave', {}],
    ['a briefing, where they are left out', 'brief', {}],
    ['a step of another situation', 'flow.pin', { situation: { stand: 'own' } }],
    ['a turn of another situation', 'ground.bar', { ...VOICES, situation: { stand: 'own' } }],
    ['a line of another situation', 'cleared:push', { situation: { stand: 'own' } }],
  ])('does not wait for what does not apply in this run: %s', (_, name, change) => {
    expect(unmet(TALKING, at(change), waitsFor(name), 2_000)).toBeUndefined()
  })

  const item = (status: ItemStatus) => ({ items: { 'list.item': { ...NEW_ITEM, status } } })

  test.each([
    ['an item that is done', 'list.item', item('done')],
    ['an item that was passed', 'list.item', item('passed')],
    ['a list that is complete', 'list', { lists: { list: { ...NEW_LIST, complete: true } } }],
    ['an engine that runs', 'engine', { watches: { engine: { ...WATCH_AHEAD, status: 'done' as const } } }],
    [
      'a step of an exchange',
      'ground.signal',
      { ...VOICES, turns: { 'ground.signal': { ...NEW_TURN, status: 'done' as const } } },
    ],
    ['a briefing that was closed', 'brief', { ...VOICES, briefingsClosed: ['brief'] }],
    ['a clearance that is in', 'cleared:push', { cleared: ['push'] }],
  ])('is free after %s', (_, name, change) => {
    expect(unmet(TALKING, at(change), waitsFor(name), 1_000)).toBeUndefined()
    expect(isFree(TALKING, at(change), { after: name, say: '' })).toBe(true)
  })

  test.each(['open', 'leftOpen', 'reopened'] as const)('is not free after an item that is %s', (status) => {
    expect(at(item(status)).doneAt).toEqual({})
  })

  test.each([
    ['a list that was only called', 'list', { lists: { list: { ...NEW_LIST, called: true } } }],
    ['a start that was stopped', 'engine', { watches: { engine: { ...WATCH_AHEAD, status: 'stopped' as const } } }],
    [
      'a station that waits for its read-back',
      'ground.signal',
      { turns: { 'ground.signal': { ...NEW_TURN, status: 'said' as const } } },
    ],
    ['a topic that was said wrong', 'brief.level', { topics: { 'brief.level': 'wrong' as const } }],
  ])('is not free after %s', (_, name, change) => {
    expect(at({ ...VOICES, ...change }).doneAt[name]).toBeUndefined()
  })

  test('holds from when it was done, or its time after that', () => {
    const state = at({ stepsDone: ['flow.power'] })
    expect(unmet(TALKING, state, waitsFor('flow.power'), 1_000)).toBeUndefined()
    expect(unmet(TALKING, state, waitsFor('flow.power', 10), 4_000)?.waitMs).toBe(7_000)
    expect(unmet(TALKING, state, waitsFor('flow.power', 10), 10_999)?.waitMs).toBe(1)
    expect(unmet(TALKING, state, waitsFor('flow.power', 10), 11_000)).toBeUndefined()
  })
})
