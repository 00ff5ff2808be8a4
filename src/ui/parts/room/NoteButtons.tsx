/** The voice note on a mark: recorded and played back on this device. */

import type { Actions } from '../../../app/actions/actions.ts'
import { noteKey } from '../../../app/room/notesState.ts'
import { LONGEST_NOTE_S } from '../../../app/room/voiceNotes.ts'
import type { AppState } from '../../../app/store.ts'
import { clockTime } from '../../../kernel/run/core/clockTime.ts'
import type { RoomMark } from '../../../room/entries.ts'
import { useNow } from '../run/useNow.ts'

interface Props {
  readonly mark: RoomMark
  readonly notes: AppState['notes']
  readonly actions: Actions
}

export function NoteButtons({ mark, notes, actions }: Props) {
  const key = noteKey(mark)
  const about = <span class="hidden-label">: the mark at {clockTime(mark.t)}</span>
  if (notes.there.has(key)) {
    return (
      <button type="button" class="plain" onClick={() => void actions.playNote(mark)}>
        {notes.playing === key ? 'Stop' : 'Hear your note'}
        {about}
      </button>
    )
  }
  if (notes.recording) return null
  return (
    <button type="button" class="plain" onClick={() => void actions.recordNote(mark)}>
      Add a voice note
      {about}
    </button>
  )
}

/** Begins and ends one, and says how long it has gone on. */
export function RecordButton({ notes: { recording }, actions }: Omit<Props, 'mark'>) {
  const since = recording?.since
  const now = useNow(since !== undefined)
  const seconds = since === undefined ? 0 : Math.min(LONGEST_NOTE_S, Math.max(0, Math.round((now - since) / 1_000)))
  return (
    <button type="button" aria-pressed={recording !== undefined} onClick={() => void actions.recordNote()}>
      {recording === undefined
        ? 'Voice note'
        : since === undefined
          ? 'Opening the microphone'
          : `Stop, ${seconds} of ${LONGEST_NOTE_S} s`}{' '}
      <small>V</small>
    </button>
  )
}
