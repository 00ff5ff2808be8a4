/** Sentences that have no clips, spoken by a synthesiser: it is loaded when the first one is to be said, or expected. */

import { within } from '../threads.ts'

export interface Synthesis {
  /** Samples at `RATE`. Rejects where the sentence cannot be said, or not soon enough. */
  say(sentence: string): Promise<Float32Array<ArrayBuffer>>
  /** Loads it ahead of the first sentence. */
  prepare(): void
}

/** A synthesiser that has been loaded. */
export interface SynthesisThread {
  say(sentence: string): Promise<Float32Array<ArrayBuffer>>
  end(): void
}

/** The screen has the text by then; a run does not wait longer for its voice. */
const LATE_MS = 10_000

export function createSynthesis(start: () => Promise<SynthesisThread>): Synthesis {
  let loading: Promise<SynthesisThread> | undefined

  function loaded(): Promise<SynthesisThread> {
    loading ??= start()
    const mine = loading
    // What failed to load, for want of a network, may load the next time.
    mine.catch(() => forget(mine))
    return mine
  }

  function forget(mine: Promise<SynthesisThread>): void {
    if (loading === mine) loading = undefined
  }

  async function say(sentence: string): Promise<Float32Array<ArrayBuffer>> {
    const mine = loaded()
    const thread = await within(LATE_MS, mine)
    try {
      return await within(LATE_MS, thread.say(sentence))
    } catch (error) {
      // Whatever state it is in, the next sentence has a new one.
      thread.end()
      forget(mine)
      throw error
    }
  }

  return { say, prepare: () => void loaded().catch(() => undefined) }
}
