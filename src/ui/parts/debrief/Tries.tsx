/** All that was said to one item or in one turn, folded away where nothing went wrong. */

import type { DebriefTry } from '../../../kernel/run/debrief/debriefTry.ts'
import { OneTry } from './OneTry.tsx'

interface Props {
  readonly tries: readonly DebriefTry[]
  readonly open: boolean
  /** For a screen reader: "to takeoff trim". */
  readonly about: string
}

export function Tries({ tries, open, about }: Props) {
  if (tries.length === 0) return null
  return (
    <details open={open || tries.some(({ tooEarly }) => tooEarly !== undefined)}>
      <summary class="small">
        What was said<span class="hidden-label"> {about}</span>
      </summary>
      <ol class="why stack">
        {tries.map((one) => (
          <OneTry key={one.t} one={one} />
        ))}
      </ol>
    </details>
  )
}
