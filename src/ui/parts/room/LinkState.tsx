/** Whether the room is linked, in words and shape. */

import type { RoomState } from '../../../app/store.ts'
import { useActions } from '../../useApp.ts'
import { Mark, type MarkName } from '../shell/Mark.tsx'

const STATES: Readonly<Record<RoomState['link'], { readonly text: string; readonly mark: MarkName }>> = {
  linked: { text: 'Linked', mark: 'waves' },
  away: { text: 'The link is down: it is tried again, and nothing is lost', mark: 'half' },
  refused: { text: 'The room does not take this device any more', mark: 'dash' },
}

export function LinkState({ room: { link } }: { readonly room: RoomState }) {
  const actions = useActions()
  const { text, mark } = STATES[link]
  return (
    <p role="status" class="row">
      <Mark name={mark} /> <strong>{text}</strong>
      {link === 'refused' && (
        <button type="button" onClick={() => void actions.leaveRoom()}>
          Join again
        </button>
      )}
    </p>
  )
}
