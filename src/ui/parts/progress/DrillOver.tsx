/** How a drill went in one sentence, and the way to its debrief. */

import { useActions } from '../../useApp.ts'

export function DrillOver({ told, runId }: { readonly told: string; readonly runId: string }) {
  const actions = useActions()
  return (
    <div class="row">
      <p role="status">{told}</p>
      <button type="button" onClick={() => void actions.openRun(runId)}>
        Its debrief
      </button>
    </div>
  )
}
