/** Whether the figures are preliminary, final or amended, and what the revision is called. */

import { type Inputs, STATUSES } from '../../../kernel/figures/model.ts'
import { useActions } from '../../useApp.ts'
import { Choices } from '../settings/Choices.tsx'

const OPTIONS = STATUSES.map((value) => ({ value, label: `${value[0]?.toUpperCase()}${value.slice(1)}` }))

export function RevisionStatus({ draft }: { readonly draft: Inputs }) {
  const actions = useActions()
  const { label: _, ...unnamed } = draft
  return (
    <div class="stack">
      <Choices
        legend="These figures are"
        options={OPTIONS}
        value={draft.status}
        choose={(status) => actions.draft({ ...draft, status })}
      />
      <div class="field">
        <label for="revision-name">
          Name of this revision <span class="soft">(optional)</span>
        </label>
        <input
          id="revision-name"
          value={draft.label ?? ''}
          autocomplete="off"
          onInput={({ currentTarget: { value: label } }) => actions.draft(label ? { ...unnamed, label } : unnamed)}
        />
      </div>
    </div>
  )
}
