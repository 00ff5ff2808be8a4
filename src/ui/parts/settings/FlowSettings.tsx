/** How much help there is with flows and engine starts. */

import type { Settings } from '../../../app/settings.ts'
import { useActions, useApp } from '../../useApp.ts'
import { Choices } from './Choices.tsx'

const FLOWS = [
  { value: 'shown', label: 'Shown', about: 'tick them, or say their words' },
  { value: 'spoken', label: 'Read out', about: 'one by one, each until it is done' },
  { value: 'memory', label: 'From memory', about: 'hidden until the debrief' },
] as const
const TIMES = [
  { value: 'no', label: 'A tick' },
  { value: 'yes', label: 'The seconds since it began' },
] as const

export function FlowSettings() {
  const flows = useApp((state) => state.settings.flows)
  const timesAloud = useApp((state) => state.settings.timesAloud)
  const actions = useActions()
  const set = (change: Partial<Settings>) => actions.settings(change)
  return (
    <>
      <Choices legend="Steps of a flow" options={FLOWS} value={flows} choose={(mode) => set({ flows: mode })} />
      <Choices
        legend="Otherseat answers an engine start call with"
        options={TIMES}
        value={timesAloud ? 'yes' : 'no'}
        choose={(said) => set({ timesAloud: said === 'yes' })}
      />
    </>
  )
}
