/**
 * The browser of a test. Starting one costs more than most tests: the tests of a file use the last one again where their
 * options are the same.
 */

import { mkdtemp, rm } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { type BrowserContext, chromium } from 'playwright-core'
import { findChromium } from '../chromium.ts'
import { injectLine } from './line.ts'
import { injectMicrophone, type MicrophoneOptions } from './microphone.ts'
import { startWithTabs } from './tabs.ts'
import { openTrap, type Trap } from './trap.ts'

export interface BrowserOptions {
  readonly microphone?: MicrophoneOptions['is']
  /** 0 (none) to 1: how much of the app's own sound comes back through the microphone. */
  readonly echo?: number
  /** With `window.line`. */
  readonly hasLine?: boolean
  readonly storage?: 'kept' | 'refused'
  readonly serviceWorkers?: 'block' | 'allow'
  /** A browser profile to be used again; a new one that is deleted afterwards where none is named. */
  readonly profile?: string
  readonly colorScheme?: 'dark' | 'light'
  /** Another tab in front of it hides the page; sizes, colours and profiles are the browser's own. */
  readonly canBeHidden?: boolean
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
  // Each test starts the recognisers anew: only what they use is compiled.
  '--js-flags=--wasm-lazy-compilation',
  '--autoplay-policy=no-user-gesture-required',
]

/** A busy machine must not decide a test. */
const PATIENCE_MS = 110_000

/** A browser with a window, and its profile. */
export interface Browser {
  /** Of the options that stay with it; undefined where it is for one test alone. */
  readonly key: string | undefined
  readonly context: BrowserContext
  readonly trap: Trap
  /** Some test had it before. */
  isUsed: boolean
  close(): Promise<void>
}

async function startBrowser(options: BrowserOptions, key: string | undefined): Promise<Browser> {
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

let kept: Browser | undefined

/** The last one where it is like this one, else a new one. */
export async function takeBrowser(options: BrowserOptions): Promise<Browser> {
  const key = keyOf(options)
  if (key === undefined || kept?.key !== key) return startBrowser(options, key)
  const browser = kept
  kept = undefined
  return browser
}

/** Undefined where it cannot be used again, or nobody will: outside a run of tests. */
function keyOf(options: BrowserOptions): string | undefined {
  const { profile, canBeHidden, microphone, echo, hasLine, storage, serviceWorkers, colorScheme } = options
  if (process.env.VITEST === undefined || profile || canBeHidden) return undefined
  return JSON.stringify([microphone, echo, hasLine, storage, serviceWorkers, colorScheme])
}

/** Kept for the next test, its pages closed with all that they left running; or closed. */
export async function leaveBrowser(browser: Browser): Promise<void> {
  if (browser.key === undefined) return browser.close()
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
