/** Two packs chosen, to be seen side by side. */

import { useState } from 'preact/hooks'
import type { PackEntry } from '../../../app/packs/shelfState.ts'
import { useActions } from '../../useApp.ts'

export function ComparePacks({ entries }: { readonly entries: readonly PackEntry[] }) {
  const actions = useActions()
  const [before, setBefore] = useState('')
  const [after, setAfter] = useState('')
  const choice = (id: string, label: string, value: string, set: (key: string) => void) => (
    <div class="field">
      <label for={id}>{label}</label>
      <select id={id} value={value} onChange={(event) => set(event.currentTarget.value)}>
        <option value="">choose a pack</option>
        {entries.map(({ key, name, version }) => (
          <option key={key} value={key}>
            {name}
            {version && `, version ${version}`}
          </option>
        ))}
      </select>
    </div>
  )
  return (
    <section class="stack" aria-labelledby="compare-packs">
      <h2 id="compare-packs">Compare two packs</h2>
      <div class="compare">
        {choice('compare-before', 'The earlier one', before, setBefore)}
        {choice('compare-after', 'The later one', after, setAfter)}
        <button
          type="button"
          disabled={before === '' || after === '' || before === after}
          onClick={() => void actions.comparePacks(before, after)}
        >
          Show the differences
        </button>
      </div>
    </section>
  )
}
