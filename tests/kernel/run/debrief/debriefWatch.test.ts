import { describe, expect, it } from 'vitest'
import { debriefOf } from '../../../../src/kernel/run/debrief/debrief.ts'
import { abnormal, beforeEngine, began, called, inFlow, STARTING } from '../startFixture.ts'

const done = (step: string) => ({ type: 'stepDone', step, evidence: { by: 'typed', text: '' } }) as const
const tones = ({ effects }: ReturnType<typeof inFlow>) =>
  effects.flatMap((effect) => (effect.type === 'tone' ? [effect.tone] : []))

describe('the debrief of an engine start', () => {
  it('has every call with its time after the beginning and its value', () => {
    const run = beforeEngine()
      .happen(began(3_000))
      .happen(called('rotation', 7_500))
      .happen(called('light', 12_000))
      .happen(called('stable', 20_000, { value: 58, inRange: true }))
    expect(debriefOf(STARTING, run.events).watches).toEqual([
      {
        id: 'engine',
        name: 'Engine start',
        attempt: 1,
        t: 3_000,
        status: 'done',
        calls: [
          { label: 'rotation', afterMs: 4_500, outside: [], late: false, unheard: false },
          { label: 'light up', afterMs: 9_000, outside: [], late: false, unheard: false },
          { label: 'stable', afterMs: 17_000, value: 58, outside: [], late: false, unheard: false },
        ],
      },
    ])
  })

  it('has why it was stopped, and no time for what was never called', () => {
    const run = beforeEngine().happen(began(3_000)).happen(called('rotation', 7_500)).happen(abnormal(9_000))
    const [watch] = debriefOf(STARTING, run.events).watches
    expect(watch).toMatchObject({ status: 'stopped', because: 'hot start' })
    expect(watch?.calls.map(({ afterMs }) => afterMs)).toEqual([4_500, undefined, undefined])
  })

  it('has nothing of a start that was not begun', () => {
    expect(debriefOf(STARTING, beforeEngine().events).watches).toEqual([])
  })
})

describe('the debrief of a flow', () => {
  it('has which steps were ticked, and whether it was gone on from', () => {
    const half = inFlow().happen(done('loadFlow.papers'))
    expect(tones(half)).toEqual(['tick'])
    expect(debriefOf(STARTING, half.events).flows[0]).toMatchObject({
      id: 'loadFlow',
      closed: false,
      steps: [
        { text: 'Papers', done: true },
        { text: 'Set the trim', done: false },
      ],
    })
    expect(debriefOf(STARTING, beforeEngine().events).flows[0]).toMatchObject({ closed: true })
  })

  it('has a step once, however often it is ticked', () => {
    const run = inFlow().happen(done('loadFlow.papers')).happen(done('loadFlow.papers'))
    expect(run.state.stepsDone).toEqual(['loadFlow.papers'])
  })
})
