/** Whether the sound of what is said is kept, how much there is, and all of it deleted. */

import { useEffect } from 'preact/hooks'
import { sizeWords } from '../../../app/runs/runsView.ts'
import { useActions, useApp } from '../../useApp.ts'
import { AskFirst } from '../shell/AskFirst.tsx'
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
          <AskFirst
            label="Delete all kept sound"
            warning="It does not come back. The runs stay."
            yes="Delete it now"
            onYes={actions.deleteSounds}
          />
        </div>
      )}
    </div>
  )
}
