/**
 * Opens the app in headless Chromium as a test wants it: with the injected microphone, with storage
 * refused, with or without service workers; and notes every request and every error on the console.
 */

import { mkdtemp, rm } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import {
  type BrowserContext,
  type ConsoleMessage,
  chromium,
  type Page,
  type Request,
  type WebError,
} from 'playwright-core'
import { findChromium } from '../chromium.ts'
import { injectLine } from './line.ts'
import { injectMicrophone, type MicrophoneOptions } from './microphone.ts'
import { startWithTabs } from './tabs.ts'
import { openTrap, type Trap } from './trap.ts'

export interface PageOptions {
  readonly address: string
  readonly microphone?: MicrophoneOptions['is']
  /** 0 (none) to 1: how much of the app's own sound comes back through the microphone. */
  readonly echo?: number
  /** With `window.line`. */
  readonly hasLine?: boolean
  readonly storage?: 'kept' | 'refused'
  readonly serviceWorkers?: 'block' | 'allow'
  /** A browser profile to be used again; a new one that is deleted afterwards where none is named. */
  readonly profile?: string
  readonly width?: number
  readonly height?: number
  readonly colorScheme?: 'dark' | 'light'
  /** Another tab in front of it hides the page; sizes, colours and profiles are the browser's own. */
  readonly canBeHidden?: boolean
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

const ARGS = [
  // The browser's own form filling asks its maker's server about every form; that is not the app's doing.
  '--disable-features=AutofillServerCommunication',
  '--no-sandbox',
  '--disable-gpu',
  '--disable-quic',
  '--no-first-run',
  '--disable-background-networking',
  '--disable-component-update',
  '--disable-sync',
  '--autoplay-policy=no-user-gesture-required',
]

/** A busy machine must not decide a test. */
const PATIENCE_MS = 110_000

/** The recogniser looks for this file, which the model need not have; the browser reports the 404. */
const OPTIONAL_FILE = /feature_transform/

export async function openPage(options: PageOptions): Promise<TestPage> {
  const { microphone: is = 'there', echo = 0, hasLine = false, storage, serviceWorkers, colorScheme } = options
  const key = JSON.stringify([is, echo, hasLine, storage, serviceWorkers, colorScheme])
  const browser = (isKept(options) && takeKept(key)) || (await startBrowser(options, key))
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
  await page.setViewportSize({ width: options.width ?? 1280, height: options.height ?? 800 })
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
      if (isKept(options)) await keepForNext(browser)
      else await browser.close()
    },
  }
}

/** A browser with a window, and its profile. */
interface Browser {
  /** What sets it apart and stays with it. */
  readonly key: string
  readonly context: BrowserContext
  readonly trap: Trap
  /** Some test had it before. */
  isUsed: boolean
  close(): Promise<void>
}

async function startBrowser(options: PageOptions, key: string): Promise<Browser> {
  const executablePath = findChromium()
  if (!executablePath) throw new Error('no Chromium or Chrome found: install one, or set CHROME_PATH to its program')
  const profile = options.profile ?? (await mkdtemp(join(tmpdir(), 'otherseat-browser-')))
  const trap = await openTrap()
  const proxy = { server: trap.server, bypass: 'localhost' }
  const tabbed = options.canBeHidden ? await startWithTabs(executablePath, profile, ARGS, proxy) : undefined
  const context =
    tabbed?.context ??
    (await chromium.launchPersistentContext(profile, {
      executablePath,
      headless: true,
      args: ARGS,
      proxy,
      serviceWorkers: options.serviceWorkers ?? 'block',
      colorScheme: options.colorScheme ?? 'dark',
    }))
  context.setDefaultTimeout(PATIENCE_MS)
  const { microphone: is = 'there', echo = 0, hasLine = false } = options
  const microphone: MicrophoneOptions = { is, echo, hasLine }
  // Outside the test runner functions are sent with calls of this helper of the compiler's.
  await context.addInitScript({ content: 'globalThis.__name ??= (it) => it' })
  await context.addInitScript(injectMicrophone, microphone)
  await context.addInitScript(tellBlocked)
  if (hasLine) await context.addInitScript(injectLine)
  if (options.storage === 'refused') await context.addInitScript(refuseStorage)
  return {
    key,
    context,
    trap,
    isUsed: false,
    async close() {
      await (tabbed ? tabbed.end() : context.close())
      await trap.close()
      if (!options.profile) await rm(profile, { recursive: true, force: true, maxRetries: 3 })
    },
  }
}

/** Starting a browser costs more than most tests: within a file the last one is used again where these options are the same. */
const isKept = ({ profile, canBeHidden }: PageOptions) => process.env.VITEST !== undefined && !profile && !canBeHidden
let kept: Browser | undefined

function takeKept(key: string): Browser | undefined {
  if (kept?.key !== key) return undefined
  const browser = kept
  kept = undefined
  return browser
}

/** Its pages are closed, with all that they left running. */
async function keepForNext(browser: Browser): Promise<void> {
  const old = browser.context.pages()
  await browser.context.newPage()
  await Promise.all(old.map((page) => page.close()))
  browser.isUsed = true
  const last = kept
  kept = browser
  await last?.close()
}
if (process.env.VITEST !== undefined) {
  const { afterAll } = await import('vitest')
  afterAll(() => kept?.close())
}

/** All that sites keep: settings, runs, packs, and what works offline. */
async function forget(context: BrowserContext, page: Page, origin: string): Promise<void> {
  const session = await context.newCDPSession(page)
  await session.send('Storage.clearDataForOrigin', { origin, storageTypes: 'all' })
  await session.detach()
}

/** Addresses without a host (data, blob) stay in the page. */
function isOf(origin: string, url: string): boolean {
  const { protocol, origin: own } = new URL(url)
  return protocol === 'data:' || own === origin
}

/** Not every browser tells of what its page's policy blocked as an error, but a pilot's console may. */
function tellBlocked(): void {
  document.addEventListener('securitypolicyviolation', ({ blockedURI, violatedDirective, sourceFile }) =>
    console.error(`${violatedDirective} blocked ${blockedURI} of ${sourceFile}`),
  )
}

/** As with all site data blocked: the database and both storages throw when touched. */
function refuseStorage(): void {
  const refuse = () => {
    throw new DOMException('storage is refused', 'SecurityError')
  }
  IDBFactory.prototype.open = refuse
  for (const name of ['localStorage', 'sessionStorage']) Object.defineProperty(window, name, { get: refuse })
}
