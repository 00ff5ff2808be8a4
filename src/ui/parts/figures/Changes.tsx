/** What entering the draft would change against the revision in force, and what it would open again. */

import type { DraftView } from '../../../app/figures/draftView.ts'
import { Mark } from '../shell/Mark.tsx'

export function Changes({ view }: { readonly view: DraftView }) {
  const { revision, changes, workings, unspoken, reopens, situationChanges } = view
  if (revision === 0) return null
  const { items, lists } = reopens
  return (
    <section class="stack" aria-labelledby="changes">
      <h2 id="changes">Against revision {revision}</h2>
      {workings > 0 && <p class="soft">{workings} workings change as well.</p>}
      {changes.length === 0 && (
        <p>
          No value that is read back changes.
          {unspoken > 0 && ` ${unspoken} ${unspoken === 1 ? 'figure moves' : 'figures move'} by less than is spoken.`}
        </p>
      )}
      <ul class="values" aria-label="Values that change">
        {changes.map(({ label, from, to, hidden }) => (
          <li key={label} class="head-line">
            <span class="cap">{label}</span>
            <span>{hidden ? 'changes' : `${from} → ${to}`}</span>
          </li>
        ))}
      </ul>
      {situationChanges.map((change) => (
        <p key={change}>
          <Mark name="arrow" /> {change}
        </p>
      ))}
      {items.length > 0 && (
        <p>
          <Mark name="back" /> <strong>Opens again:</strong> {items.join(', ')}.
          {lists.length > 0 && ` No longer complete: ${lists.join(', ')}.`}
        </p>
      )}
      {changes.length > 0 && items.length === 0 && <p class="soft">No answered item opens again.</p>}
    </section>
  )
}
