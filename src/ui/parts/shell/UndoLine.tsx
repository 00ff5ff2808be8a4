/** What was deleted, and the way back. */

import { useEffect, useRef } from 'preact/hooks'

export function UndoLine({ undoable, undo }: { readonly undoable: string; readonly undo: () => void }) {
  const button = useRef<HTMLButtonElement>(null)
  // The button that was pressed is gone with what it deleted.
  useEffect(() => button.current?.focus(), [undoable])
  return (
    <div role="status">
      {undoable && (
        <p class="row">
          {undoable}
          <button ref={button} type="button" onClick={undo}>
            Undo
          </button>
        </p>
      )}
    </div>
  )
}
