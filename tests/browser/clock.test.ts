/** The clock's timers on a page behind another tab, beside the page's own, which the browser slows down there. */

import { afterEach, expect, test } from 'vitest'
import type { Served } from '../../src/build/serve.ts'
import { serveModules } from './modules.ts'
import { openPage, type TestPage } from './page.ts'

type Clocks = typeof import('../../src/adapters/workerClock.ts')

let served: Served
let opened: TestPage
afterEach(async () => {
  await opened.close()
  await served.close()
})

const STEP_MS = 100
const SECONDS = 6
/** A hidden page gets one of its own timers a second. */
const OF_ITS_OWN = SECONDS + 1

test('timers of a page that is not seen go on at their pace, and none comes before its time', async () => {
  served = await serveModules()
  opened = await openPage({ address: served.address, canBeHidden: true })
  const behind = await opened.context.newPage()
  await behind.bringToFront()
  await expect.poll(() => opened.page.evaluate(() => document.visibilityState)).toBe('hidden')

  const ticks = await opened.page.evaluate(
    async ([stepMs, seconds]) => {
      const { createWorkerClock } = await window.bring<Clocks>('/adapters/workerClock.ts')
      const clock = createWorkerClock()
      const ofPage: number[] = []
      const ofClock: number[] = []
      const early: number[] = []
      const pageAgain = () => {
        ofPage.push(Date.now())
        setTimeout(pageAgain, stepMs)
      }
      const clockAgain = () => {
        const due = clock.now() + stepMs
        clock.after(stepMs, () => {
          ofClock.push(clock.now())
          if (clock.now() < due) early.push(due - clock.now())
          clockAgain()
        })
      }
      pageAgain()
      clockAgain()
      await new Promise<void>((done) => clock.after(seconds * 1000, done))
      return { ofPage: ofPage.length, ofClock: ofClock.length, early }
    },
    [STEP_MS, SECONDS] as const,
  )
  // The browser does slow it down, or this shows nothing.
  expect(ticks.ofPage).toBeLessThanOrEqual(2 * OF_ITS_OWN)
  expect(ticks.ofClock).toBeGreaterThan(2 * ticks.ofPage)
  expect(ticks.early).toEqual([])
})
