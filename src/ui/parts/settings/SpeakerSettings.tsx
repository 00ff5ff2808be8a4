/** What the sound check sets for a speaker, to be seen and changed by hand. */

import { useActions, useApp } from '../../useApp.ts'
import { Choices } from './Choices.tsx'

const PAUSES = [
  { value: 'usual', label: 'As usual' },
  { value: 'long', label: 'Long', about: 'it waits longer for the end' },
] as const
const DIGITS = [
  { value: 'second', label: 'At the second misunderstanding' },
  { value: 'first', label: 'At the first' },
] as const
const FIVE_NINE = [
  { value: 'once', label: 'As heard' },
  { value: 'twice', label: 'Said twice, or as "fife" and "niner"' },
] as const

export function SpeakerSettings() {
  const settings = useApp((state) => state.settings)
  const actions = useActions()
  return (
    <>
      <Choices
        legend="Your pauses inside an answer"
        options={PAUSES}
        value={settings.pauses}
        choose={(pauses) => actions.settings({ pauses })}
      />
      <Choices
        legend="Ask for single digits"
        options={DIGITS}
        value={settings.digitsFirst ? 'first' : 'second'}
        choose={(when) => actions.settings({ digitsFirst: when === 'first' })}
      />
      <Choices
        legend="Five and nine"
        options={FIVE_NINE}
        value={settings.fiveNine ? 'twice' : 'once'}
        choose={(how) => actions.settings({ fiveNine: how === 'twice' })}
      />
    </>
  )
}
