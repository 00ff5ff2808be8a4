/** What the ear and a bug do to a run under way. */

import { describe, expect, it } from 'vitest'
import { emptyRun } from '../../../../src/kernel/run/core/emptyRun.ts'
import { begun, call, testRun } from '../fixture.ts'

const atTrim = () => begun().happen(call('load'))

describe('an ear that has failed', () => {
  it('is told with its own tone, and the open item is put once more', () => {
    const { effects } = atTrim().happen({ type: 'earFailed', message: 'gone' })
    expect(effects).toContainEqual({ type: 'tone', tone: 'deaf' })
    const said = effects.flatMap((effect) => (effect.type === 'speak' ? [effect.text] : []))
    expect(said.join(' ')).toBe('Nothing heard. Microphone? Takeoff trim?')
  })

  it('is told by its tone and the screen alone to whoever types, and nothing changes', () => {
    const before = atTrim().state
    const failed = atTrim().happen({ type: 'earFailed', message: 'gone', typing: true })
    expect(failed.effects).toEqual([{ type: 'tone', tone: 'deaf' }])
    expect(failed.state.listenId).toBe(before.listenId)
  })

  it('is told when it is back', () => {
    const { effects } = atTrim().happen({ type: 'earBack' })
    expect(effects).toContainEqual({ type: 'tone', tone: 'tick' })
    expect(effects).toContainEqual(expect.objectContaining({ type: 'speak', text: 'I hear you again. Takeoff trim?' }))
  })

  it('is nothing to a run that has no figures yet, or has ended', () => {
    expect(testRun().happen({ type: 'earFailed', message: 'gone' }).effects).toEqual([])
    expect(atTrim().happen({ type: 'ended' }).happen({ type: 'earBack' }).effects).toEqual([])
  })
})

describe('a run that is stopped', () => {
  it('says why, listens no longer and times nothing, and has kept its place', () => {
    const before = atTrim().state
    const { state, effects } = atTrim().happen({ type: 'stopped', message: 'a bug' })
    expect(effects).toEqual([{ type: 'shut' }, { type: 'stopTimers' }])
    expect(state).toMatchObject({
      status: 'stopped',
      stoppedBecause: 'a bug',
      floor: before.floor,
      items: before.items,
    })
  })
})

describe('a run in which nothing has happened', () => {
  it('has nothing done, nothing open and nothing said', () => {
    const state = emptyRun('new')
    const lists = Object.entries(state).filter(([, value]) => Array.isArray(value))
    expect(lists.filter(([, value]) => (value as readonly unknown[]).length > 0)).toEqual([])
    const flags = Object.entries(state).filter(([, value]) => typeof value === 'boolean')
    expect(flags.filter(([, value]) => value)).toEqual([])
    expect(state).toMatchObject({ runId: 'new', status: 'none', said: '', listenId: 0, floor: { at: 'end' } })
  })
})
