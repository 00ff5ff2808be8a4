/** Choices that decide which items apply. During a run a choice takes effect at once. */

import type { SituationField } from '../../../app/figures/draftView.ts'
import type { Inputs } from '../../../kernel/figures/model.ts'
import { useActions } from '../../useApp.ts'
import { Choices } from '../settings/Choices.tsx'

interface SituationProps {
  readonly draft: Inputs
  readonly situations: readonly SituationField[]
  readonly isRunning: boolean
}

export function Situations({ draft, situations, isRunning }: SituationProps) {
  const actions = useActions()
  const choose = (name: string, value: string) => {
    actions.draft({ ...draft, situation: { ...draft.situation, [name]: value } })
    if (isRunning) actions.press({ type: 'situation', name, value })
  }
  return (
    <>
      {situations.map(({ name, label, options, value }) => (
        <Choices key={name} legend={label} options={options} value={value} choose={(option) => choose(name, option)} />
      ))}
    </>
  )
}
