/** Whether the run stops at this place when it is shown to a room, and what the room is to look at there. */

import { useEffect } from 'preact/hooks'
import { useActions, useApp } from '../../useApp.ts'

/** As long as a room reads at a glance. */
const MOST_WORDS = 200

export function StopHere({ seq }: { readonly seq: number }) {
  const stops = useApp((state) => state.stops)
  const runId = useApp((state) => state.debrief?.runId)
  const actions = useActions()
  useEffect(() => void actions.readStops(), [actions, runId])
  const stop = stops.find((one) => one.seq === seq)
  const isStop = stop !== undefined
  return (
    <div class="row stop-here">
      <label class="flag">
        <input type="checkbox" checked={isStop} onChange={() => void actions.markStop(seq, isStop ? undefined : '')} />
        <span>Stop here when it is shown</span>
      </label>
      {isStop && (
        <label class="own-words">
          What to look at
          <input
            value={stop.words}
            maxLength={MOST_WORDS}
            onInput={({ currentTarget }) => void actions.markStop(seq, currentTarget.value)}
          />
        </label>
      )}
      <button type="button" onClick={() => void actions.showDebriefed()}>
        Show it to a room
        {stops.length > 0 && <small>{stops.length === 1 ? '1 stop' : `${stops.length} stops`}</small>}
      </button>
    </div>
  )
}
