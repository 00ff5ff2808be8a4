/** The small pack with an engine start behind its first list, a time that must pass after it, and steps to tick. */

import type { Item, Pack, Watch } from '../../../src/kernel/pack/checklist.ts'
import { responseFrom } from '../../../src/kernel/response/response.ts'
import type { EventBody } from '../../../src/kernel/run/core/events.ts'
import { PACK, PRELIMINARY, revision, type TestRun, TYPED, testRun } from './fixture.ts'

export const ENGINE: Watch = {
  type: 'watch',
  id: 'engine',
  name: 'Engine start',
  begins: responseFrom('starting'),
  calls: [
    { id: 'rotation', label: 'rotation', say: responseFrom('rotation'), within: 10 },
    { id: 'light', label: 'light up', say: responseFrom('light up'), within: 20 },
    {
      id: 'stable',
      label: 'stable',
      say: responseFrom('stable <value>'),
      within: 40,
      after: 'rotation',
      value: { spec: { kind: 'integer' }, min: 57, max: 61 },
    },
  ],
  abnormal: [
    {
      id: 'hot',
      label: 'hot start',
      say: responseFrom('hot start'),
      stopWords: 'fuel off',
      actions: ['keep it turning'],
      again: { seconds: 50, say: 'let it cool' },
    },
  ],
  stopWords: 'fuel off',
}

const unit: Item = {
  type: 'item',
  id: 'start.unit',
  challenge: 'power unit',
  responses: [{ response: responseFrom('unit off') }],
  answers: 'pilot',
  restsOn: [],
  critical: true,
  look: ['the power unit panel'],
  interlocks: [{ after: 'engine', seconds: 30, say: 'it stays on a little longer', due: 'the unit may go off' }],
}

const [load, start] = PACK.phases
const flow = load?.activities[0]
const list = start?.activities[0]
if (flow?.type !== 'flow' || list?.type !== 'list') throw new Error('the small pack has another order')

export const STARTING: Pack = {
  ...PACK,
  phases: [
    {
      id: 'load',
      name: 'Load',
      activities: [
        {
          ...flow,
          steps: [
            { id: 'loadFlow.papers', text: 'Papers', say: responseFrom('papers checked'), sets: [] },
            { id: 'loadFlow.setTrim', text: 'Set the trim', say: responseFrom('trim is set'), sets: ['trim'] },
          ],
        },
        ...(load?.activities.slice(1) ?? []),
      ],
    },
    {
      id: 'start',
      name: 'Start',
      activities: [ENGINE, { ...list, needsFinal: false, entries: [unit, ...list.entries] }],
    },
  ],
  quirks: [{ named: ['generator caution'], say: 'a false generator caution' }],
}

export const began = (at: number): EventBody => ({ type: 'watchBegan', watch: 'engine', at, evidence: TYPED })
export const called = (call: string, at: number, more: { value?: number; inRange?: boolean } = {}): EventBody => ({
  type: 'watchCalled',
  watch: 'engine',
  call,
  at,
  evidence: TYPED,
  ...more,
})
export const abnormal = (at: number): EventBody => ({
  type: 'watchStopped',
  watch: 'engine',
  abnormal: 'hot',
  at,
  evidence: TYPED,
})

type Settings = EventBody<'runStarted'>['settings']

/** Preliminary figures in, waiting in the flow. */
export function inFlow(settings: Partial<Settings> = {}): TestRun {
  return testRun(STARTING)
    .happen({
      type: 'runStarted',
      pack: { id: 'fixture', version: '1', sha256: 'none', name: 'Fixture', texts: {} },
      situation: { stand: 'push' },
      settings: { phraseology: 'plain', coachAfter: 0, ...settings },
      startedAt: 0,
    })
    .happen(revision(1, 'preliminary', PRELIMINARY))
}

export const callOf = (id: string): EventBody => ({ type: 'listCalled', list: id, evidence: TYPED })

/** The first list complete, the engine not begun. */
export function beforeEngine(settings: Partial<Settings> = {}): TestRun {
  return inFlow(settings).happen(callOf('load')).answer('correct').answer('correct').answer('correct')
}
