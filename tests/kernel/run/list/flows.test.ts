import { describe, expect, it } from 'vitest'
import { call, FINAL, PRELIMINARY, revision, TYPED } from '../fixture.ts'
import { inFlow } from '../startFixture.ts'

const ticked = (step: string) => ({ type: 'stepDone', step: `loadFlow.${step}`, evidence: TYPED }) as const
const done = { type: 'flowClosed', flow: 'loadFlow', evidence: TYPED } as const
const asked = { type: 'flowAsked', flow: 'loadFlow', evidence: TYPED } as const

describe('a flow', () => {
  it('is gone on from when its last step was ticked', () => {
    const run = inFlow().happen(ticked('setTrim'))
    expect(run.effects).toEqual([{ type: 'tone', tone: 'tick' }])
    run.happen(ticked('papers'))
    expect(run.state.floor.at).toBe('call')
  })

  it('is done as a whole where the pilot says so', () => {
    const run = inFlow().happen(done)
    expect(run.state.stepsDone).toEqual(['loadFlow.papers', 'loadFlow.setTrim'])
    expect(run.state.floor.at).toBe('call')
  })

  it('of another phase is ticked by the way: a tick, and nothing else changes', () => {
    const run = inFlow().happen(call('load'))
    const { floor } = run.state
    run.happen(ticked('papers'))
    expect(run.effects).toEqual([{ type: 'tone', tone: 'tick' }])
    expect(run.state).toMatchObject({ floor, stepsDone: expect.arrayContaining(['loadFlow.papers']) })
  })

  it('is ticked once, and knows no other steps', () => {
    const run = inFlow().happen(ticked('papers'))
    const { stepsDone } = run.state
    run.happen(ticked('papers'))
    expect(run.effects).toEqual([])
    run.happen(ticked('elsewhere'))
    expect([run.effects, run.state.stepsDone]).toEqual([[], stepsDone])
  })

  it('is read out step by step on request, each until it is ticked', () => {
    const run = inFlow().happen(asked)
    expect(run.said()).toBe('Papers.')
    run.happen(ticked('papers'))
    expect(run.said()).toBe('Set the trim.')
    run.happen(ticked('setTrim'))
    expect(run.said()).toBe('Flow complete. Load list on your call.')
  })

  it('is read out from the beginning where it is set so', () => {
    const run = inFlow({ flows: 'spoken' })
    expect(run.said()).toBe('Load flow. Papers.')
    run.happen(ticked('papers'))
    expect(run.said()).toBe('Set the trim.')
  })

  it('tells how many steps are left, and from memory not which', () => {
    expect(inFlow().command('whatIsLeft').said()).toContain('Two items left, Papers, Set the trim.')
    expect(inFlow({ flows: 'memory' }).command('whatIsLeft').said()).not.toContain('Papers')
  })

  it.each(['shown', 'memory'] as const)(
    'opens the steps again that set a changed figure, before the item (%s)',
    (flows) => {
      const run = inFlow({ flows })
        .happen(call('load'))
        .happen(revision(2, 'final', FINAL, PRELIMINARY))
      expect(run.state.stepsAgain).toEqual(['loadFlow.setTrim'])
      expect(run.state.floor.at).toBe('flow')
      expect(run.said().includes('Set the trim')).toBe(flows === 'shown')
      run.happen(ticked('setTrim'))
      expect(run.state.floor).toMatchObject({ item: 'load.trim' })
    },
  )

  it('keeps an item that the change does not touch, and comes before the next list', () => {
    const run = inFlow().happen(call('load')).answer('correct').answer('correct')
    run.happen(revision(2, 'final', FINAL, PRELIMINARY))
    expect(run.state.floor).toMatchObject({ item: 'load.windows' })
  })
})

describe('a situation said aloud', () => {
  it('is echoed, so that a misheard one is noticed', () => {
    const run = inFlow().happen({ type: 'situationSet', name: 'stand', value: 'self', evidence: TYPED })
    expect(run.said()).toContain('Stand, self manoeuvring.')
  })
})
