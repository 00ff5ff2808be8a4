/** A later edition of the app, taken when the pilot wants it: never in the middle of a run. */

import { useActions, useApp } from '../../useApp.ts'

export function NewerEdition() {
  const { hasNewer, isRefused } = useApp((state) => state.edition)
  const actions = useActions()
  return (
    <div role="status">
      {hasNewer && (
        <p class="notice row">
          <span>
            A newer edition of Otherseat is ready.
            {isRefused && ' A run is on, here or in another tab: end it first.'}
          </span>
          <button type="button" onClick={() => void actions.takeNewerEdition()}>
            Reload with it
          </button>
        </p>
      )}
    </div>
  )
}
