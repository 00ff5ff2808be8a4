/**
 * Puts the first screen together, in this order: settings, then the log (the run's truth), then the
 * screen. What a run needs loads meanwhile (`composeApp.ts`); these two files know every layer.
 */

import { render } from 'preact'
import { createEdition } from './adapters/edition.ts'
import { createBrowserLog } from './adapters/log/browserLog.ts'
import { createMemoryLog } from './adapters/log/memoryLog.ts'
import { createPackFiles } from './adapters/packFiles.ts'
import { lazyActions } from './app/actions/lazyActions.ts'
import { brokenBy } from './app/broken.ts'
import { keepTable, readTable } from './app/papers/openOnTable.ts'
import { findUnfinished } from './app/run/unfinished.ts'
import { readSettings, writeSettings } from './app/settings.ts'
import { createAppStore } from './app/store.ts'
import type { RunArchive } from './ports.ts'
import { App } from './ui/App.tsx'
import { CannotStart } from './ui/CannotStart.tsx'
import { loadAllScreens } from './ui/screens.tsx'

const root = document.getElementById('app') ?? document.body

async function start(): Promise<void> {
  const composing = import('./composeApp.ts')
  const kept = storage('localStorage')
  const tab = storage('sessionStorage')
  const store = createAppStore({ settings: readSettings(kept), ...readTable(tab) })
  keepTable(store, tab)
  const { log, message } = await openLog()
  if (message) store.setState({ storage: { kept: false, message } })
  const packFiles = createPackFiles()
  const here = openHere(tab)
  store.setState((await findUnfinished(log, here.get())) ?? {})
  const saveSettings = (next: Parameters<typeof writeSettings>[1]) => writeSettings(kept, next)
  const tell = (error: unknown, from?: string) => {
    const broken = brokenBy(error, from)
    if (broken) store.setState({ broken })
  }
  addEventListener('error', ({ error, message, filename }) => tell(error ?? message, filename))
  addEventListener('unhandledrejection', ({ reason }) => tell(reason))
  const actions = composing.then(({ composeApp }) =>
    composeApp({ store, log, packFiles, openHere: here, saveSettings, tab, kept, edition }),
  )
  render(<App store={store} actions={lazyActions(actions)} />, root)
  store.setState({ packs: await packFiles.list() })
  await (await actions).listPacks()
  await loadAllScreens()
  void edition.keep((state) => store.setState({ edition: { ...state, isRefused: false } }))
}

const edition = createEdition({
  script: import.meta.env.PROD ? new URL('sw.js', document.baseURI) : undefined,
  container: navigator.serviceWorker,
  locks: navigator.locks,
  reload: () => location.reload(),
})

/** With site data blocked, even to name a storage throws. */
function storage(name: 'localStorage' | 'sessionStorage'): Storage | undefined {
  try {
    return globalThis[name]
  } catch {
    return undefined
  }
}

/** The database, or memory with the reason why: a run that cannot be kept is still flown, and says so. */
async function openLog(): Promise<{ log: RunArchive; message: string }> {
  try {
    return { log: await createBrowserLog(), message: '' }
  } catch (error) {
    return { log: createMemoryLog(), message: error instanceof Error ? error.message : String(error) }
  }
}

/** The tab's own storage lives over a reload, and ends with the tab. */
function openHere(tab: Storage | undefined) {
  const key = 'otherseat.open'
  return {
    get: () => tab?.getItem(key) ?? undefined,
    set: (runId: string | undefined) => (runId === undefined ? tab?.removeItem(key) : tab?.setItem(key, runId)),
  }
}

start().catch((error: unknown) => {
  render(<CannotStart message={error instanceof Error ? error.message : String(error)} />, root)
})
