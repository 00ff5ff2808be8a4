/** Settings of the person at this browser, and their defaults. */

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
