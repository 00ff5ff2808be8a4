/** Finds the Chromium or Chrome in which the browser tests run. */

import { execFileSync } from 'node:child_process'
import { existsSync } from 'node:fs'
import { delimiter, join } from 'node:path'

const NAMES = ['chromium', 'chromium-browser', 'google-chrome', 'google-chrome-stable', 'chrome']
const PLACES = [
  '/Applications/Google Chrome.app/Contents/MacOS/Google Chrome',
  '/Applications/Chromium.app/Contents/MacOS/Chromium',
  ...['PROGRAMFILES', 'PROGRAMFILES(X86)', 'LOCALAPPDATA'].flatMap((name) => {
    const folder = process.env[name]
    return folder ? [join(folder, 'Google', 'Chrome', 'Application', 'chrome.exe')] : []
  }),
]

/** `CHROME_PATH`, else what is on the path, else the usual places; undefined where there is none. */
export function findChromium(): string | undefined {
  const named = process.env.CHROME_PATH
  if (named) return existsSync(named) ? named : undefined
  const onPath = (process.env.PATH ?? '').split(delimiter).flatMap((folder) => NAMES.map((name) => join(folder, name)))
  return [...onPath, ...PLACES].find((file) => existsSync(file))
}

/** On Debian as root a missing Chromium is installed; elsewhere the answer is what to do. */
export function chromiumOrWhy(): { readonly path: string } | { readonly why: string } {
  const found = findChromium()
  if (found) return { path: found }
  if (process.env.CHROME_PATH) return { why: `CHROME_PATH=${process.env.CHROME_PATH}: there is no such file` }
  if (existsSync('/etc/debian_version') && process.getuid?.() === 0) {
    try {
      const quiet = { stdio: ['ignore', 'ignore', 'inherit'] as ['ignore', 'ignore', 'inherit'] }
      execFileSync('apt-get', ['update', '-qq'], quiet)
      execFileSync('apt-get', ['install', '-y', '-qq', '--no-install-recommends', 'chromium'], quiet)
    } catch {
      return { why: 'apt-get could not install chromium: install it, or set CHROME_PATH' }
    }
    const path = findChromium()
    if (path) return { path }
  }
  return { why: 'no Chromium or Chrome found: install one, or set CHROME_PATH to its program' }
}
