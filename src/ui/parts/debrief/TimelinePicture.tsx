/** A run along its time, as a picture. Pointing, touching and the arrow keys tell the sentence of each thing in it. */

import { useMemo, useRef, useState } from 'preact/hooks'
import { clockTime } from '../../../kernel/run/core/clockTime.ts'
import type { Lane, TimelineEntry, Went } from '../../../kernel/run/debrief/timelineEntry.ts'
import { AgainButton } from './AgainButton.tsx'
import { TimelineMark } from './TimelineMark.tsx'
import { LANE_HEIGHT, markAt, nearest, placesOf, type TimelinePlaces } from './timelinePlaces.ts'
import { SHAPES, WENT } from './timelineShapes.tsx'

export const LANE_NAMES: Readonly<Record<Lane, string>> = {
  phase: 'Phase',
  list: 'List',
  item: 'Items',
  talk: 'Radio, orders',
  watch: 'Engine starts',
  figures: 'Figures',
  break: 'Breaks',
}

interface Props {
  readonly entries: readonly TimelineEntry[]
  /** What is being played back, ms from the start of the run. */
  readonly now: number | undefined
}

const idOf = (index: number) => `timeline-${index}`

export function TimelinePicture({ entries, now }: Props) {
  const places = useMemo(() => placesOf(entries), [entries])
  const [chosen, setChosen] = useState<number>()
  const [pointed, setPointed] = useState<number>()
  const shown = entries[pointed ?? chosen ?? -1]
  const { lanes, height, x, y, ticks, cuts } = places
  const along = useRef<HTMLDivElement>(null)

  function under({ currentTarget, clientX, clientY }: MouseEvent & { readonly currentTarget: Element }) {
    const box = currentTarget.getBoundingClientRect()
    return nearest(entries, places, { x: (100 * (clientX - box.left)) / box.width, y: clientY - box.top })
  }
  function move(event: KeyboardEvent) {
    const last = entries.length - 1
    const at = chosen ?? -1
    const to = { ArrowRight: at + 1, ArrowDown: at + 1, ArrowLeft: at - 1, ArrowUp: at - 1, Home: 0, End: last }[
      event.key
    ]
    if (to === undefined) return
    event.preventDefault()
    const index = Math.max(0, Math.min(last, to))
    setPointed(undefined)
    setChosen(index)
    const entry = entries[index]
    const box = along.current
    if (box && entry) box.scrollLeft = (x(markAt(entry)) / 100) * box.scrollWidth - box.clientWidth / 2
  }

  return (
    <figure class="timeline" aria-labelledby="timeline">
      <div class="lanes">
        <ul aria-hidden="true">
          {lanes.map((lane) => (
            <li key={lane}>{LANE_NAMES[lane]}</li>
          ))}
        </ul>
        <div
          class="along"
          ref={along}
          role="listbox"
          tabIndex={0}
          aria-label="The run along its time"
          aria-activedescendant={chosen === undefined ? undefined : idOf(chosen)}
          onKeyDown={move}
        >
          {entries.map((entry, index) => (
            <div
              key={`${entry.lane} ${entry.t} ${entry.label}`}
              id={idOf(index)}
              role="option"
              tabIndex={-1}
              class="hidden-label"
              aria-selected={index === chosen}
            >
              {clockTime(entry.t)} {entry.told}
            </div>
          ))}
          <svg
            height={height}
            aria-hidden="true"
            onPointerMove={(event) => event.pointerType === 'mouse' && setPointed(under(event))}
            onPointerLeave={() => setPointed(undefined)}
            onClick={(event) => setChosen(under(event))}
          >
            <g class="grid">
              {ticks.map((t) => (
                <line key={t} x1={`${x(t)}%`} x2={`${x(t)}%`} y2={lanes.length * LANE_HEIGHT} />
              ))}
              {ticks.map((t) => (
                <text key={t} x={`${x(t)}%`} y={height - 5} text-anchor="middle">
                  {clockTime(t)}
                </text>
              ))}
              {cuts.map((t) => (
                <text key={t} x={`${x(t)}%`} y={height - 5} text-anchor="middle">
                  {'//'}
                </text>
              ))}
            </g>
            {entries.map((entry) => (
              <TimelineMark
                key={`${entry.lane} ${entry.t} ${entry.label}`}
                entry={entry}
                places={places}
                isShown={entry === shown}
              />
            ))}
            {shown && (
              <svg x={`${x(markAt(shown))}%`} y={y(shown.lane)} overflow="visible" aria-hidden="true">
                <rect class="pointed" x="-11" y="-12" width="22" height="24" rx="4" />
              </svg>
            )}
            {now !== undefined && <line class="now-line" x1={`${x(now)}%`} x2={`${x(now)}%`} y2={height} />}
          </svg>
        </div>
      </div>
      <figcaption>
        <Legend entries={entries} places={places} />
        <div class="told no-print">
          <p>
            {shown ? (
              <>
                <strong>{clockTime(shown.t)}</strong> {shown.told}
              </>
            ) : (
              <span class="soft">Point at something, touch it, or go along with the arrow keys.</span>
            )}
          </p>
          {shown?.from !== undefined && <AgainButton from={shown.from} about={shown.label} />}
        </div>
      </figcaption>
    </figure>
  )
}

/** Only of the shapes that are there. */
function Legend({ entries, places }: { readonly entries: readonly TimelineEntry[]; readonly places: TimelinePlaces }) {
  const marks = (Object.keys(WENT) as Went[]).filter((went) =>
    entries.some((entry) => entry.went === went && (went !== 'plain' || entry.lane === 'figures')),
  )
  const { cuts } = places
  const hasLimits = entries.some(({ limits }) => limits?.dueAt !== undefined || limits?.soonestAt !== undefined)
  return (
    <ul class="legend small soft">
      {marks.map((went) => (
        <li key={went}>
          <svg width="20" height="20" viewBox="-10 -10 20 20" aria-hidden="true">
            {SHAPES[went]}
          </svg>
          {WENT[went]}
        </li>
      ))}
      {hasLimits && (
        <li>
          <svg width="26" height="20" viewBox="-13 -10 26 20" aria-hidden="true">
            <path class="limit-foot" d="M-6-9h-4V9h4M6-9h4V9H6" />
          </svg>
          soonest and latest, of a call missed or pointed at
        </li>
      )}
      {cuts.length > 0 && <li>{'//'} time cut out</li>}
    </ul>
  )
}
