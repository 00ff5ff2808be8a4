/** Plays what was said, where its sound was kept. */

import { hasRunOn } from '../../../app/selectors.ts'
import { useActions, useApp } from '../../useApp.ts'

interface Props {
  /** Number of the event; undefined where nothing was said. */
  readonly seq: number | undefined
  /** For a screen reader: which words. */
  readonly about: string
}

export function HearIt({ seq, about }: Props) {
  const actions = useActions()
  const isThere = useApp(({ sounds }) => seq !== undefined && sounds.there.has(seq))
  const isPlaying = useApp(({ sounds }) => seq !== undefined && sounds.playing === seq)
  // The ear would take it for an answer.
  const isHeard = useApp((state) => hasRunOn(state) && state.run?.floor.at !== 'end')
  if (seq === undefined || !isThere || isHeard) return null
  return (
    <button
      type="button"
      class="plain no-print hear"
      onClick={() => (isPlaying ? actions.stopSound() : void actions.hearSound(seq))}
    >
      {isPlaying ? 'Stop' : 'Hear it'}
      <span class="hidden-label">: {about}</span>
    </button>
  )
}
