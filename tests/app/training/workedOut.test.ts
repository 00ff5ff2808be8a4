import { describe, expect, it } from 'vitest'
import { workOut } from '../../../src/app/training/workedOut.ts'
import type { RunSummary } from '../../../src/kernel/run/core/summary.ts'
import { createFakeCache } from '../../fakes/cache.ts'
import { madeUpRuns } from '../../kernel/training/madeUp.ts'

const FACTS = madeUpRuns({ runs: 12, trials: 30, seed: 3 })

/** A browser that has the facts of all of them, and lists so many; `reads` counts how often all that is kept was read. */
async function listing(count: number) {
  const cache = createFakeCache()
  await cache.put(new Map(FACTS.map((one) => [`run ${one.runId}`, JSON.stringify(one)])))
  let [listed, isOver, reads] = [count, true, 0]
  const counting = {
    ...cache,
    all() {
      reads++
      return cache.all()
    },
  }
  const log = {
    runs: async () =>
      FACTS.slice(0, listed).map(
        ({ runId, startedAt }, at): RunSummary => ({ runId, startedAt, pack: '', ended: isOver || at < listed - 1 }),
      ),
    read: async () => [],
  }
  return {
    work: () => workOut(log, counting),
    list(many: number, over = true) {
      listed = many
      isOver = over
    },
    reads: () => reads,
    cache,
  }
}

const plain = (value: unknown) => JSON.parse(JSON.stringify(value))

describe('what all runs come to', () => {
  it('is read from one place while no run has come or gone, and is the same as made anew', async () => {
    const on = await listing(12)
    const made = await on.work()
    const kept = await on.work()
    expect(on.reads()).toBe(1)
    expect(plain({ ...kept, edition: undefined, runs: undefined })).toEqual(plain(made))
  })

  it.each([
    ['a run that came', 11, 12],
    ['a run that is gone', 12, 11],
  ])('is made anew for %s', async (_, before, after) => {
    const on = await listing(before)
    await on.work()
    on.list(after)
    const made = await on.work()
    expect(on.reads()).toBe(2)
    expect(plain(made)).toEqual(plain(await (await listing(after)).work()))
  })

  it('leaves out another version of a run, which came in under its id', async () => {
    const on = await listing(2)
    const [own, other] = FACTS
    await on.cache.put(new Map([['run a~0123abcd', JSON.stringify({ ...other, runId: 'a~0123abcd' })]]))
    const log = {
      runs: async () =>
        [own?.runId ?? '', 'a~0123abcd'].map((runId): RunSummary => ({ runId, startedAt: 0, pack: '', ended: true })),
      read: async () => [],
    }
    const alone = { ...log, runs: async () => (await log.runs()).slice(0, 1) }
    const made = await workOut(log, on.cache)
    expect(plain(made)).toEqual(plain(await workOut(alone, on.cache)))
    expect(made.deck.runs).toEqual([own?.runId])
  })

  it('is made each time while a run is not over, which is in no deck', async () => {
    const on = await listing(12)
    on.list(12, false)
    const { deck } = await on.work()
    await on.work()
    expect(on.reads()).toBe(2)
    expect(deck.runs).toHaveLength(11)
  })

  it.each(['no json', '{"edition":"0"}', '[]', 'null'])('is made anew where %s is kept', async (text) => {
    const on = await listing(12)
    const made = await on.work()
    await on.cache.put(new Map([['whole', text]]))
    expect(plain(await on.work())).toEqual(plain(made))
  })
})
