/** The same as the picture of a run's time, as a table. */

import { clockTime } from '../../../kernel/run/core/clockTime.ts'
import type { TimelineEntry } from '../../../kernel/run/debrief/timelineEntry.ts'
import { AgainButton } from './AgainButton.tsx'
import { LANE_NAMES } from './TimelinePicture.tsx'
import { WENT } from './timelineShapes.tsx'

export function TimelineTable({ entries }: { readonly entries: readonly TimelineEntry[] }) {
  return (
    <div class="timeline-table">
      <table>
        <thead>
          <tr>
            <th scope="col">Time</th>
            <th scope="col">What</th>
            <th scope="col">How</th>
            <th scope="col" class="no-print">
              <span class="hidden-label">Do it again</span>
            </th>
          </tr>
        </thead>
        <tbody>
          {entries.map(({ lane, t, label, told, went, from }) => (
            <tr key={`${lane} ${t} ${label}`} class={lane === 'phase' || lane === 'list' ? 'heading' : went}>
              <td>{clockTime(t)}</td>
              <td>
                <span class="hidden-label">{LANE_NAMES[lane]}: </span>
                {told}
              </td>
              <td>{went === 'plain' ? '' : WENT[went]}</td>
              <td class="no-print">{from !== undefined && <AgainButton from={from} about={label} isShort />}</td>
            </tr>
          ))}
        </tbody>
      </table>
    </div>
  )
}
