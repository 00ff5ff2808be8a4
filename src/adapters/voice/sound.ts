/**
 * The page's one audio output: the embedded voice and the tones play through it. Browsers let it run
 * only after a gesture, so whoever plays asks first whether it does.
 */

import type { Clock } from '../../ports.ts'

/** How long a browser may take to start the output; without a gesture it never does. */
const START_WITHIN_MS = 500

export interface Sound {
  /** The output, running; undefined where the browser does not let it run (yet). */
  running(): Promise<AudioContext | undefined>
}

export function createSound(clock: Clock, make: () => AudioContext = () => new AudioContext()): Sound {
  let context: AudioContext | undefined
  return {
    async running() {
      try {
        context ??= make()
        if (context.state !== 'running') {
          await Promise.race([context.resume(), new Promise<void>((late) => clock.after(START_WITHIN_MS, late))])
        }
        return context.state === 'running' ? context : undefined
      } catch {
        return undefined
      }
    },
  }
}
