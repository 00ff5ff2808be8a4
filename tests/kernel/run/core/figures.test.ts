import { describe, expect, it } from 'vitest'
import type { EventBody } from '../../../../src/kernel/run/core/events.ts'
import { debriefOf } from '../../../../src/kernel/run/debrief/debrief.ts'
import { begun, call, FINAL, PACK, PRELIMINARY, revision, TYPED } from '../fixture.ts'

const loaded = () => begun().happen(call('load')).answer('correct').answer('correct').answer('correct')

describe('final figures', () => {
  it('open the item again that was said on another value, take completion back and say so without the value', () => {
    const run = loaded().happen(revision(2, 'final', FINAL, PRELIMINARY))
    expect(run.state.items['load.trim']?.status).toBe('reopened')
    expect(run.state.items['load.flap']?.status).toBe('done')
    expect(run.state.lists.load).toMatchObject({ complete: false, revoked: true })
    expect(run.said()).toBe('Final figures are in. Recheck takeoff trim. Load list incomplete. Redo load flow, Trim.')
    run.happen({ type: 'flowClosed', flow: 'loadFlow', evidence: TYPED })
    expect(run.said()).toBe('Takeoff trim?')
  })

  it('reopen the step that sets the changed value', () => {
    const run = begun()
      .happen({ type: 'stepDone', step: 'loadFlow.setTrim', evidence: TYPED })
      .happen(revision(2, 'final', FINAL, PRELIMINARY))
    expect(run.state.stepsDone).toEqual([])
  })

  it('that change nothing spoken reopen nothing', () => {
    const run = loaded().happen(revision(2, 'final', PRELIMINARY, PRELIMINARY))
    expect(run.said()).toContain('No change to items done.')
    expect(run.state.lists.load?.complete).toBe(true)
  })

  it('that change nothing do not put the open place a second time, unless an answer may be in mid-air or it stood by', () => {
    const same = (number: number) => revision(number, 'preliminary', PRELIMINARY, PRELIMINARY)
    const inFlow = begun()
    const { floor } = inFlow.state
    expect(inFlow.happen(same(2)).said()).toBe('Figures changed. No change to items done.')
    expect(inFlow.state).toMatchObject({ floor, revision: 2 })
    expect(inFlow.happen({ type: 'flowClosed', flow: 'loadFlow', evidence: TYPED }).said()).toContain('on your call')
    expect(begun().happen(call('load')).happen(same(2)).said()).toMatch(/Takeoff trim\?$/)
    expect(begun().command('standBy').happen(same(2)).said()).toMatch(/Load flow\.$/)
  })

  it('reopen a word item that rests on the figure', () => {
    const run = loaded()
      .happen(revision(2, 'final', PRELIMINARY, PRELIMINARY))
      .happen(call('start'))
      .answer('correct')
    run.happen({ type: 'cleared', clearance: 'push', evidence: TYPED }).answer('correct').answer('correct')
    expect(run.state.floor.at).toBe('end')
    run.happen(revision(3, 'amended', { ...PRELIMINARY, flap: 8 }, PRELIMINARY))
    expect(run.state.items['start.beacon']?.status).toBe('reopened')
    expect(run.state.floor).toMatchObject({ item: 'load.flap' })
  })

  it('come back to a list that was gone on from, where they open an item of it again', () => {
    const run = begun().happen(call('load')).answer('correct').answer('correct')
    run.command('leaveOpen').command('leaveOpen')
    expect(run.state.lists.load).toMatchObject({ complete: false, suspended: true })
    expect(run.state.floor).toMatchObject({ at: 'call', phase: 1 })
    run
      .happen(revision(2, 'final', FINAL, PRELIMINARY))
      .happen({ type: 'flowClosed', flow: 'loadFlow', evidence: TYPED })
    expect(run.said()).toBe('Takeoff trim?')
    run.answer('correct')
    expect(run.said()).toBe('Left open. Windows?')
  })

  it('make words that were begun before them too old for the open item', () => {
    const run = begun().happen(call('load'))
    const { listenId } = run.state
    run.happen(revision(2, 'final', FINAL, PRELIMINARY)).hear('five point two up', { listenId })
    expect(run.events.at(-1)).toMatchObject({ type: 'voided', item: 'load.trim', because: 'figuresChanged' })
    expect(run.state.items['load.trim']?.status).toBe('open')
  })

  it('close nothing that was judged on the figures before', () => {
    const run = begun().happen(call('load'))
    const answer = {
      type: 'answered',
      item: 'load.trim',
      evidence: TYPED,
      judgement: { verdict: 'correct', parts: [] },
    } as const
    run.happen(revision(2, 'final', FINAL, PRELIMINARY))
    run.happen({ ...answer, expected: { trim: 5.2 }, challengeRevision: 1, revision: 1 })
    expect(run.state.items['load.trim']?.status).not.toBe('done')
  })

  it('never have a value in what is said before the answer', () => {
    const run = loaded().happen(revision(2, 'final', FINAL, PRELIMINARY))
    expect(run.said()).not.toMatch(/four|six|five|two|\d/i)
  })
})

describe('a value on request', () => {
  it('is said, and marks the item for good', () => {
    const run = begun().happen(call('load')).command('confirm', 'trim')
    expect(run.said()).toBe('Takeoff trim, five point two up. Takeoff trim?')
    run.answer('correct')
    expect(run.state.items['load.trim']).toMatchObject({ status: 'done', revealed: true })
  })
})

describe('the verdict on the screen', () => {
  it('goes with the figures that it was for', () => {
    const run = loaded()
    expect(run.state.last).toBeDefined()
    expect(run.happen(revision(2, 'final', FINAL, PRELIMINARY)).state.last).toBeUndefined()
  })
})

describe('a limit that is broken', () => {
  const warned = () =>
    begun().happen({ ...revision(2, 'final', FINAL, PRELIMINARY), warnings: ['over its limit'] } as EventBody)

  it('blocks completion until it is acknowledged', () => {
    const run = warned().happen(call('load')).answer('correct').answer('correct').answer('correct')
    expect(run.said()).toContain('Figures warning, see the figures page. Confirm accepted?')
    expect(run.state.lists.load?.complete).toBe(false)
    run.command('negative')
    expect(run.state.lists.load?.complete).toBe(false)
    run.happen(call('load')).command('affirm')
    expect(run.state.lists.load?.complete).toBe(true)
    expect(debriefOf(PACK, run.events).revisions.at(-1)?.notes).toEqual([
      'warning: over its limit',
      'acknowledged: over its limit',
    ])
  })
})
