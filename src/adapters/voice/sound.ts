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

/** Not in every browser's types, and not in every browser. */
type Routed = AudioContext & { sinkId?: string | object; setSinkId?: (id: string) => Promise<void> }

/** `output` is the browser's name of the device asked for; empty for the system's. */
export function createSound(
  clock: Clock,
  make: () => AudioContext = () => new AudioContext(),
  output: () => string = () => '',
): Sound {
  let context: Routed | undefined
  return {
    async running() {
      try {
        context ??= make()
        // One that is not plugged in leaves the sound where it is.
        if (context.setSinkId && context.sinkId !== output()) await context.setSinkId(output()).catch(() => undefined)
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
