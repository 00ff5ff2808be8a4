/**
 * A browser in which a page can really be hidden: started as people start it, where the test tool's own way
 * of starting keeps every page visible and its timers at full pace.
 */

import { spawn } from 'node:child_process'
import { readFile } from 'node:fs/promises'
import { join } from 'node:path'
import { type BrowserContext, chromium } from 'playwright-core'
import { until } from './until.ts'

const START_MS = 60_000

export interface TabbedBrowser {
  readonly context: BrowserContext
  end(): Promise<void>
}

export async function startWithTabs(
  program: string,
  profile: string,
  args: readonly string[],
  proxy: { readonly server: string; readonly bypass: string },
): Promise<TabbedBrowser> {
  const network = [`--proxy-server=${proxy.server}`, `--proxy-bypass-list=${proxy.bypass}`]
  const own = ['--headless', '--mute-audio', '--remote-debugging-port=0', `--user-data-dir=${profile}`]
  const child = spawn(program, [...args, ...network, ...own, 'about:blank'], { stdio: 'ignore' })
  const exited = new Promise<void>((done) => child.once('exit', () => done()))
  const port = await until(
    async () => (await readFile(join(profile, 'DevToolsActivePort'), 'utf8').catch(() => '')).split('\n')[0],
    START_MS,
  )
  const browser = await chromium.connectOverCDP(`http://127.0.0.1:${port}`, { noDefaults: true })
  const [context] = browser.contexts()
  if (!context) throw new Error('the browser has no window')
  return {
    context,
    async end() {
      await browser.close()
      child.kill()
      await exited
    },
  }
}
