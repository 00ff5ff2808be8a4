/** The list that has the floor, as one thread with its place: what is answered, open, open again, left open. */

import type { ViewEntry } from '../../../app/view/view.ts'
import { Mark, type MarkName } from '../shell/Mark.tsx'

const STATES: Readonly<Record<ViewEntry['status'], { readonly text: string; readonly mark: MarkName }>> = {
  open: { text: '', mark: 'ring' },
  done: { text: 'answered', mark: 'full' },
  passed: { text: '', mark: 'dash' },
  leftOpen: { text: 'left open', mark: 'half' },
  reopened: { text: 'open again', mark: 'back' },
  cleared: { text: 'clearance in', mark: 'full' },
}

export function ItemList({
  name,
  entries,
}: {
  readonly name: string | undefined
  readonly entries: readonly ViewEntry[]
}) {
  if (name === undefined) return null
  const answered = entries.filter(({ status, type }) => type === 'item' && (status === 'done' || status === 'passed'))
  const items = entries.filter(({ type }) => type === 'item')
  return (
    <section aria-label="Items of the list">
      <h2 class="cap">{name}</h2>
      <p class="soft small">
        {answered.length} of {items.length} answered
      </p>
      <ol class="thread">
        {entries.map((entry) => (
          <Entry key={entry.id} entry={entry} />
        ))}
      </ol>
    </section>
  )
}

function Entry({ entry }: { readonly entry: ViewEntry }) {
  const { label, status, current, note, type } = entry
  if (type === 'note' || type === 'heading') return <li class={type}>{label}</li>
  const isLine = type === 'line'
  const { text, mark } =
    isLine && status === 'open' ? { text: 'the line: waits for this', mark: 'bar' as const } : STATES[status]
  const words = [current && !isLine ? 'now' : '', text, note ?? ''].filter((word) => word).join(', ')
  return (
    <li class={isLine ? 'line' : ''} aria-current={current ? 'step' : undefined}>
      <Mark name={mark} />
      <span class="cap">{label}</span>
      {words && <span class="state">{words}</span>}
    </li>
  )
}
