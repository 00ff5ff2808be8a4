/** The app as it is served, in a real browser: what it asks for, and what it does where the browser refuses. */

import { mkdtemp, rm } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import type { Download, Page } from 'playwright-core'
import { afterEach, describe, expect, inject, test } from 'vitest'
import { serve } from '../../../src/build/serve.ts'
import { goOnFlown } from '../flown.ts'
import { openPage, type PageOptions, type TestPage } from '../page.ts'
import { pilotAt } from '../pilot.ts'

let opened: TestPage
afterEach(() => opened.close())
const open = async (options: Partial<PageOptions> = {}) => {
  opened = await openPage({ address: inject('address'), ...options })
  return opened
}

/** From the first visit to the first item of the demo pack's first list. */
async function openFirstItem(test: TestPage): Promise<void> {
  await pilotAt(test).begin()
  await test.page.getByRole('button', { name: /^Call load figures/ }).click()
  await firstItem(test.page).waitFor()
}

/** Types an answer or a phrase and sends it. */
async function type(page: Page, text: string): Promise<void> {
  const field = page.getByLabel('Answer or phrase, typed')
  await field.fill(text)
  await field.press('Enter')
}

const firstItem = (page: Page) => page.getByRole('heading', { level: 1, name: 'zero fuel weight' })
const heading = (page: Page) => page.getByRole('heading', { level: 1 })
const listening = (page: Page) => page.getByText('Listening', { exact: true })
const SYNTHESISER = /\/(synthesis|otherseat|controller|broadcast|groundCrew)[^/]*\.(wasm|js)$/
const heard = (page: Page) => page.getByRole('region', { name: 'What was heard' })

/** The ear is there and open: the voice has finished, the recogniser is loaded. */
const waitUntilListening = (page: Page) => listening(page).waitFor({ timeout: 60_000 })

describe('a first visit', () => {
  test('comes to the first item and listens, without an error and without asking another origin', async () => {
    const { page, errors, foreign, requests } = await open()
    await openFirstItem(opened)
    await waitUntilListening(page)
    expect(errors()).toEqual([])
    expect(foreign()).toEqual([])
    // All that this pack has to be told has its clips.
    expect(requests.filter((url) => SYNTHESISER.test(url))).toEqual([])
  })

  test('leaves nothing that the voice could not say: the embedded one speaks where the browser has none', async () => {
    const { page } = await open()
    await openFirstItem(opened)
    await waitUntilListening(page)
    await type(page, 'one two three')
    await heard(page).getByText('one', { exact: true }).waitFor()
    await waitUntilListening(page)
    expect(await page.getByText('The voice cannot be heard').count()).toBe(0)
  })
})

describe('where the microphone', () => {
  test.each([
    ['is refused', 'refused', /microphone.*allow/is],
    ['is missing', 'missing', /no microphone.*plug/is],
    ['is nothing that the browser gives to pages', 'unknown', /gives pages no microphone.*https/is],
  ] as const)('%s, that is said and typing goes on', async (_what, microphone, message) => {
    const { page, errors } = await open({ microphone })
    await openFirstItem(opened)
    const alert = page.getByRole('alert').filter({ hasText: message })
    await alert.waitFor({ timeout: 60_000 })
    expect(await page.getByRole('alert').count()).toBe(1)
    await type(page, 'one two three')
    await heard(page).getByText('one', { exact: true }).waitFor()
    expect(await heading(page).textContent()).toMatch(/^zero fuel weight$/i)
    expect(errors()).toEqual([])
  })
})

describe('where the browser stores nothing', () => {
  test('that is said at once and stays said; the run is flown all the same, and its log can be saved', async () => {
    const { page, errors } = await open({ storage: 'refused' })
    const banner = page.getByRole('alert').filter({ hasText: 'The log cannot be kept' })
    await banner.waitFor()
    expect(await banner.textContent()).toMatch(/private window/)
    await openFirstItem(opened)
    await type(page, 'one two three')
    await heard(page).getByText('one', { exact: true }).waitFor()
    expect(await banner.isVisible()).toBe(true)
    const download = page.waitForEvent('download')
    await page.getByRole('button', { name: 'Save the log as a file' }).click()
    const lines = (await readDownload(await download)).trim().split('\n')
    const events = lines.map((line) => JSON.parse(line))
    expect(events.map(({ seq }) => seq)).toEqual(events.map((_, index) => index))
    expect(events.map(({ type }) => type)).toEqual(expect.arrayContaining(['runStarted', 'listCalled', 'answered']))
    expect(errors()).toEqual([])
  })
})

async function readDownload(download: Download): Promise<string> {
  const chunks: Buffer[] = []
  for await (const chunk of await download.createReadStream()) chunks.push(chunk)
  return Buffer.concat(chunks).toString('utf8')
}

describe('a run', () => {
  test('is at the same item after a reload, and hears again', async () => {
    const { page } = await open()
    await openFirstItem(opened)
    await waitUntilListening(page)
    await page.reload()
    await page.getByRole('button', { name: 'Press any key to resume' }).press('Enter')
    await firstItem(page).waitFor()
    await waitUntilListening(page)
  })

  test('is written by one tab: another one is told, and may take it over', async () => {
    const { page, context } = await open()
    await openFirstItem(opened)
    const other = await context.newPage()
    await other.goto(inject('address'))
    await other.getByRole('button', { name: 'Resume the run' }).click()
    await other.getByRole('heading', { name: 'This run is open in another tab' }).waitFor()
    await other.getByRole('button', { name: 'Take over here' }).click()
    await firstItem(other).waitFor()
    await page.getByRole('heading', { name: 'This run is open in another tab' }).waitFor()
  })
})

/** As on a first visit, but for what the service worker keeps. */
async function forgetRuns({ page, context }: TestPage): Promise<void> {
  await page.evaluate(() => sessionStorage.clear())
  const { origin } = new URL(page.url())
  const browser = await context.newCDPSession(page)
  await browser.send('Storage.clearDataForOrigin', { origin, storageTypes: 'indexeddb,local_storage' })
  await page.reload()
}

test('after the first visit the app works with the server stopped and the browser started again', async () => {
  const profile = await mkdtemp(join(tmpdir(), 'otherseat-offline-'))
  const served = await serve({ port: 0, dir: inject('site') })
  const options: PageOptions = { address: served.address, profile, serviceWorkers: 'allow' }
  try {
    const { page, foreign } = await open(options)
    await page.evaluate(() => navigator.serviceWorker.ready.then(() => undefined))
    expect(foreign()).toEqual([])
    await opened.close()
    await served.close()
    await expect(fetch(served.address)).rejects.toThrow()
    const again = await open(options)
    await pilotAt(again).begin()
    await waitUntilListening(again.page)
    expect(await again.page.getByText('The voice cannot be heard').count()).toBe(0)
    expect(again.requests.filter((url) => SYNTHESISER.test(url))).toEqual([])
    // A pack of the user's own, with words that have no clips.
    await forgetRuns(again)
    await goOnFlown(again, ['load figures list'], { words: { 'zero fuel weight': 'cargo hood weight' } })
    await waitUntilListening(again.page)
    expect(again.requests.filter((url) => SYNTHESISER.test(url))).toHaveLength(2)
    expect(await again.page.getByText('The voice cannot be heard').count()).toBe(0)
    expect(again.foreign()).toEqual([])
  } finally {
    await served.close().catch(() => undefined)
    await opened.close()
    await rm(profile, { recursive: true, force: true, maxRetries: 3 })
  }
})
