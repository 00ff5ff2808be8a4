import { describe, expect, it } from 'vitest'
import type { Pack, Watch } from '../../../../src/kernel/pack/checklist.ts'
import { responseFrom } from '../../../../src/kernel/response/response.ts'
import type { EventBody } from '../../../../src/kernel/run/core/events.ts'
import { PACK, PRELIMINARY, revision, TYPED, testRun } from '../fixture.ts'

const WATCH: Watch = {
  type: 'watch',
  id: 'engine',
  name: 'Engine start',
  begins: responseFrom('starting'),
  calls: [
    { id: 'rotation', label: 'rotation', say: responseFrom('rotation'), within: 10 },
    { id: 'light', label: 'light off', say: responseFrom('light off'), within: 20 },
    { id: 'stable', label: 'stable', say: responseFrom('stable') },
  ],
  abnormal: [
    {
      id: 'hot',
      label: 'hot start',
      say: responseFrom('hot start'),
      stopWords: 'stop stop stop',
      actions: ['fuel off', 'keep it turning'],
    },
  ],
  stopWords: 'stop',
  interlocks: [{ after: 'cleared:start', say: 'start clearance first' }],
}
const WATCHED: Pack = { ...PACK, phases: [{ id: 'start', name: 'Start', activities: [WATCH] }] }

const began = (at: number): EventBody => ({ type: 'watchBegan', watch: 'engine', at, evidence: TYPED })
const called = (call: string, at: number): EventBody => ({
  type: 'watchCalled',
  watch: 'engine',
  call,
  at,
  evidence: TYPED,
})

function atWatch() {
  return testRun(WATCHED)
    .happen({
      type: 'runStarted',
      pack: { id: 'fixture', version: '1', sha256: 'none', name: 'Fixture', texts: {} },
      situation: {},
      settings: { phraseology: 'plain', coachAfter: 0 },
      startedAt: 0,
    })
    .happen(revision(1, 'final', PRELIMINARY))
}
const ready = () => atWatch().happen({ type: 'cleared', clearance: 'start', evidence: TYPED })
const timer = (run: ReturnType<typeof ready>) => run.effects.find((effect) => effect.type === 'startTimer')

describe('a watch', () => {
  it('does not begin before what must come first, and says what', () => {
    const run = atWatch().happen(began(2_000))
    expect(run.said()).toBe('Not yet, start clearance first.')
    expect(run.state.watches.engine).toBeUndefined()
  })

  it('asks by a tone at six tenths of a limit, so that it is not deaf to the call', () => {
    const run = ready().happen(began(3_000))
    expect(timer(run)).toMatchObject({ timer: 'watch', ms: 6_000, event: { call: 'rotation', stage: 'ask' } })
    run.happen({ type: 'watchDue', watch: 'engine', call: 'rotation', stage: 'ask' })
    expect(run.effects).toContainEqual({ type: 'tone', tone: 'attention' })
    expect(run.effects.some(({ type }) => type === 'shut')).toBe(false)
    expect(run.said()).toBe('')
    expect(timer(run)).toMatchObject({ event: { call: 'rotation', stage: 'limit' } })
  })

  it('says at the limit what was not called, and the stop words, or to call it', () => {
    const run = ready()
      .happen(began(3_000))
      .happen({ type: 'watchDue', watch: 'engine', call: 'rotation', stage: 'limit' })
    expect(run.said()).toBe('No rotation. Stop, or call it.')
    expect(run.state.watches.engine?.status).toBe('running')
    run.happen(called('rotation', 14_000))
    expect(run.state.watches.engine?.calls).toEqual({ rotation: 14_000 })
  })

  it('measures a limit from the onset of the call before', () => {
    const run = ready().happen(began(3_000)).happen(called('rotation', 3_500))
    // The event came at 4 s, the call began at 3.5 s: 20 s x 0.6 from there.
    expect(timer(run)).toMatchObject({ ms: 3_500 + 12_000 - 4_000, event: { call: 'light' } })
  })

  it('questions a call before its turn: affirm takes both, negative is no call heard', () => {
    const run = ready().happen(began(3_000)).happen(called('light', 5_000))
    expect(run.said()).toBe('Out of order, light off. Rotation?')
    expect(run.state.watches.engine?.calls).toEqual({})
    run.command('affirm')
    expect(run.state.watches.engine?.calls).toEqual({ rotation: 5_000, light: 5_000 })
    const other = ready().happen(began(3_000)).happen(called('light', 5_000)).command('negative')
    expect(other.said()).toBe('No rotation. Stop, or call it.')
    expect(other.state.watches.engine?.calls).toEqual({})
  })

  it('takes the missing call itself in answer to that question', () => {
    const run = ready().happen(began(3_000)).happen(called('light', 5_000)).happen(called('rotation', 5_500))
    expect(run.state.watches.engine?.calls).toEqual({ rotation: 5_500 })
    expect(run.state.question).toBeUndefined()
  })

  it('says the stop words at once on an abnormal call, then what to do; without a way back in the pack nothing invites to another start', () => {
    const run = ready().happen(began(3_000))
    run.happen({ type: 'watchStopped', watch: 'engine', abnormal: 'hot', at: 4_000, evidence: TYPED })
    expect(run.said()).toBe('Stop stop stop. Fuel off. Keep it turning.')
    run.command('fromTop')
    expect(run.state.watches.engine?.status).toBe('ahead')
  })

  it('is done when every call was heard in its order', () => {
    const run = ready().happen(began(3_000))
    for (const call of ['rotation', 'light', 'stable']) run.happen(called(call, 5_000))
    expect(run.said()).toBe('Engine stable. All lists complete.')
    expect(run.state.floor.at).toBe('end')
  })
})
