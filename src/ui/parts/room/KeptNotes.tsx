/** How much sound of an instructor's voice notes this device keeps, and all of it deleted. */

import { useEffect } from 'preact/hooks'
import { sizeWords } from '../../../app/runs/runsView.ts'
import { useActions, useApp } from '../../useApp.ts'
import { AskFirst } from '../shell/AskFirst.tsx'

export function KeptNotes() {
  const { size, wrong } = useApp((state) => state.notes)
  const marks = useApp(({ room }) => room?.marks.length ?? 0)
  const actions = useActions()
  // Marks that came in may have notes here.
  useEffect(() => void actions.readNotes(), [actions, marks])
  if (wrong === '' && (!size || size.runs === 0)) return null
  return (
    <section class="stack" aria-label="Voice notes on this device">
      {wrong && <p role="alert">{wrong}</p>}
      {size && size.runs > 0 && (
        <div class="row">
          <span>
            Voice notes on this device: {sizeWords(size.bytes)} in {size.runs === 1 ? '1 run' : `${size.runs} runs`}
          </span>
          <AskFirst
            label="Delete all voice notes"
            warning="They do not come back. Marks stay."
            yes="Delete them now"
            onYes={actions.deleteNotes}
          />
        </div>
      )}
    </section>
  )
}
