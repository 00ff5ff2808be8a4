/**
 * Puts everything together, in this order: settings, then the log (the run's truth), then sound, then
 * the screen. The one file that knows every layer.
 */

import { render } from 'preact'
import { systemClock } from './adapters/clock.ts'
import { createDeviceEar } from './adapters/ear/deviceEar.ts'
import { createBrowserLog } from './adapters/log/browserLog.ts'
import { createMemoryLog } from './adapters/log/memoryLog.ts'
import { createTabLock } from './adapters/log/tabLock.ts'
import { createPackFiles } from './adapters/packFiles.ts'
import { createVoice } from './adapters/voice/chooseVoice.ts'
import { makeActions } from './app/makeActions.ts'
import { readSettings, writeSettings } from './app/settings.ts'
import { createAppStore } from './app/store.ts'
import { keepOffline } from './offline.ts'
import type { RunLog } from './ports.ts'
import { App } from './ui/App.tsx'
import { CannotStart } from './ui/CannotStart.tsx'

const root = document.getElementById('app') ?? document.body

async function start(): Promise<void> {
  const kept = storage('localStorage')
  const settings = readSettings(kept)
  const store = createAppStore({ settings })
  const { log, message } = await openLog()
  if (message) store.setState({ storage: { kept: false, message } })
  const packFiles = createPackFiles()
  const voice = createVoice({ settings: () => store.getState().settings })
  const ear = createDeviceEar({
    modelBase: new URL('model/', document.baseURI).href,
    clock: systemClock,
  })
  const actions = makeActions({
    store,
    clock: systemClock,
    log,
    ear,
    voice,
    packFiles,
    lock: createTabLock(),
    newRunId: () => crypto.randomUUID(),
    saveSettings: (next) => writeSettings(kept, next),
    openHere: openHere(),
    wakeSound: () => voice.wake(),
  })
  store.setState({ packs: await packFiles.list() })
  await actions.recall()
  render(<App store={store} actions={actions} />, root)
  keepOffline()
  store.setState({ voices: await voice.browserVoices() })
}

/** With site data blocked, even to name a storage throws. */
function storage(name: 'localStorage' | 'sessionStorage'): Storage | undefined {
  try {
    return globalThis[name]
  } catch {
    return undefined
  }
}

/** The database, or memory with the reason why: a run that cannot be kept is still flown, and says so. */
async function openLog(): Promise<{ log: RunLog; message: string }> {
  try {
    return { log: await createBrowserLog(), message: '' }
  } catch (error) {
    return { log: createMemoryLog(), message: error instanceof Error ? error.message : String(error) }
  }
}

/** The tab's own storage lives over a reload, and ends with the tab. */
function openHere() {
  const key = 'otherseat.open'
  const tab = storage('sessionStorage')
  return {
    get: () => tab?.getItem(key) ?? undefined,
    set: (runId: string | undefined) => (runId === undefined ? tab?.removeItem(key) : tab?.setItem(key, runId)),
  }
}

start().catch((error: unknown) => {
  render(<CannotStart message={error instanceof Error ? error.message : String(error)} />, root)
})
