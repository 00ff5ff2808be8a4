/** What is done with marks and grades: shown to the trainee, and saved with the run. */

import { useState } from 'preact/hooks'
import type { Actions } from '../../../app/actions/actions.ts'
import { noteKey } from '../../../app/room/notesState.ts'
import type { AppState, RoomState } from '../../../app/store.ts'
import { useApp } from '../../useApp.ts'
import { saveFile } from '../shell/saveFile.ts'

interface Props {
  readonly room: RoomState
  readonly notes: AppState['notes']
  readonly actions: Actions
}

export function ShowAndSave({ room, notes, actions }: Props) {
  const runId = useApp((state) => state.run?.runId)
  const isOver = useApp(({ run }) => run?.status === 'ended' || run?.floor.at === 'end')
  const [withNotes, setWithNotes] = useState(false)
  if (runId === undefined) return null
  const marks = room.marks.filter((mark) => mark.runId === runId)
  const hasNotes = marks.some((mark) => notes.there.has(noteKey(mark)))
  const isAny = marks.length > 0 || room.grades.some((grade) => grade.runId === runId)
  const save = async () => {
    const file = await actions.saveMarkedRun(hasNotes && withNotes)
    if (file) saveFile(file.name, file.content)
  }
  return (
    <section class="stack" aria-label="Marks and grades, shown and saved">
      {isAny &&
        (room.shown.has(runId) ? (
          <p>The trainee’s debrief has these marks and grades, and those that you add.</p>
        ) : (
          <div>
            <button type="button" disabled={!isOver} onClick={() => actions.showMarks()}>
              Show them in the trainee’s debrief
              {!isOver && <small>once the run is at its end</small>}
            </button>
          </div>
        ))}
      {hasNotes && (
        <label class="flag">
          <input
            type="checkbox"
            checked={withNotes}
            onChange={({ currentTarget }) => setWithNotes(currentTarget.checked)}
          />
          <span>With your voice notes in the file</span>
        </label>
      )}
      <div>
        <button type="button" class="plain" onClick={() => void save()}>
          Save the run with its marks and grades
        </button>
      </div>
    </section>
  )
}
