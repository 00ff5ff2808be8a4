/** Sources differ beyond the tolerance: which one counts, and why. Without a reason it is not settled. */

import type { SourcedView } from '../../../app/figures/sourcesView.ts'
import type { Inputs, Settlement } from '../../../kernel/figures/model.ts'
import { sourceChosen, sourceWords } from '../../../kernel/figures/sources.ts'
import { useActions } from '../../useApp.ts'
import { Choices } from '../settings/Choices.tsx'

export function Settle({ draft, figure }: { readonly draft: Inputs; readonly figure: SourcedView }) {
  const actions = useActions()
  const { name, label, choices, state } = figure
  const settled = draft.settled?.[name] ?? { use: '', reason: '' }
  const over = Object.fromEntries(choices.map(({ source, value }) => [source, value]))
  const set = (change: Partial<Settlement>) =>
    actions.draft({ ...draft, settled: { ...draft.settled, [name]: { ...settled, ...change, over } } })
  return (
    <div class="card stack">
      <p role="status" class="cap">
        {told(figure, settled)}
      </p>
      <Choices
        legend={`Which ${label} counts`}
        options={choices.map(({ source, shown }) => ({
          value: source,
          label: [sourceWords(source), shown].filter((part) => part).join(': '),
        }))}
        value={state === 'outdated' ? '' : settled.use}
        choose={(use) => set({ use })}
      />
      <label class="field">
        Reason
        <input value={settled.reason} onInput={({ currentTarget }) => set({ reason: currentTarget.value })} />
      </label>
      <p class="soft small">The choice and its reason are kept in the log.</p>
    </div>
  )
}

function told({ label, state }: SourcedView, { use }: Settlement): string {
  if (state === 'settled') return `Settled: use ${sourceWords(use)}.`
  if (state === 'outdated') return 'The sources have changed since: choose again.'
  if (state === 'reasonless') return `The reason is missing: ${sourceChosen(use)} does not count without it.`
  return `${label} has no value until this is settled.`
}
