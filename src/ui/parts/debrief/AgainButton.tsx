/** Does a moment of the run debriefed once more. */

import { useActions } from '../../useApp.ts'

interface Props {
  readonly from: number
  /** For a screen reader: which moment. */
  readonly about: string
  readonly isShort?: boolean
}

export function AgainButton({ from, about, isShort = false }: Props) {
  const actions = useActions()
  return (
    <button type="button" class={isShort ? 'plain no-print' : 'no-print'} onClick={() => void actions.again(from)}>
      {isShort ? 'Again' : 'Do that moment again'}
      <span class="hidden-label">: {about}</span>
    </button>
  )
}
