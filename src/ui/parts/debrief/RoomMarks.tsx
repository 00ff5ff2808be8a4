/** What an instructor marked and graded in this run, and lets the trainee see. */

import { clockTime } from '../../../kernel/run/core/clockTime.ts'
import { useActions, useApp } from '../../useApp.ts'
import { GradesGiven } from '../grading/GradesGiven.tsx'

export function RoomMarks({ runId }: { readonly runId: string }) {
  const actions = useActions()
  // Marks come in while the debrief is on the screen.
  useApp((state) => state.room)
  // Whoever grades the run by themselves is not to know what another gave.
  const isGraded = useApp(({ grading }) => grading?.runId === runId && grading.own.finishedAt === undefined)
  const [marks, grades] = [actions.marksOf(runId), actions.gradesOf(runId)]
  if (marks.length + grades.length === 0) return null
  if (isGraded) return <p class="soft">What the instructor marked and graded is not shown while you grade this run.</p>
  return (
    <section aria-labelledby="room-marks">
      <h2 id="room-marks">Marked by the instructor</h2>
      {marks.length > 0 && (
        <ol class="values">
          {marks.map(({ id, t, words, place }) => (
            <li key={id}>
              {clockTime(t)} {words} <span class="soft">at {place}</span>
            </li>
          ))}
        </ol>
      )}
      {grades.length > 0 && <h3>Grades, from 1 to 5</h3>}
      <GradesGiven label="Grades by the instructor" grades={grades} />
    </section>
  )
}
