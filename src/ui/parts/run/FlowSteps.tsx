/** Steps done from memory before a list is called; each may be marked as done. Of several flows each stands under its name. */

import type { ViewStep } from '../../../app/view/view.ts'
import { useActions } from '../../useApp.ts'
import { Mark } from '../shell/Mark.tsx'

export function FlowSteps({ steps, hidden }: { readonly steps: readonly ViewStep[]; readonly hidden: number }) {
  if (hidden > 0) return <p class="hint">{hidden} steps, from memory. The debrief lists them.</p>
  const flows = [...new Set(steps.map(({ flow }) => flow))]
  if (flows.length === 1) return <Steps label="Steps of the flow" steps={steps} />
  return (
    <>
      {flows.map((flow) => (
        <section key={flow} class="stack flow">
          <h2 class="cap">{flow}</h2>
          <Steps label={`Steps of the ${flow}`} steps={steps.filter((step) => step.flow === flow)} />
        </section>
      ))}
    </>
  )
}

function Steps({ label, steps }: { readonly label: string; readonly steps: readonly ViewStep[] }) {
  const actions = useActions()
  return (
    <ol class="values steps" aria-label={label}>
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
