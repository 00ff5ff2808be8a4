/** After a break: where the run was, and the two ways of taking it up again besides going on. */

import type { ViewBack } from '../../../app/view/timeView.ts'
import { clockTime } from '../../../kernel/run/core/clockTime.ts'
import { useActions } from '../../useApp.ts'

const AFTER = { standBy: 'standing by', break: 'a break', left: 'the page was left' } as const

export function BackAgain({ back }: { readonly back: ViewBack | undefined }) {
  const actions = useActions()
  if (!back) return null
  const { what, at, lengthMs } = back
  return (
    <section class="notice stack" aria-label="After the break">
      <p>
        <strong>Back at {at}</strong> after {AFTER[what]}, {clockTime(lengthMs)}. Answer it, or:
      </p>
      <div class="row">
        <button type="button" onClick={() => actions.press({ type: 'command', command: 'goBack' })}>
          One item back
        </button>
        <button type="button" onClick={() => actions.press({ type: 'command', command: 'fromTop' })}>
          From the top of the list
        </button>
      </div>
    </section>
  )
}
