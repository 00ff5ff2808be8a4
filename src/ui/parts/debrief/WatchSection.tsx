/** Engine starts and flows in the debrief: each attempt with the times of its calls; each flow with its steps. */

import { clockTime } from '../../../kernel/run/core/clockTime.ts'
import { type DebriefFlow, type DebriefWatch, deviationsOf, seconds } from '../../../kernel/run/debrief/debriefWatch.ts'
import { Mark } from '../shell/Mark.tsx'

const STATES = { ahead: '', running: 'not finished', stopped: 'stopped', done: 'complete' } as const

export function WatchSection({ watch }: { readonly watch: DebriefWatch }) {
  const { name, attempt, t, status, because, stoppedAfterMs, calls } = watch
  const title = attempt > 1 ? `${name}, attempt ${attempt}` : name
  return (
    <section aria-label={`Watch ${title}`}>
      <h3 class="cap">{title}</h3>
      <p class="soft">
        begun at {clockTime(t)}, {STATES[status]}
        {stoppedAfterMs !== undefined && ` after ${seconds(stoppedAfterMs)}`}
        {because !== undefined && `: ${because}`}
      </p>
      <ol class="values">
        {calls.map((call) => {
          const { label, afterMs, value } = call
          const deviations = deviationsOf(call)
          return (
            <li key={label}>
              <div class="head-line">
                <span>
                  <Mark name={afterMs === undefined ? 'ring' : 'full'} /> <span class="cap">{label}</span>
                </span>
                <span class="soft">
                  {afterMs === undefined ? 'not heard' : `after ${seconds(afterMs)}`}
                  {value !== undefined && `, ${value}`}
                </span>
              </div>
              {deviations.length > 0 && <strong>{deviations.join('; ')}</strong>}
            </li>
          )
        })}
      </ol>
    </section>
  )
}

export function FlowSections({ flows }: { readonly flows: readonly DebriefFlow[] }) {
  return (
    <section aria-label="Flows">
      <ol class="values">
        {flows.map(({ id, name, closed, steps }) => (
          <li key={id}>
            <div class="head-line">
              <span>
                <Mark name={closed ? 'full' : 'ring'} /> {name}
              </span>
              <span class="soft">
                {steps.filter((step) => step.done).length} of {steps.length} steps ticked
              </span>
            </div>
            <details>
              <summary class="small">
                Steps<span class="hidden-label"> of {name}</span>
              </summary>
              <ol class="why">
                {steps.map(({ text, done }) => (
                  <li key={text}>
                    <Mark name={done ? 'full' : 'ring'} /> {text}
                    {!done && <span class="soft">, not ticked</span>}
                  </li>
                ))}
              </ol>
            </details>
          </li>
        ))}
      </ol>
    </section>
  )
}
