/**
 * Keeps this edition of the app for use without a network: a service worker holds every file of it. A later edition waits
 * until it is asked for, or no tab has this one open: nothing changes in the middle of a run.
 */

import type { Edition, EditionState } from '../ports.ts'
import { RUN_LOCK } from './runLock.ts'

interface Parts {
  /** Address of the service worker's script; undefined where there is none, as while developing. */
  readonly script: URL | undefined
  readonly container?: ServiceWorkerContainer | undefined
  readonly locks?: Pick<LockManager, 'query'> | undefined
  readonly reload: () => void
}

export function createEdition({ script, container, locks, reload }: Parts): Edition {
  let registration: ServiceWorkerRegistration | undefined

  return {
    async keep(tell) {
      let state: EditionState = { isKept: false, hasNewer: false }
      const change = (next: Partial<EditionState>) => {
        state = { ...state, ...next }
        tell(state)
      }
      // Refused in some private windows; the app then needs the network the next time, and works all the same.
      registration = script && (await container?.register(script).catch(() => undefined))
      if (!registration || !container) return
      const look = () => {
        // The first edition of all is newer than none, and waits for nobody.
        const isKept = registration?.active != null
        change({ isKept, hasNewer: isKept && registration?.waiting != null })
      }
      const follow = () => registration?.installing?.addEventListener('statechange', look)
      registration.addEventListener('updatefound', follow)
      follow()
      look()
      await container.ready
      look()
    },
    async takeNewer() {
      // Another tab's run would lose the files that it has not loaded yet.
      const { held = [] } = (await locks?.query()) ?? {}
      if (held.some(({ name }) => name?.startsWith(RUN_LOCK))) return false
      container?.addEventListener('controllerchange', reload, { once: true })
      registration?.waiting?.postMessage({ type: 'SKIP_WAITING' })
      return true
    },
  }
}
