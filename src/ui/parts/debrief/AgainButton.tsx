/** Does a moment of the run debriefed once more, on its figures or, where the pack can draw some, on others. */

import { useActions, useApp } from '../../useApp.ts'

interface Props {
  readonly from: number
  /** For a screen reader: which moment. */
  readonly about: string
  readonly isShort?: boolean
}

export function AgainButton({ from, about, isShort = false }: Props) {
  const actions = useActions()
  const canDraw = useApp(({ debriefed }) => debriefed?.pack.figures.basis?.deal !== undefined)
  const what = <span class="hidden-label">: {about}</span>
  if (isShort) {
    return (
      <button type="button" class="plain no-print" onClick={() => void actions.again(from)}>
        Again{what}
      </button>
    )
  }
  return (
    <div class="row again no-print">
      <button type="button" onClick={() => void actions.again(from)}>
        Do that moment again{what}
      </button>
      {canDraw && (
        <button type="button" class="plain small" onClick={() => void actions.again(from, true)}>
          Other figures{what}
        </button>
      )}
    </div>
  )
}
