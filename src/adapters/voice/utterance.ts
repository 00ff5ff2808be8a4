/** One utterance of any voice: begun, and then ended by whatever comes first. */

import type { Clock } from '../../ports.ts'

export type Outcome = 'spoken' | 'failed' | 'cancelled'

export interface UtteranceParts {
  readonly clock: Clock
  /** What calls it off. */
  readonly signal: AbortSignal | undefined
  /** An output that has not ended by then never will: it has failed. */
  readonly withinMs: number
  /** Starts the sound; `end` is called when it has ended, or cannot be made. */
  readonly begin: (end: (outcome: Outcome) => void) => void
  /** Silences what is still sounding. Called at once where the utterance ended in any other way than by itself. */
  readonly silence: () => void
}

export function utter({ clock, signal, withinMs, begin, silence }: UtteranceParts): Promise<Outcome> {
  if (signal?.aborted) return Promise.resolve('cancelled')
  return new Promise((answer) => {
    let hasEnded = false
    const end = (outcome: Outcome) => {
      if (hasEnded) return
      hasEnded = true
      forget()
      signal?.removeEventListener('abort', cancel)
      if (outcome !== 'spoken') silence()
      answer(outcome)
    }
    const cancel = () => end('cancelled')
    const forget = clock.after(withinMs, () => end('failed'))
    signal?.addEventListener('abort', cancel)
    begin(end)
  })
}
