/** Whether the sound of what is said is kept, how much there is, and all of it deleted. */

import { useEffect, useRef, useState } from 'preact/hooks'
import { sizeWords } from '../../../app/runs/runsView.ts'
import { useActions, useApp } from '../../useApp.ts'
import { SoundWrong } from '../shell/SoundWrong.tsx'
import { Choices } from './Choices.tsx'

const KEPT = [
  { value: 'off', label: 'Not kept' },
  { value: 'on', label: 'Kept', about: 'on this device, with the run' },
] as const

export function KeptSound() {
  const keepsSound = useApp((state) => state.settings.keepsSound)
  const isWithoutSound = useApp(({ ears, settings: { ear } }) => {
    const offer = ears.find(({ name }) => name === ear)
    return ear === 'typing' || (offer !== undefined && !offer.givesSound)
  })
  const size = useApp((state) => state.sounds.size)
  const actions = useActions()
  useEffect(() => void actions.readSounds(), [actions])
  return (
    <div class="stack">
      <Choices
        legend="Keep the sound of what you say"
        options={KEPT}
        value={keepsSound ? 'on' : 'off'}
        choose={(choice) => actions.settings({ keepsSound: choice === 'on' })}
      />
      {keepsSound && (
        <p class="soft">
          {isWithoutSound
            ? 'The ear that is chosen gives no sound to keep: choose the microphone, recognised on this device.'
            : 'In the debrief you hear it again. It leaves this device only in a file that you save.'}
        </p>
      )}
      <SoundWrong />
      {size && size.runs > 0 && (
        <div class="row">
          <span>
            {sizeWords(size.bytes)} in {size.runs === 1 ? '1 run' : `${size.runs} runs`}
          </span>
          <DeleteSounds />
        </div>
      )}
    </div>
  )
}

/** It is asked first, since it does not come back. */
function DeleteSounds() {
  const actions = useActions()
  const [isAsked, setAsked] = useState(false)
  const keep = useRef<HTMLButtonElement>(null)
  // The button that was pressed is gone.
  useEffect(() => keep.current?.focus({ preventScroll: true }), [isAsked])
  if (!isAsked) {
    return (
      <button type="button" onClick={() => setAsked(true)}>
        Delete all kept sound
      </button>
    )
  }
  return (
    <fieldset class="row">
      <legend class="hidden-label">Delete all kept sound</legend>
      <span role="alert">It does not come back. The runs stay.</span>
      <button type="button" onClick={() => void actions.deleteSounds()}>
        Delete it now
      </button>
      <button ref={keep} type="button" onClick={() => setAsked(false)}>
        Keep it
      </button>
    </fieldset>
  )
}
