import { expect, test } from 'vitest'
import { createTabLock } from '../../../src/adapters/log/tabLock.ts'

/** As the Web Locks specification has it, for what the lock uses: one holder a name, a wait that may be given up, stealing. */
function fakeLocks(): LockManager {
  interface Request {
    readonly run: () => void
    readonly refuse: (error: Error) => void
  }
  const holders = new Map<string, Request>()
  const queues = new Map<string, Request[]>()
  const next = (name: string) => {
    const request = queues.get(name)?.shift()
    holders.delete(name)
    if (request) {
      holders.set(name, request)
      request.run()
    }
  }
  const request = (name: string, options: LockOptions, callback: (lock: Lock) => Promise<void>) =>
    new Promise<void>((resolve, reject) => {
      const mine: Request = {
        refuse: reject,
        run: () => {
          const done = () => {
            if (holders.get(name) === mine) next(name)
            resolve()
          }
          void callback({ name, mode: 'exclusive' }).then(done)
        },
      }
      const queue = queues.get(name) ?? []
      queues.set(name, queue)
      if (options.steal) {
        holders.get(name)?.refuse(new DOMException('stolen', 'AbortError'))
        holders.set(name, mine)
        mine.run()
      } else if (holders.has(name)) {
        queue.push(mine)
        options.signal?.addEventListener('abort', () => {
          if (!queue.includes(mine)) return
          queue.splice(queue.indexOf(mine), 1)
          reject(options.signal?.reason)
        })
      } else {
        holders.set(name, mine)
        mine.run()
      }
    })
  return {
    request,
    query: async () => ({ held: [...holders.keys()].map((name) => ({ name })) }),
  } as unknown as LockManager
}

const kept = { steal: false, lost: () => expect.unreachable('nobody took it over') }

test('a run has one writer; another tab is told so', async () => {
  const locks = fakeLocks()
  const [here, there] = [createTabLock(locks, 20), createTabLock(locks, 20)]
  expect(await here.hold('a', kept)).toBe(true)
  expect(await there.hold('a', kept)).toBe(false)
  expect(await there.hold('b', kept)).toBe(true)
})

test('any tab knows whether a run is held', async () => {
  const locks = fakeLocks()
  const [here, there] = [createTabLock(locks, 20), createTabLock(locks, 20)]
  await here.hold('a', kept)
  for (const tab of [here, there]) {
    expect(await tab.isHeld('a')).toBe(true)
    expect(await tab.isHeld('b')).toBe(false)
  }
})

test('a run that was let go can be held by another tab', async () => {
  const locks = fakeLocks()
  const [here, there] = [createTabLock(locks, 20), createTabLock(locks, 20)]
  await here.hold('a', kept)
  const waiting = there.hold('a', kept)
  here.release()
  expect(await waiting).toBe(true)
})

test('a run that another tab takes over is lost here, once', async () => {
  const locks = fakeLocks()
  const [here, there] = [createTabLock(locks, 20), createTabLock(locks, 20)]
  let lost = 0
  await here.hold('a', { steal: false, lost: () => lost++ })
  expect(await there.hold('a', { ...kept, steal: true })).toBe(true)
  await Promise.resolve()
  expect(lost).toBe(1)
  here.release()
  expect(await here.hold('a', kept)).toBe(false)
})

test('holding the run that is held already is no second lock', async () => {
  const lock = createTabLock(fakeLocks())
  expect(await lock.hold('a', kept)).toBe(true)
  expect(await lock.hold('a', kept)).toBe(true)
})

test('without Web Locks the run is held all the same', async () => {
  expect(await createTabLock(undefined).hold('a', kept)).toBe(true)
})
