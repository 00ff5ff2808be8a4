/** What was said in an event of the run debriefed, played: one at a time. */

import type { SoundPlayer, SoundShelf } from '../../ports.ts'
import type { SoundsState } from '../runs/soundsState.ts'
import type { Store } from '../store.ts'

export interface HearingParts {
  readonly store: Store
  readonly soundShelf: Pick<SoundShelf, 'read'>
  readonly soundPlayer: SoundPlayer
}

export interface Hearing {
  /** Resolves when it has ended, was stopped, or cannot be had, which the store then tells. */
  hear(seq: number): Promise<void>
  stop(): void
}

export function createHearing({ store, soundShelf, soundPlayer }: HearingParts): Hearing {
  let under = new AbortController()

  const show = (change: Partial<SoundsState>) => store.setState(({ sounds }) => ({ sounds: { ...sounds, ...change } }))

  function stop(): void {
    under.abort()
    if (store.getState().sounds.playing !== undefined) show({ playing: undefined })
  }

  return {
    stop,
    async hear(seq) {
      stop()
      under = new AbortController()
      const { signal } = under
      const { debrief, sounds } = store.getState()
      const at = sounds.there.get(seq)
      if (!debrief || at === undefined) return
      show({ playing: seq, wrong: '' })
      const samples = await soundShelf.read(debrief.runId, at).catch(() => undefined)
      const isHeard = samples && !signal.aborted ? await soundPlayer.play(samples, signal) : signal.aborted
      if (signal.aborted) return
      const wrong = samples ? 'The browser does not let this page play sound.' : 'This sound is not there any more.'
      show({ playing: undefined, ...(!isHeard && { wrong }) })
    },
  }
}
