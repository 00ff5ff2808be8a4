/**
 * Opens the app in headless Chromium as a test wants it: with the injected microphone, with storage
 * refused, with or without service workers; and notes every request and every error on the console.
 */

import type { BrowserContext, ConsoleMessage, Page, Request, WebError } from 'playwright-core'
import { type BrowserOptions, leaveBrowser, takeBrowser } from './browser.ts'

export interface PageOptions extends BrowserOptions {
  readonly address: string
  readonly width?: number
  readonly height?: number
}

export interface TestPage {
  readonly page: Page
  readonly context: BrowserContext
  /** Every address the browser asked for, in order. */
  readonly requests: readonly string[]
  /** Requests to any other origin than the app's, by page, worker or service worker. */
  foreign(): string[]
  /** Errors on the console and errors thrown, but for the one that the recogniser's optional file causes. */
  errors(): string[]
  /** Says a WAV file into the microphone; resolves when it has ended. */
  speakWav(wav: Uint8Array): Promise<void>
  close(): Promise<void>
}

/** The recogniser looks for this file, which the model need not have; the browser reports the 404. */
const OPTIONAL_FILE = /feature_transform/

export async function openPage(options: PageOptions): Promise<TestPage> {
  const browser = await takeBrowser(options)
  const { context, trap } = browser
  const requests: string[] = []
  const errors: string[] = []
  const caughtBefore = trap.caught.length
  const onRequest = (request: Request) => requests.push(request.url())
  const onError = (error: WebError) => errors.push(error.error().message)
  const onConsole = (message: ConsoleMessage) => {
    if (message.type() === 'error') errors.push(`${message.text()} ${message.location().url}`)
  }
  context.on('request', onRequest).on('weberror', onError).on('console', onConsole)
  const page = context.pages()[0] ?? (await context.newPage())
  if (!options.canBeHidden) await page.setViewportSize({ width: options.width ?? 1280, height: options.height ?? 800 })
  const { origin } = new URL(options.address)
  if (browser.isUsed) await forget(context, page, origin)
  await page.goto(options.address)
  return {
    page,
    context,
    requests,
    foreign: () => [...requests.filter((url) => !isOf(origin, url)), ...trap.caught.slice(caughtBefore)],
    errors: () => errors.filter((error) => !OPTIONAL_FILE.test(error)),
    speakWav: (wav) => page.evaluate((base64) => window.speakWav(base64), Buffer.from(wav).toString('base64')),
    async close() {
      context.off('request', onRequest).off('weberror', onError).off('console', onConsole)
      await leaveBrowser(browser)
    },
  }
}

/** Addresses without a host (data, blob) stay in the page. */
function isOf(origin: string, url: string): boolean {
  const { protocol, origin: own } = new URL(url)
  return protocol === 'data:' || own === origin
}

/** All that sites keep: settings, runs, packs, and what works offline. */
async function forget(context: BrowserContext, page: Page, origin: string): Promise<void> {
  const session = await context.newCDPSession(page)
  await session.send('Storage.clearDataForOrigin', { origin, storageTypes: 'all' })
  await session.detach()
}
