/** How things of a run are drawn along its time: each differs by shape, in the ink of the text. Drawn around their place. */

import type { JSX } from 'preact'
import type { Went } from '../../../kernel/run/debrief/timelineEntry.ts'

const line = { fill: 'none', stroke: 'currentColor', 'stroke-width': 1.8, 'stroke-linecap': 'round' } as const

export const SHAPES: Readonly<Record<Went, JSX.Element>> = {
  plain: <path d="M0-7v14M-4-3l4-4 4 4" {...line} />,
  right: <circle r="3.4" fill="currentColor" />,
  missed: <path d="M0-9 7 6H-7z" fill="currentColor" />,
  askedAgain: <path d="M-6 0c2-3.5 4-3.5 6 0s4 3.5 6 0" {...line} />,
  byKey: <rect x="-4" y="-4" width="8" height="8" {...line} />,
  passed: <path d="M-5 0H5" {...line} stroke-width="3" />,
  open: <circle r="4.2" {...line} />,
}

export const WENT: Readonly<Record<Went, string>> = {
  plain: 'came in',
  right: 'right',
  missed: 'missed',
  askedAgain: 'asked again by the ear',
  byKey: 'by key',
  passed: 'passed',
  open: 'left open',
}
