/** Values hidden while a run is on, and the way to see one all the same. */

import type { ComputedView } from '../../app/computedView.ts'
import { useActions } from '../useApp.ts'

/** One by one, since showing a value marks what rests on it for good. */
export function HiddenValues({ figures }: { readonly figures: readonly Pick<ComputedView, 'name' | 'label'>[] }) {
  const actions = useActions()
  if (figures.length === 0) return null
  return (
    <details>
      <summary>Hidden while the run is on ({figures.length}): show one</summary>
      <p class="notice">
        <strong>What you show is told.</strong> The voice says the value, and every item that rests on it is marked as
        given, for good.
      </p>
      <div class="row">
        {figures.map(({ name, label }) => (
          <button
            key={name}
            type="button"
            onClick={() => actions.press({ type: 'command', command: 'confirm', argument: name })}
          >
            Show {label}
          </button>
        ))}
      </div>
    </details>
  )
}
