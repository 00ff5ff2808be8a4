/** A drill's list needs no calling, and the drill ends by itself: when nothing is left of it, or after five minutes. */

import type { RunState } from '../../kernel/run/core/state.ts'
import type { Clock } from '../../ports.ts'
import type { Store } from '../store.ts'
import { DRILL_S, type DrillTold } from './training.ts'

/** What is open when the time is up may still be answered for so long. */
const GRACE_MS = 30_000

export interface DrillEndParts {
  readonly store: Store
  readonly clock: Clock
  /** The list is the next thing. */
  readonly call: (list: string) => void
  readonly end: (why: DrillTold['why']) => void
}

/** From now on, for every drill that is on, also one that was left and is gone on with. */
export function watchDrills({ store, clock, call, end }: DrillEndParts): void {
  let on: RunState | undefined
  let openAtEnd: string | undefined
  let called = ''
  let isEnding = false
  let stop = () => {}

  function timeIsUp(): void {
    openAtEnd = placeOf(on)
    stop = clock.after(GRACE_MS, () => finish('timeUp'))
  }

  function finish(why: DrillTold['why']): void {
    if (isEnding) return
    isEnding = true
    stop()
    end(why)
  }

  store.subscribe(({ run }) => {
    const next = run?.drill && run.status === 'running' && run.figureStatus !== undefined ? run : undefined
    if (next?.runId !== on?.runId) {
      stop()
      openAtEnd = undefined
      isEnding = false
      called = ''
      if (next) stop = clock.after(Math.max(0, next.startedAt + DRILL_S * 1_000 - clock.now()), timeIsUp)
    }
    if (next === on) return
    on = next
    if (!next) return
    if (next.floor.at === 'end') finish('done')
    else if (openAtEnd !== undefined && openAtEnd !== placeOf(next)) finish('timeUp')
    else if (next.floor.at === 'call' && !next.question && called !== next.runId) {
      called = next.runId
      call('drill')
    }
  })
}

/** What has the floor; in an exchange the steps that are done as well. */
function placeOf(run: RunState | undefined): string {
  if (!run) return ''
  const done = Object.keys(run.turns).filter((id) => run.turns[id]?.status === 'done')
  return JSON.stringify([run.floor, done])
}
