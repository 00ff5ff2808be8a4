/** Lists that are called again, lines that are cleared, and what a correction takes back. */

import { describe, expect, it } from 'vitest'
import { readEvents } from '../../../../src/kernel/run/core/readLog.ts'
import { begun, call, TYPED } from '../fixture.ts'

const atTrim = () => begun().happen(call('load'))
const complete = () => atTrim().answer('correct').answer('correct').answer('correct')
const tones = ({ effects }: ReturnType<typeof begun>) =>
  effects.flatMap((effect) => (effect.type === 'tone' ? [effect.tone] : []))

describe('a list that is complete already', () => {
  it('is not begun again when it is called, and what was open is put once more', () => {
    const run = complete()
    const again = run.happen(call('load'))
    expect(again.said()).toBe('Load list is complete already. Start list on your call.')
    expect(again.state.floor).toMatchObject({ at: 'call' })
    expect(again.state.lists.load).toMatchObject({ complete: true })
  })
})

describe('a clearance', () => {
  it('at its line goes below the line with a tick', () => {
    const line = complete().happen(call('start')).command('affirm').command('affirm').answer('correct')
    const run = line.happen({ type: 'cleared', clearance: 'push', evidence: TYPED })
    expect(run.said()).toBe('Below the line. Tow bar?')
    expect(tones(run)).toEqual(['tick'])
  })

  it('that comes before its line is kept, and changes nothing else', () => {
    const run = atTrim()
    const { floor } = run.state
    const early = run.happen({ type: 'cleared', clearance: 'push', evidence: TYPED })
    expect(early.state).toMatchObject({ floor, cleared: ['push'] })
    expect(early.said()).toBe('')
  })
})

describe('a correction right after an item was closed', () => {
  it('takes back the completion of its list, and says so', () => {
    const run = complete().command('correction')
    expect(run.said()).toBe('Load list incomplete. Windows?')
    expect(run.state.lists.load).toMatchObject({ complete: false, revoked: true, suspended: false })
    expect(run.state.items['load.windows']).toMatchObject({ status: 'reopened' })
  })

  it('has nothing to take back of a list that is not complete', () => {
    const run = atTrim().answer('correct').command('correction')
    expect(run.said()).toBe('Takeoff trim?')
    expect(run.state.lists.load).toMatchObject({ complete: false, revoked: false })
  })

  it('keeps in mind that a list was complete once', () => {
    const run = complete().command('correction').answer('negative').command('correction')
    expect(run.state.lists.load).toMatchObject({ revoked: true })
  })
})

describe('a stored event', () => {
  it.each([null, 5, 'x', true, undefined])('that is %j is none, and is told', (value) => {
    const { events, problem } = readEvents([value])
    expect(events).toEqual([])
    expect(problem).toMatchObject({ line: 1 })
  })
})
