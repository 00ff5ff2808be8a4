import { describe, expect, it } from 'vitest'
import { FACTS_EDITION, type RunFacts, type Trial } from '../../../src/kernel/training/facts.ts'
import { progressOf } from '../../../src/kernel/training/progress.ts'
import { madeUpRuns } from './madeUp.ts'

const trial = (right: boolean, more: Partial<Trial> = {}): Trial => ({ of: 'value', card: 'a.b', t: 0, right, ...more })

function run(number: number, more: Partial<RunFacts>): RunFacts {
  const empty = { edition: FACTS_EDITION, packId: 'p', trials: [], resumptions: [], planted: [] }
  return { ...empty, runId: `${number}`, startedAt: number, ...more }
}

describe('progress', () => {
  it('counts by class over stretches of runs, the oldest first, whatever order the facts come in', () => {
    const runs = [1, 2, 3, 4].map((number) =>
      run(number, { trials: [trial(number > 3), trial(true, { ms: number * 1_000 })] }),
    )
    const [values] = progressOf(runs.toReversed()).classes
    expect(values?.right).toMatchObject({ n: 8, value: 5 / 8 })
    expect(values?.stretches).toMatchObject([
      { from: 1, to: 3, right: { n: 6, value: 0.5 }, time: { value: 2_000 } },
      { from: 4, to: 4, right: { n: 2, value: 1 }, time: { value: 4_000 } },
    ])
  })

  it('counts causes, the most frequent first', () => {
    const trials = [trial(false, { cause: 'leftOut' }), ...[1, 2].map(() => trial(false, { cause: 'earlierRevision' }))]
    expect(progressOf([run(1, { trials })])).toMatchObject({
      misses: 3,
      causes: [
        { cause: 'earlierRevision', count: 2 },
        { cause: 'leftOut', count: 1 },
      ],
    })
  })

  it('tells what was caught by how many runs lie between one plant and the next', () => {
    const planted = [{ kind: 'slip', caught: true }] as const
    const missed = [{ kind: 'slip', caught: false }] as const
    const runs = [1, 2, 3, 4, 5, 6, 7, 8, 9, 10].map((number) => {
      if (number === 1 || number === 2) return run(number, { planted })
      // Three runs after the one before; then five.
      return run(number, number === 5 ? { planted: missed } : number === 10 ? { planted: missed } : {})
    })
    expect(progressOf(runs).catches).toMatchObject([
      { rarity: 'often', caught: { n: 2, value: 1 } },
      { rarity: 'sometimes', caught: { n: 1, value: 0 } },
      { rarity: 'rare', caught: { n: 1, value: 0 } },
    ])
  })

  it('has the read-back length that is held, and errors in resuming by kind of break and in all', () => {
    const readBacks = (elements: number, right: number) =>
      Array.from({ length: 20 }, (_, index) => trial(index < right, { of: 'readBack', elements }))
    const { readBackHeld, resumeErrors } = progressOf([
      run(1, {
        trials: [...readBacks(2, 20), ...readBacks(4, 18), ...readBacks(6, 9)],
        resumptions: [
          { what: 'standBy', right: false },
          { what: 'left', right: true },
        ],
      }),
    ])
    expect(readBackHeld.value).toBe(4)
    expect(resumeErrors).toMatchObject([
      { what: 'standBy', errors: { n: 1, value: 1 } },
      { what: 'left', errors: { n: 1, value: 0 } },
      { what: 'all', errors: { n: 2, value: 0.5 } },
    ])
  })

  it('leaves drills out', () => {
    expect(progressOf([run(1, { trials: [trial(false)], drill: true })])).toMatchObject({
      runs: 0,
      drills: 1,
      classes: [],
    })
  })

  it('has no picture of more than eight points, however many runs there are', () => {
    const { classes } = progressOf(madeUpRuns({ runs: 333, trials: 20 }))
    expect(Math.max(...classes.map(({ stretches }) => stretches.length))).toBe(8)
  })
})
