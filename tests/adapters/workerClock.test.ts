import { afterEach, beforeEach, expect, test, vi } from 'vitest'
import { createWorkerClock } from '../../src/adapters/workerClock.ts'

beforeEach(() => void vi.useFakeTimers())
afterEach(() => void vi.useRealTimers())

/** What the page tells its worker, and what the worker tells back. */
function worker() {
  const told: { id: number; at?: number }[] = []
  const one = {
    onmessage: undefined as ((message: { data: number }) => void) | undefined,
    onerror: undefined as (() => void) | undefined,
    postMessage: (message: { id: number; at?: number }) => void told.push(message),
  }
  return { told, one, clock: createWorkerClock(() => one as unknown as Worker) }
}

test('a timer is due at a time of the clock, not after a number of ticks', () => {
  const { told, clock } = worker()
  clock.after(8_000, () => undefined)
  expect(told).toEqual([{ id: 1, at: Date.now() + 8_000 }])
})

test('the worker’s word calls it, once; one that was undone is not called', () => {
  const { one, clock, told } = worker()
  const calls: string[] = []
  clock.after(10, () => calls.push('first'))
  const undo = clock.after(20, () => calls.push('second'))
  undo()
  expect(told.at(-1)).toEqual({ id: 2 })
  for (const data of [1, 1, 2]) one.onmessage?.({ data })
  expect(calls).toEqual(['first'])
})

test.each([
  [
    'cannot be started',
    () =>
      createWorkerClock(() => {
        throw new Error('no workers here')
      }),
  ],
  [
    'breaks',
    () => {
      const { one, clock } = worker()
      queueMicrotask(() => one.onerror?.())
      return clock
    },
  ],
] as const)('where the worker %s, the page’s own timers serve', async (_what, make) => {
  const clock = make()
  const calls: string[] = []
  clock.after(1_000, () => calls.push('due'))
  await Promise.resolve()
  vi.advanceTimersByTime(999)
  expect(calls).toEqual([])
  vi.advanceTimersByTime(2)
  expect(calls).toEqual(['due'])
})
