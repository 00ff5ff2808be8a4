/** A timed sequence: how long it runs, the calls in their order, and by when the next one must be heard. */

import type { ViewWatch } from '../../../app/view/timeView.ts'
import { clockTime } from '../../../kernel/run/core/clockTime.ts'
import { Mark, type MarkName } from '../shell/Mark.tsx'
import { useNow } from './useNow.ts'

type Call = ViewWatch['calls'][number]
const STATES: Readonly<Record<Call['state'], { readonly text: string; readonly mark: MarkName }>> = {
  called: { text: 'called', mark: 'full' },
  next: { text: 'next', mark: 'arrow' },
  ahead: { text: 'ahead', mark: 'ring' },
}

/** How long it runs. It stands with the challenge, and so in view whatever else is open. */
export function WatchClock({ watch }: { readonly watch: ViewWatch }) {
  const { status, beganAt } = watch
  const now = useTimeOf(watch)
  if (status !== 'running' || beganAt === undefined) return null
  return (
    <p class="elapsed" role="timer">
      {clockTime(Math.max(0, now - beganAt))}
    </p>
  )
}

export function WatchPanel({ watch }: { readonly watch: ViewWatch }) {
  const { status, beganAt, hold, calls, actions, shows } = watch
  const now = useTimeOf(watch)
  // Of a start that was stopped nothing is called any more.
  const shown =
    status === 'stopped' ? calls.filter((call) => call.state === 'called' || call.outside.length > 0) : calls
  return (
    <section class="stack" aria-label="Calls of the watch">
      {shows !== undefined && status === 'running' && (
        <p class="notice" role="alert">
          The gauges show: <strong>{shows}</strong>
        </p>
      )}
      {hold !== undefined && status !== 'stopped' && <p class="hint">{hold}.</p>}
      {status === 'stopped' && actions.length > 0 && (
        <ol class="values" aria-label="What to do now">
          {actions.map((action) => (
            <li key={action}>
              <Mark name="arrow" /> <strong class="cap">{action}</strong>
            </li>
          ))}
        </ol>
      )}
      <ol class="values">
        {shown.map((call) => (
          <li key={call.label} class="head-line" aria-current={call.state === 'next' ? 'step' : undefined}>
            <span>
              <Mark name={STATES[call.state].mark} /> <span class="cap">{call.label}</span>
            </span>
            <span class={call.isEarly || call.outside.length > 0 ? undefined : 'soft'}>
              {[wordsFor(call, beganAt, now), ...doubts(call)].join(', ')}
            </span>
          </li>
        ))}
      </ol>
    </section>
  )
}

const useTimeOf = ({ status, frozenAt }: ViewWatch): number => useNow(status === 'running', frozenAt)

/** What was not as it should be, also before it was called right. */
function doubts({ isEarly, outside }: Call): string[] {
  return [
    ...(isEarly ? ['sooner than it can be seen'] : []),
    ...(outside.length > 0 ? [`out of limits: ${outside.join(', ')}`] : []),
  ]
}

function wordsFor(call: Call, beganAt: number | undefined, now: number): string {
  const { state, calledAt, dueAt, value, isLate } = call
  if (calledAt !== undefined && beganAt !== undefined) {
    const read = value === undefined ? '' : `${value}, `
    return `${read}called at ${clockTime(calledAt - beganAt)}${isLate ? ', late' : ''}`
  }
  if (dueAt === undefined) return STATES[state].text
  const left = Math.ceil((dueAt - now) / 1_000)
  return left > 0 ? `next, within ${left} s` : 'overdue'
}
