import { describe, expect, it } from 'vitest'
import { debriefLines } from '../../../../src/cli/debriefText.ts'
import type { Pack } from '../../../../src/kernel/pack/checklist.ts'
import { debriefOf } from '../../../../src/kernel/run/debrief/debrief.ts'
import { begun, call, PACK, type TestRun, TYPED } from '../fixture.ts'
import { TALK, talkRun } from '../talkFixture.ts'

const WHOLE = 'cleared to corrie, tarn two alfa departure, climb five thousand, squawk four two seven one'
const told = (pack: Pack, run: Pick<TestRun, 'events'>) => debriefOf(pack, run.events).notEnded.map(({ text }) => text)

describe('a list that was called before its flow was called done', () => {
  const FLOW = 'Load flow not begun before the load list'

  it('draws no question, and is a deviation in the debrief', () => {
    const run = begun().happen(call('load'))
    expect(run.said()).toBe('Load list. Takeoff trim?')
    expect(told(PACK, run)).toEqual([FLOW])
    // In one place.
    expect(debriefLines(debriefOf(PACK, run.events)).filter((line) => line.includes(`${FLOW}. The`))).toHaveLength(1)
  })

  it('was begun where a step of it was done, and is left before its end then', () => {
    const kindsOf = (run: TestRun) => debriefOf(PACK, run.events).deviations.map(({ kind }) => kind)
    expect(kindsOf(begun().happen(call('load')))).toEqual(['notBegun'])
    const two = PACK.phases.map((phase) => ({
      ...phase,
      activities: phase.activities.map((one) =>
        one.type === 'flow' ? { ...one, steps: [...one.steps, { id: 'loadFlow.two', text: 'Two', sets: [] }] } : one,
      ),
    }))
    const pack = { ...PACK, phases: two }
    const half = begun({}, pack)
      .happen({ type: 'stepDone', step: 'loadFlow.two', evidence: TYPED })
      .happen(call('load'))
    expect(debriefOf(pack, half.events).deviations.map(({ kind }) => kind)).toEqual(['notCompleted'])
  })

  it('is told once, also where the list is called again', () => {
    const run = begun().happen(call('load')).answer('correct').command('leaveOpen').command('leaveOpen')
    expect(told(PACK, run.happen(call('load')).happen(call('start')).command('affirm'))).toEqual([FLOW])
  })

  it('is none where the flow was called done, step by step or as a whole', () => {
    const done = begun().happen({ type: 'flowClosed', flow: 'loadFlow', evidence: TYPED }).happen(call('load'))
    expect(told(PACK, done)).toEqual([])
    const steps = PACK.phases.flatMap(({ activities }) =>
      activities.flatMap((activity) => (activity.type === 'flow' ? activity.steps.map(({ id }) => id) : [])),
    )
    const ticked = steps.reduce((run, step) => run.happen({ type: 'stepDone', step, evidence: TYPED }), begun())
    expect(told(PACK, ticked.happen(call('load')))).toEqual([])
  })

  it('is none where the flow has no spoken end, or does not apply', () => {
    const changed = (change: object): Pack => ({
      ...PACK,
      phases: PACK.phases.map((phase) => ({
        ...phase,
        activities: phase.activities.map((one) => (one.type === 'flow' ? { ...one, ...change } : one)),
      })),
    })
    for (const pack of [changed({ silent: true }), changed({ when: { each: { stand: ['self'] } } })])
      expect(told(pack, begun({}, pack).happen(call('load')))).toEqual([])
  })
})

describe('a list that was called before its briefing ended', () => {
  const told = (run: Pick<TestRun, 'events'>) => {
    const { deviations, foremost } = debriefOf(TALK, run.events)
    expect(foremost.map(({ about }) => about).includes('departure briefing')).toBe(deviations.length > 0)
    return deviations.map(({ kind, where, sentence }) => [kind, where, sentence])
  }
  const briefed = (...more: string[]) => {
    const run = talkRun()
    for (const text of ['request clearance', WHOLE, ...more]) run.hear(text)
    return run
  }

  it('is one deviation, and among the first things told; one that was ended is none', () => {
    const all = ['departing runway two seven left', 'level five thousand', 'rejected takeoff']
    expect(told(briefed('before push', 'negative'))).toEqual([['notBegun', 'departure briefing', 'It was left out.']])
    expect(told(briefed(...all.slice(1), 'before push', 'negative', 'before push', 'negative'))).toEqual([
      ['notCompleted', 'departure briefing', 'Left open: runway.'],
    ])
    expect(told(briefed(...all, 'before push', 'negative'))).toEqual([
      ['notCompleted', 'departure briefing', 'Its end was not called.'],
    ])
    expect(told(briefed(...all, 'briefing complete', 'before push'))).toEqual([])
  })
})
