/** Values hidden while a run is on, and the way to see one all the same. */

import type { ComputedView } from '../../../app/figures/computedView.ts'
import type { Hidden } from '../../../app/figures/hiddenFigures.ts'
import { useActions } from '../../useApp.ts'

interface HiddenProps {
  /** Whether they are read back, or only lead to what is. */
  readonly kind: Hidden
  readonly figures: readonly Pick<ComputedView, 'name' | 'label'>[]
}

/** One by one, since showing a value marks what rests on it for good. */
export function HiddenValues({ kind, figures }: HiddenProps) {
  const actions = useActions()
  if (figures.length === 0) return null
  return (
    <details>
      <summary>
        {kind === 'own' ? 'Hidden' : 'Workings hidden'} during the run ({figures.length}): show one
      </summary>
      <p class="notice">
        <strong>A shown value is marked.</strong> The voice says it, and every item that{' '}
        {kind === 'own' ? 'rests on it' : 'it helps to work out'} is marked as given, for good.
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
