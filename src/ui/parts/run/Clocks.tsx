/** Times that hold something back, each with what is left of it. */

import type { ViewClock } from '../../../app/view/timeView.ts'
import { clockTime } from '../../../kernel/run/core/clockTime.ts'
import { Mark } from '../shell/Mark.tsx'
import { useNow } from './useNow.ts'

interface ClocksProps {
  readonly clocks: readonly ViewClock[]
  readonly frozenAt: number | undefined
}

export function Clocks({ clocks, frozenAt }: ClocksProps) {
  const now = useNow(clocks.length > 0, frozenAt)
  const running = clocks.filter(({ until }) => until > now)
  if (running.length === 0) return null
  return (
    <ul class="values" aria-label="Times that run">
      {running.map(({ of, label, until }) => (
        <li key={of} class="head-line">
          <span>
            <Mark name="bar" /> <span class="cap">{label}</span>: not yet
          </span>
          <span class="shown" role="timer">
            {clockTime(Math.ceil((until - now) / 1_000) * 1_000)}
          </span>
        </li>
      ))}
    </ul>
  )
}
