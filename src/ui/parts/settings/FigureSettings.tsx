/** Who works figures out first, and who notices what new ones change. */

import { useActions, useApp } from '../../useApp.ts'
import { Choices } from './Choices.tsx'

const CHANGES = [
  { value: 'told', label: 'Told at once', about: 'Otherseat says what is to be done again' },
  { value: 'late', label: 'Late catch', about: 'you notice; Otherseat holds back until a list would be complete' },
] as const
const OWN = [
  { value: 'asked', label: 'Asked for first', about: '"Your takeoff trim?", where the aircraft has it' },
  { value: 'not', label: 'Not asked for' },
] as const

export function FigureSettings() {
  const { lateCatch, ownValues } = useApp((state) => state.settings)
  const { settings: set } = useActions()
  return (
    <>
      <Choices
        legend="What new figures change"
        options={CHANGES}
        value={lateCatch ? 'late' : 'told'}
        choose={(value) => set({ lateCatch: value === 'late' })}
      />
      <Choices
        legend="Figures that you work out"
        options={OWN}
        value={ownValues ? 'asked' : 'not'}
        choose={(value) => set({ ownValues: value === 'asked' })}
      />
      <p class="soft">These two take effect from the next run.</p>
    </>
  )
}
