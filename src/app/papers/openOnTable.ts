/** What lies open beside the list, kept by the tab: a reload of the run finds it as it was. It is no part of the log. */

import type { AppState, Store } from '../store.ts'

type Keep = Pick<Storage, 'getItem' | 'setItem'>
type OnTable = Pick<AppState, 'openPapers' | 'hasPad'>

const KEY = 'otherseat.table'

/** Nothing where nothing was kept, or not by this app. */
export function readTable(tab: Keep | undefined): Partial<OnTable> {
  try {
    const kept: unknown = JSON.parse(tab?.getItem(KEY) ?? '{}')
    const { openPapers, hasPad } = kept as Partial<Record<keyof OnTable, unknown>>
    const papers = Array.isArray(openPapers) ? openPapers.filter((one) => typeof one === 'string') : []
    return { openPapers: papers, hasPad: hasPad === true }
  } catch {
    return {}
  }
}

export function keepTable(store: Store, tab: Keep | undefined): void {
  store.subscribe((state, before) => {
    const { openPapers, hasPad } = state
    if (openPapers === before.openPapers && hasPad === before.hasPad) return
    try {
      tab?.setItem(KEY, JSON.stringify({ openPapers, hasPad }))
    } catch {
      // Refused or full: they are opened by hand.
    }
  })
}
