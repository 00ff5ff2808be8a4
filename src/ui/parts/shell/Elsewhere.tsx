/** In place of a run that another tab writes. */

import { useActions } from '../../useApp.ts'

export function Elsewhere() {
  const actions = useActions()
  return (
    <main class="page narrow stack">
      <h1 tabIndex={-1}>This run is open in another tab</h1>
      <p role="status">Only one tab can fly a run. Go on there, or take it over here; the other tab then stops.</p>
      <div class="row">
        <button type="button" class="first" onClick={() => void actions.takeOver()}>
          Take over here
        </button>
        <button type="button" onClick={() => actions.show('start')}>
          Back to the start
        </button>
      </div>
    </main>
  )
}
