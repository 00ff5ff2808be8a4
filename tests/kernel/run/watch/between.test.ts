/** A value that is the difference of two that were read out before: common practice in a magneto check, no source. */

import { describe, expect, it } from 'vitest'
import type { Pack, Watch } from '../../../../src/kernel/pack/checklist.ts'
import { responseFrom } from '../../../../src/kernel/response/response.ts'
import { debriefOf } from '../../../../src/kernel/run/debrief/debrief.ts'
import { PACK, PRELIMINARY, revision, type TestRun, TYPED, testRun } from '../fixture.ts'

const drop = (id: string) => ({
  id,
  label: `${id} drop`,
  say: responseFrom(`${id} drop <value>`),
  value: { spec: { kind: 'integer' }, min: 20, max: 160 } as const,
})
const CHECK: Watch = {
  type: 'watch',
  id: 'check',
  name: 'engine check',
  begins: responseFrom('checking'),
  calls: [
    drop('left'),
    drop('right'),
    {
      id: 'difference',
      label: 'difference',
      say: responseFrom('difference <value>'),
      value: { spec: { kind: 'integer' }, min: 0, max: 45, between: ['left', 'right'] },
    },
    { id: 'idle', label: 'idle', say: responseFrom('idle') },
  ],
  abnormal: [],
  stopWords: 'throttle back',
}
const CHECKING: Pack = { ...PACK, phases: [{ id: 'check', name: 'Check', activities: [CHECK] }] }

function read(...texts: string[]): TestRun {
  const run = testRun(CHECKING)
    .happen({
      type: 'runStarted',
      pack: { id: 'fixture', version: '1', sha256: 'none', name: 'Fixture', texts: {} },
      situation: {},
      settings: { phraseology: 'plain', coachAfter: 0 },
      startedAt: 0,
    })
    .happen(revision(1, 'final', PRELIMINARY))
    .happen({ type: 'watchBegan', watch: 'check', at: 3_000, evidence: TYPED })
  for (const text of texts) run.hear(text)
  return run
}
const DROPS = ['left drop one hundred ten', 'right drop eight zero']
const own = (run: TestRun) => run.state.watches.check

describe('a difference', () => {
  it('that is the one of both drops is taken, whichever is larger', () => {
    expect(own(read(...DROPS, 'difference three zero'))?.values).toEqual({ left: 110, right: 80, difference: 30 })
    const other = read('left drop eight zero', 'right drop one hundred ten', 'difference three zero')
    expect(own(other)?.values.difference).toBe(30)
  })

  it('within its range that does not fit the drops is not taken, is read again, and stays a deviation', () => {
    const run = read(...DROPS, 'difference two zero')
    expect(run.said()).toBe('Difference does not fit the readings.')
    expect(own(run)?.calls.difference).toBeUndefined()
    run.hear('three zero')
    expect(own(run)?.values.difference).toBe(30)
    expect(debriefOf(CHECKING, run.events).watches[0]?.calls[2]).toMatchObject({ value: 30, unfit: [20], outside: [] })
    expect(debriefOf(CHECKING, run.events).totals.startDeviations).toBe(1)
  })

  it('may fit once a drop that was misread is read again, within its own limits', () => {
    const run = read(...DROPS, 'difference two zero', 'right drop one hundred seventy')
    expect(own(run)?.values.right).toBe(80)
    run.hear('right drop nine zero').hear('difference two zero')
    expect(own(run)?.values).toEqual({ left: 110, right: 90, difference: 20 })
  })

  it('takes a drop that is read out once more as its correction, also where it was never in doubt', () => {
    expect(own(read(...DROPS, 'right drop nine zero'))?.values).toEqual({ left: 110, right: 90 })
  })

  it('out of its range is questioned for that, as before', () => {
    expect(read(...DROPS, 'difference six zero').said()).toBe('Sixty is out of range. Confirm?')
  })
})
