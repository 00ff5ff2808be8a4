/** A run's line in the list, in words. */

import { describe, expect, test } from 'vitest'
import { flownWords, missWords } from '../../../src/app/runs/runsView.ts'
import { lengthWords } from '../../../src/kernel/run/core/clockTime.ts'
import type { RunEvent } from '../../../src/kernel/run/core/events.ts'
import { ACCOUNT_VERSION, type RunAccount, type RunSummary, summarise } from '../../../src/kernel/run/core/summary.ts'
import { flownRun } from './flownRuns.ts'

const NOTHING: RunAccount = {
  ...{ v: ACCOUNT_VERSION, events: 1, durationMs: 0, items: 9, closed: 9, lists: 1, completeLists: 1 },
  ...{ misses: 0, radioMisses: 0, briefingMisses: 0, startDeviations: 0, early: 0, letGo: 0 },
}

describe('misses', () => {
  test.each([
    [{}, 'nothing missed'],
    [{ misses: 7 }, '7 missed: 7 at items'],
    [{ misses: 7, briefingMisses: 2 }, '9 missed: 7 at items, 2 in briefings'],
    [
      { misses: 3, radioMisses: 2, startDeviations: 1 },
      '6 missed: 3 at items, 2 in calls, read-backs and orders, 1 in engine starts',
    ],
    [{ early: 1, letGo: 2 }, '3 missed: 1 called before their time, 2 of others let go'],
    [{ v: 3, misses: 1 }, ''],
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

test('a run that was shown to a room says so, whenever that was', async () => {
  const [first] = await flownRun()
  const begun = first && summarise(undefined, first)
  const shown = { ...first, seq: 1, type: 'demonstrated', isOn: true, stops: 'never', asksRoom: false } as RunEvent
  const after = summarise(summarise(begun, shown), { ...shown, seq: 2, isOn: false } as RunEvent)
  expect(flownWords(begun ?? {})).not.toContain('shown')
  expect(flownWords(after ?? {})).toContain('shown to a room')
})

test.each([
  [39_000, '39 s'],
  [459_400, '7 min 39 s'],
  [3_720_000, '1 h 2 min'],
])('%i ms is how long it lasted: %s', (ms, words) => {
  expect(lengthWords(ms)).toBe(words)
})
