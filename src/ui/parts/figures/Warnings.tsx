/** Broken limits and gross errors of the revision in force, as long as they are not acknowledged. */

import type { DraftView } from '../../../app/figures/draftView.ts'
import { useActions, useApp } from '../../useApp.ts'
import { Mark } from '../shell/Mark.tsx'

export function Warnings({ view }: { readonly view: DraftView }) {
  const isAsked = useApp((state) => state.run?.question?.about === 'warnings')
  const actions = useActions()
  if (view.warnings.length === 0) return null
  return (
    <section class="card stack" aria-labelledby="warnings">
      <h2 id="warnings">Accept this before a list can be complete</h2>
      <ul class="values">
        {view.warnings.map((warning) => (
          <li key={warning}>
            <Mark name="unequal" /> {warning}
          </li>
        ))}
      </ul>
      {isAsked ? (
        <div class="row">
          <button type="button" class="first" onClick={() => actions.press({ type: 'command', command: 'affirm' })}>
            Accept<small> or say “affirm”</small>
          </button>
        </div>
      ) : (
        <p class="soft">Otherseat asks at the end of the list.</p>
      )}
    </section>
  )
}
