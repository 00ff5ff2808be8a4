/**
 * What the ear costs in a real browser: how long it loads at the first visit and at the next, what it takes for an
 * utterance, and whether its memory stays flat. Wall times: to be measured on a machine that does nothing else; the app
 * is served from the same machine, without a network's time. Needs Chromium or Chrome.
 * `CHROMIUM_UTTERANCES` instead of 500 of them.
 */

import { mkdtemp, readFile, rm } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { fileURLToPath } from 'node:url'
import { readPackDir } from '../../src/cli/packDir.ts'
import { vocabularyOf } from '../../src/kernel/hearing/vocabulary.ts'
import { FINAL_ANSWERS, LISTS, PRELIMINARY_ANSWERS } from '../audio/departure.ts'
import { serveModules } from '../browser/modules.ts'
import { openPage, type TestPage } from '../browser/page.ts'
import { pilotAt } from '../browser/pilot.ts'
import { serveSite } from '../browser/site.ts'
import { findChromium } from '../chromium.ts'
import { type HeardOfMany, hearMany } from './many.ts'
import { percentile } from './tally.ts'

const here = (path: string) => fileURLToPath(new URL(`../../${path}`, import.meta.url))
const UTTERANCES = Number(process.env.CHROMIUM_UTTERANCES ?? 500)
/** Memory is measured from here on: by then everything has been loaded and used. */
const SETTLED = Math.min(100, Math.floor(UTTERANCES / 2))
/** And this many times after that: a leak grows by as much each time. */
const MEMORY_SAMPLES = 4
const VISITS = 5

/** Nothing where there is no browser. */
export async function measure(): Promise<Record<string, number>> {
  if (!findChromium()) return {}
  return { ...(await loads()), ...(await utterances()) }
}

async function loads(): Promise<Record<string, number>> {
  const served = await serveSite()
  const [first, next]: [number[], number[]] = [[], []]
  try {
    for (let visit = 0; visit < VISITS; visit++) {
      const profile = await mkdtemp(join(tmpdir(), 'otherseat-load-'))
      first.push(await loadMs(served.address, profile, true))
      next.push(await loadMs(served.address, profile, false))
      await rm(profile, { recursive: true, force: true, maxRetries: 3 })
    }
  } finally {
    await served.close()
  }
  return {
    'chromium.loadFirstMedianMs': Math.round(percentile(first, 0.5)),
    'chromium.loadNextMedianMs': Math.round(percentile(next, 0.5)),
  }
}

/** From the moment at which the page says that it loads the recogniser to that at which it no longer does. */
async function loadMs(address: string, profile: string, isFirst: boolean): Promise<number> {
  const opened = await openPage({ address, profile, serviceWorkers: 'allow' })
  const { page } = opened
  try {
    await page.evaluate(() => {
      const noted: number[] = []
      const note = () => {
        const isLoading = document.querySelector('[aria-label="Recogniser loaded"]') !== null
        if (isLoading === (noted.length === 0)) noted.push(performance.now())
        if (noted.length === 2) document.body.dataset.loadMs = String((noted[1] ?? 0) - (noted[0] ?? 0))
      }
      new MutationObserver(note).observe(document.body, { subtree: true, childList: true })
    })
    if (isFirst) await pilotAt(opened).begin()
    else await page.getByRole('button', { name: 'Resume the run' }).click()
    await page.locator('body[data-load-ms]').waitFor({ state: 'attached' })
    // The next visit is to find everything kept.
    if (isFirst) await page.evaluate(() => navigator.serviceWorker.ready.then(() => undefined))
    return Number(await page.evaluate(() => document.body.dataset.loadMs))
  } finally {
    await opened.close()
  }
}

async function utterances(): Promise<Record<string, number>> {
  const served = await serveModules()
  const opened = await openPage({ address: served.address })
  try {
    const { pack } = await readPackDir(here('checklists/marram'))
    if (!pack) throw new Error('the demo pack has a fault')
    const files = [...PRELIMINARY_ANSWERS, ...FINAL_ANSWERS, ...LISTS].map(({ file }) => file)
    const recordings = await Promise.all(
      files.map(async (file) => (await readFile(here(`audio/check/departure/${file}.wav`))).toString('base64')),
    )
    const vocabulary = vocabularyOf(pack)
    const { page } = opened
    await page.evaluate(hearMany.prepare, { vocabulary, recordings })
    const all: HeardOfMany[] = []
    const megabytes: Record<string, number> = {}
    for (let sample = 0; sample <= MEMORY_SAMPLES; sample++) {
      const until = SETTLED + Math.round(((UTTERANCES - SETTLED) * sample) / MEMORY_SAMPLES)
      all.push(...(await page.evaluate(hearMany.hear, { from: all.length, count: until - all.length })))
      megabytes[`chromium.megabytesAfter${until}`] = Math.round(await megabytesOfPages(opened))
    }
    const sum = (numbers: readonly number[]) => numbers.reduce((total, one) => total + one, 0)
    return {
      'chromium.utterances': all.length,
      'chromium.shareWithWords': all.filter(({ text }) => text !== '').length / all.length,
      'chromium.realTimeFactor': sum(all.map(({ workMs }) => workMs)) / sum(all.map(({ soundMs }) => soundMs)),
      ...megabytes,
    }
  } finally {
    await opened.close()
    await served.close()
  }
}

/** Memory held by the browser's processes for pages and their workers, of which there is one. Linux. */
async function megabytesOfPages({ page }: TestPage): Promise<number> {
  const browser = page.context().browser()
  if (!browser) throw new Error('the page has no browser')
  const session = await browser.newBrowserCDPSession()
  const { processInfo } = await session.send('SystemInfo.getProcessInfo')
  await session.detach()
  const pages = processInfo.filter(({ type }) => type === 'renderer')
  const kilobytes = await Promise.all(
    pages.map(async ({ id }) => {
      const status = await readFile(`/proc/${id}/status`, 'utf8')
      return Number(/^VmRSS:\s+(\d+) kB/m.exec(status)?.[1])
    }),
  )
  return kilobytes.reduce((sum, one) => sum + one, 0) / 1000
}
