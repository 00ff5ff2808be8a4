/** What an instructor sets while a room looks on: where it freezes by itself, whether the room is asked, and the way out. */

import { DEMONSTRATION_STOPS, type DemonstrationStops } from '../../../kernel/run/core/events.ts'
import type { RunState } from '../../../kernel/run/core/state.ts'
import { useActions } from '../../useApp.ts'

const STOPS: Readonly<Record<DemonstrationStops, string>> = {
  answers: 'at each answer',
  misses: 'at wrong and half answers',
  never: 'by the key alone',
}

/** One that is played stops where it is marked, whatever else is chosen. */
const MARKED = 'where it is marked'

interface DemonstrationBarProps {
  readonly run: RunState
  readonly isPlayed: boolean
}

export function DemonstrationBar({ run: { demonstration }, isPlayed }: DemonstrationBarProps) {
  const actions = useActions()
  if (!demonstration) return null
  const { stops, asksRoom } = demonstration
  return (
    <div class="row demonstration-bar">
      <label class="row">
        Freeze{' '}
        <select
          value={stops}
          onChange={({ currentTarget }) => {
            actions.demonstrate(true, { roomStops: currentTarget.value as DemonstrationStops })
            currentTarget.blur()
          }}
        >
          {DEMONSTRATION_STOPS.map((one) => (
            <option key={one} value={one}>
              {isPlayed && one === 'never' ? MARKED : STOPS[one]}
            </option>
          ))}
        </select>
      </label>
      <label class="row">
        <input
          type="checkbox"
          checked={asksRoom}
          onChange={({ currentTarget }) => actions.demonstrate(true, { asksRoom: currentTarget.checked })}
        />{' '}
        Ask the room before each verdict
      </label>
      <button type="button" class="plain" onClick={() => actions.demonstrate(false)}>
        End the demonstration
      </button>
    </div>
  )
}
