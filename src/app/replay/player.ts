/** Plays a run back, cue by cue, by the voice port: what was spoken is spoken, what the pilot said is shown. */

import type { Cue } from '../../kernel/run/debrief/replay.ts'
import type { Clock, Voice } from '../../ports.ts'

export const SPEEDS = [1, 2, 4] as const
export type Speed = (typeof SPEEDS)[number]

export interface ReplayState {
  readonly cues: readonly Cue[]
  /** The cue that is on, or next. */
  readonly at: number
  readonly speed: Speed
  readonly isPlaying: boolean
}

export interface Player {
  play(): void
  pause(): void
  /** To a cue; it goes on playing where it did. */
  to(index: number): void
  speed(speed: Speed): void
}

export interface PlayerParts {
  readonly voice: Pick<Voice, 'speak'>
  readonly clock: Clock
  readonly cues: readonly Cue[]
  /** Called at once, and with each change. */
  readonly changed: (state: ReplayState) => void
}

/** Stands at the first cue, and does not play yet. */
export function createPlayer({ voice, clock, cues, changed }: PlayerParts): Player {
  let state: ReplayState = { cues, at: 0, speed: 1, isPlaying: false }
  let turn = new AbortController()

  function set(change: Partial<ReplayState>): void {
    state = { ...state, ...change }
    changed(state)
  }

  /** The next cue comes when its time has, and when this one has been said to its end. */
  async function run(mine: AbortController): Promise<void> {
    while (!mine.signal.aborted) {
      const cue = cues[state.at]
      if (!cue) return set({ isPlaying: false })
      const wait = waiting(cue.waitMs / state.speed, mine.signal)
      if (cue.by !== 'pilot' && cue.by !== 'note') await voice.speak(cue.text, cue.by, mine.signal)
      await wait
      if (mine.signal.aborted) return
      if (state.at === cues.length - 1) return set({ isPlaying: false })
      set({ at: state.at + 1 })
    }
  }

  function waiting(ms: number, signal: AbortSignal): Promise<void> {
    return new Promise((done) => {
      const leave = clock.after(ms, done)
      signal.addEventListener('abort', () => {
        leave()
        done()
      })
    })
  }

  /** What is being said or waited for is given up; it goes on from where it stands now. */
  function anew(): void {
    turn.abort()
    turn = new AbortController()
    if (state.isPlaying) void run(turn)
  }

  changed(state)
  return {
    play() {
      // From its end it begins again.
      set({ isPlaying: true, at: state.at >= cues.length - 1 ? 0 : state.at })
      anew()
    },
    pause() {
      set({ isPlaying: false })
      anew()
    },
    to(index) {
      set({ at: Math.max(0, Math.min(cues.length - 1, index)) })
      anew()
    },
    speed(speed) {
      set({ speed })
      anew()
    },
  }
}
