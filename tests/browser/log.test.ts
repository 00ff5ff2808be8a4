/** The log and the lock of a run in a real browser: over a reload, and between two tabs. */

import type { Page } from 'playwright-core'
import { afterAll, afterEach, beforeAll, beforeEach, expect, test } from 'vitest'
import type { Served } from '../../src/build/serve.ts'
import { serveModules } from './modules.ts'
import { openPage, type TestPage } from './page.ts'

type Logs = typeof import('../../src/adapters/log/browserLog.ts')
type Locks = typeof import('../../src/adapters/log/tabLock.ts')

declare global {
  interface Window {
    lock: ReturnType<Locks['createTabLock']>
    lost: number
  }
}

let served: Served
let opened: TestPage
beforeAll(async () => {
  served = await serveModules()
})
afterAll(() => served.close())
beforeEach(async () => {
  opened = await openPage({ address: served.address })
})
afterEach(() => opened.close())

const append = (page: Page, from: number, to: number) =>
  page.evaluate(
    async ([from, to]) => {
      const { createBrowserLog } = await window.bring<Logs>('/adapters/log/browserLog.ts')
      const log = await createBrowserLog()
      for (let seq = from; seq < to; seq++) {
        await log.append({ v: 1, seq, runId: 'run', t: seq, wall: '2000-01-01T00:00:00Z', type: 'resumed' })
      }
      return (await log.read('run')).map((event) => (event as { seq: number }).seq)
    },
    [from, to] as const,
  )

const hold = (page: Page, steal = false) =>
  page.evaluate(async (steal) => {
    const { createTabLock } = await window.bring<Locks>('/adapters/log/tabLock.ts')
    window.lost = 0
    window.lock = createTabLock()
    return window.lock.hold('run', { steal, lost: () => window.lost++ })
  }, steal)

test('events are there after a reload, and the log goes on', async () => {
  const { page } = opened
  expect(await append(page, 0, 3)).toEqual([0, 1, 2])
  await page.reload()
  expect(await append(page, 3, 5)).toEqual([0, 1, 2, 3, 4])
})

test('a second tab cannot write the same event', async () => {
  await append(opened.page, 0, 2)
  const other = await opened.context.newPage()
  await other.goto(served.address)
  await expect(append(other, 1, 2)).rejects.toThrow(/another tab writes the same run/)
})

test('a run is held by one tab, and by the next one when it is closed', async () => {
  const other = await opened.context.newPage()
  await other.goto(served.address)
  expect(await hold(opened.page)).toBe(true)
  expect(await hold(other)).toBe(false)
  await opened.page.close()
  expect(await hold(other)).toBe(true)
})

test('a tab that takes the run over is its writer; the one before is told', async () => {
  const other = await opened.context.newPage()
  await other.goto(served.address)
  await hold(opened.page)
  expect(await hold(other, true)).toBe(true)
  await opened.page.waitForFunction(() => window.lost === 1)
  expect(await hold(opened.page)).toBe(false)
})

test('a tab that reloads holds its run again', async () => {
  const { page } = opened
  await hold(page)
  await page.reload()
  expect(await hold(page)).toBe(true)
})
