/** What an instructor marked in this run and lets the trainee see. */

import { clockTime } from '../../../kernel/run/core/clockTime.ts'
import { useActions, useApp } from '../../useApp.ts'

export function RoomMarks({ runId }: { readonly runId: string }) {
  const actions = useActions()
  // Marks come in while the debrief is on the screen.
  useApp((state) => state.room)
  const marks = actions.marksOf(runId)
  if (marks.length === 0) return null
  return (
    <section aria-labelledby="room-marks">
      <h2 id="room-marks">Marked by the instructor</h2>
      <ol class="values">
        {marks.map(({ id, t, words, place }) => (
          <li key={id}>
            {clockTime(t)} {words} <span class="soft">at {place}</span>
          </li>
        ))}
      </ol>
    </section>
  )
}
