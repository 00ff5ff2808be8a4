/** A part of the debrief that is folded away, with how much there is of it in its heading. */

import type { ComponentChildren } from 'preact'

interface Props {
  readonly heading: string
  readonly count: number | string
  /** It is printed, folded or not. */
  readonly isPrinted?: boolean
  readonly children: ComponentChildren
}

export function Fold({ heading, count, isPrinted = false, children }: Props) {
  return (
    <details class="fold" data-printed={isPrinted ? '' : undefined}>
      <summary>
        <h2>{heading}</h2> <span class="soft">{count}</span>
      </summary>
      <div class="stack wide">{children}</div>
    </details>
  )
}
