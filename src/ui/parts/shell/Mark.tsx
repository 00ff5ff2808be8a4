/** The shapes that stand beside words of state. Drawn in the ink of the text; the words say the same. */

import type { JSX } from 'preact'

export const MARKS = ['ring', 'full', 'half', 'back', 'dash', 'bar', 'unequal', 'waves', 'arrow'] as const
export type MarkName = (typeof MARKS)[number]

const line = { fill: 'none', stroke: 'currentColor', 'stroke-width': 2.2, 'stroke-linecap': 'round' } as const

const SHAPES: Readonly<Record<MarkName, JSX.Element>> = {
  ring: <circle cx="10" cy="10" r="6.5" {...line} />,
  full: <circle cx="10" cy="10" r="7.5" fill="currentColor" />,
  half: (
    <>
      <circle cx="10" cy="10" r="6.5" {...line} />
      <path d="M10 3.5a6.5 6.5 0 0 0 0 13z" fill="currentColor" />
    </>
  ),
  back: <path d="M5.2 6.5A6.5 6.5 0 1 1 3.6 11M4.6 2.6l.4 4.4 4.4-.4" {...line} />,
  dash: <path d="M4 10h12" {...line} />,
  bar: <path d="M2 14h16M10 3v7M7 7.5l3 3 3-3" {...line} />,
  unequal: <path d="M3 7.2h14M3 12.8h14M14 3 6 17" {...line} />,
  waves: <path d="M3 8c2.3-2.6 4.7-2.6 7 0s4.7 2.6 7 0M3 13c2.3-2.6 4.7-2.6 7 0s4.7 2.6 7 0" {...line} />,
  arrow: <path d="M3 10h13M11 5l5 5-5 5" {...line} />,
}

export function Mark({ name }: { readonly name: MarkName }) {
  return (
    <svg class="mark" viewBox="0 0 20 20" aria-hidden="true" focusable="false">
      {SHAPES[name]}
    </svg>
  )
}
