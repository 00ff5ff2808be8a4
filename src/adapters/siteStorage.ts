/** The browser's own account of the room a site has, which old browsers and plain addresses do without. */

import type { SiteStorage } from '../ports.ts'

export function createSiteStorage(storage: StorageManager | undefined = globalThis.navigator?.storage): SiteStorage {
  return {
    async room() {
      const estimate = await storage?.estimate?.().catch(() => undefined)
      const { usage, quota } = estimate ?? {}
      return usage === undefined || quota === undefined ? undefined : { used: usage, most: quota }
    },
    isKept: async () => storage?.persisted?.().catch(() => undefined),
    keep: async () => storage?.persist?.().catch(() => undefined),
  }
}
