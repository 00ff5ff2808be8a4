/** Steps done from memory before a list is called; each may be marked as done. */

import type { ViewStep } from '../../../app/view/view.ts'
import { useActions } from '../../useApp.ts'
import { Mark } from '../shell/Mark.tsx'

export function FlowSteps({ steps, hidden }: { readonly steps: readonly ViewStep[]; readonly hidden: number }) {
  const actions = useActions()
  if (hidden > 0) return <p class="hint">{hidden} steps, from memory. The debrief lists them.</p>
  return (
    <ol class="values steps" aria-label="Steps of the flow">
      {steps.map(({ id, text, done, caution }) => (
        <li key={id} class="head-line">
          <span>
            <Mark name={done ? 'full' : 'ring'} /> {text}
            {caution && (
              <div class="soft">
                <strong>Caution</strong> {caution}
              </div>
            )}
          </span>
          {done ? (
            <span class="soft">done</span>
          ) : (
            <button type="button" onClick={() => actions.press({ type: 'stepDone', step: id })}>
              Done<span class="hidden-label">: {text}</span>
            </button>
          )}
        </li>
      ))}
    </ol>
  )
}
