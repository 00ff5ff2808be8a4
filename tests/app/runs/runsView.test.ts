/** A run's line in the list, in words. */

import { describe, expect, test } from 'vitest'
import { flownWords, missWords } from '../../../src/app/runs/runsView.ts'
import type { RunEvent } from '../../../src/kernel/run/core/events.ts'
import { type RunAccount, type RunSummary, summarise } from '../../../src/kernel/run/core/summary.ts'
import { flownRun } from './flownRuns.ts'

const NOTHING: RunAccount = {
  ...{ v: 1, events: 1, durationMs: 0, items: 9, closed: 9, lists: 1, completeLists: 1 },
  ...{ misses: 0, radioMisses: 0, startDeviations: 0 },
}

describe('misses', () => {
  test.each([
    [{}, 'no misses'],
    [{ misses: 1 }, '1 miss'],
    [{ misses: 7 }, '7 misses'],
    [{ radioMisses: 1 }, '1 miss: 1 on the radio'],
    [{ misses: 7, radioMisses: 2 }, '9 misses: 7 at items, 2 on the radio'],
    [{ misses: 3, radioMisses: 2, startDeviations: 1 }, '6 misses: 3 at items, 2 on the radio, 1 in engine starts'],
    [{ misses: 1, letGo: 2 }, '3 misses: 1 at items, 2 of the partner let go'],
  ])('of %j are counted together, then where they were: %s', (account, words) => {
    expect(missWords({ account: { ...NOTHING, ...account } })).toBe(words)
  })
})

test('the time of a moment done again is its own, not the other run’s', async () => {
  const [first] = await flownRun()
  const at = (seq: number, wall: string, more = {}) => ({ ...first, seq, wall, ...more }) as RunEvent
  const again = at(1, '2000-01-01T00:00:00.000Z', { again: { runId: 'other', seq: 2 } })
  const taken = summarise(summarise(undefined, again), at(2, '2000-01-01T00:30:00.000Z', { type: 'resumed' }))
  const own = summarise(taken, at(3, '2000-01-01T00:40:00.000Z', { type: 'resumed' }))
  expect(own?.startedAt).toBe(Date.parse('2000-01-01T00:40:00.000Z'))
  const later = summarise(own, at(4, '2000-01-01T00:41:00.000Z', { type: 'ended' }))
  expect(later?.startedAt).toBe(own?.startedAt)
})

describe('what was flown', () => {
  const summaryOf = async (change: Partial<RunEvent<'runStarted'>>) => {
    const [first] = await flownRun()
    return summarise(undefined, { ...first, ...change } as RunEvent) as RunSummary
  }

  test('says of a moment done again, and of a drill, that they are no whole run', async () => {
    expect(flownWords(await summaryOf({}))).toBe('figures entered, no stations')
    expect(flownWords(await summaryOf({ again: { runId: 'other', seq: 4 } }))).toMatch(/^that moment again, /)
    expect(flownWords(await summaryOf({ drill: { a: 'b' } }))).toMatch(/^a drill, /)
  })
})
