/** Settings of the person at this browser, their defaults, and how they are kept. */

import type { Phraseology } from '../kernel/kinds/kind.ts'

export interface Settings {
  readonly phraseology: Phraseology
  /** Misses on one item before the voice coaches; 0: never. */
  readonly coachAfter: number
  readonly theme: 'system' | 'dark' | 'light'
  readonly ear: 'device' | 'typing'
  /** Name of a voice of the browser, or `embedded`; empty: the best one there is. */
  readonly voice: string
  readonly rate: number
  /** The three sentences of the first visit were read. */
  readonly welcomed: boolean
}

export const DEFAULT_SETTINGS: Settings = {
  phraseology: 'plain',
  coachAfter: 3,
  theme: 'system',
  ear: 'device',
  voice: '',
  rate: 1,
  welcomed: false,
}

const KEY = 'otherseat.settings'

type Keep = Pick<Storage, 'getItem' | 'setItem'>

/** Defaults where nothing is kept, what is kept cannot be read, or storage is refused. */
export function readSettings(storage: Keep | undefined): Settings {
  try {
    const kept: unknown = JSON.parse(storage?.getItem(KEY) ?? '{}')
    return typeof kept === 'object' && kept !== null ? { ...DEFAULT_SETTINGS, ...kept } : DEFAULT_SETTINGS
  } catch {
    return DEFAULT_SETTINGS
  }
}

/** Settings that cannot be kept hold until the page is left; nothing of a run depends on them. */
export function writeSettings(storage: Keep | undefined, settings: Settings): void {
  try {
    storage?.setItem(KEY, JSON.stringify(settings))
  } catch {
    // Refused or full: nothing to do about a preference.
  }
}
