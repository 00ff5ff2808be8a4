/** Sources differ beyond the tolerance: which one counts, and why. Without a reason it is not settled. */

import type { ComputedView } from '../../app/computedView.ts'
import type { Inputs, Settlement } from '../../kernel/figures/model.ts'
import { useActions } from '../useApp.ts'
import { Choices } from './Choices.tsx'
import { sourceName } from './sourceName.ts'

export function Settle({ draft, figure }: { readonly draft: Inputs; readonly figure: ComputedView }) {
  const actions = useActions()
  const { name, label, agreement } = figure
  const settled = draft.settled?.[name] ?? { use: '', reason: '' }
  const set = (change: Partial<Settlement>) =>
    actions.draft({ ...draft, settled: { ...draft.settled, [name]: { ...settled, ...change } } })
  const isSettled = settled.use !== '' && settled.reason.trim() !== ''
  return (
    <div class="card stack">
      <p role="status">
        {isSettled ? `Settled: ${sourceName(settled.use)} counts.` : `${label} counts only once this is settled.`}
      </p>
      <Choices
        legend={`Which ${label} counts`}
        options={agreement.map(({ source }) => ({ value: source, label: sourceName(source) }))}
        value={settled.use}
        choose={(use) => set({ use })}
      />
      <label class="field">
        Why it counts
        <input value={settled.reason} onInput={({ currentTarget }) => set({ reason: currentTarget.value })} />
      </label>
    </div>
  )
}
