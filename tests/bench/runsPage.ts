/**
 * What 1,000 runs of 200 items cost in a real browser: from the click to the list of runs, and to the pictures of progress.
 * The page reads lines and facts that are kept beside the logs, so the logs themselves are not put there. Needs Chromium or
 * Chrome; a wall time, to be measured on a machine that does nothing else.
 */

import type { Page } from 'playwright-core'
import { openPage } from '../browser/page.ts'
import { serveSite } from '../browser/site.ts'
import { findChromium } from '../chromium.ts'
import { madeUpRuns } from '../kernel/training/madeUp.ts'
import { summaryOf } from './runs.ts'
import { percentile } from './tally.ts'

const COUNTS = [250, 500, 1_000]
const ITEMS = 200
const TIMES = 7

/** Nothing where there is no browser. */
export async function measure(seed = 1): Promise<Record<string, number>> {
  if (!findChromium()) return {}
  const served = await serveSite()
  const figures: Record<string, number> = {}
  try {
    for (const runs of COUNTS) {
      const opened = await openPage({ address: served.address })
      try {
        await keep(opened.page, runs, seed)
        figures[`runsPage.list${runs}Ms`] = await opening(opened.page, 'Runs', '.runs li')
        figures[`runsPage.progress${runs}Ms`] = await opening(opened.page, 'Progress', '.plot canvas')
      } finally {
        await opened.close()
      }
    }
  } finally {
    await served.close()
  }
  return figures
}

async function keep(page: Page, runs: number, seed: number): Promise<void> {
  await page.getByRole('button', { name: 'Take your seat' }).waitFor()
  await page.evaluate(() => localStorage.setItem('otherseat.settings', JSON.stringify({ welcomed: true })))
  await page.reload()
  await page.getByRole('button', { name: 'Progress' }).click()
  await page.getByText(/^No run yet/).waitFor()
  const facts = madeUpRuns({ runs, trials: ITEMS, seed })
  const summaries = facts.map(({ runId }, at) => ({ ...summaryOf(at), runId }))
  await page.evaluate(
    async ({ summaries, texts }) => {
      const write = (name: string, store: string, put: (to: IDBObjectStore) => void) =>
        new Promise<void>((done, failed) => {
          const open = indexedDB.open(name)
          open.onerror = () => failed(open.error)
          open.onsuccess = () => {
            const tx = open.result.transaction(store, 'readwrite')
            put(tx.objectStore(store))
            tx.oncomplete = () => {
              open.result.close()
              done()
            }
          }
        })
      await write('otherseat', 'runs', (to) => summaries.map((one) => to.put(one)))
      await write('otherseat-worked-out', 'texts', (to) => texts.map(([key, text]) => to.put(text, key)))
    },
    { summaries, texts: facts.map((one) => [`run ${one.runId}`, JSON.stringify(one)] as const) },
  )
  await page.reload()
}

/** Median, each time on a page that has just been loaded: nothing of the runs is in its memory, and its code is still to come. */
async function opening(page: Page, screen: string, there: string): Promise<number> {
  const taken: number[] = []
  for (let time = 0; time < TIMES; time++) {
    await page.goto(page.url().replace(/#.*$/, ''))
    await page.reload()
    await page.getByRole('button', { name: screen }).waitFor()
    const ms = await page.evaluate(
      ([name, selector]) =>
        new Promise<number>((done) => {
          const button = [...document.querySelectorAll('button')].find(({ textContent }) => textContent === name)
          const begin = performance.now()
          const look = () =>
            document.querySelector(selector) ? done(performance.now() - begin) : requestAnimationFrame(look)
          button?.click()
          requestAnimationFrame(look)
        }),
      [screen, there] as const,
    )
    taken.push(ms)
  }
  return Math.round(percentile(taken, 0.5))
}
