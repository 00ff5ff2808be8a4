/** Values stated by other sources, next to the computed or entered ones: a line for each figure, its fields inside. */

import { useEffect, useState } from 'preact/hooks'
import type { SourcedView } from '../../../app/figures/sourcesView.ts'
import type { Inputs } from '../../../kernel/figures/model.ts'
import type { Pack } from '../../../kernel/pack/checklist.ts'
import { Mark, type MarkName } from '../shell/Mark.tsx'
import { Settle } from './Settle.tsx'
import { SourceFields } from './SourceFields.tsx'

interface SourcesProps {
  readonly pack: Pack
  readonly draft: Inputs
  readonly figures: readonly SourcedView[]
}

export function Sources({ pack, draft, figures }: SourcesProps) {
  if (figures.length === 0) return null
  return (
    <section class="stack" aria-labelledby="sources">
      <h2 id="sources">Sources side by side</h2>
      <p class="soft small">Values from the sheets and the flight computer, compared with Otherseat's own.</p>
      {figures.map((figure) => (
        <Source key={figure.name} pack={pack} draft={draft} figure={figure} />
      ))}
    </section>
  )
}

interface SourceProps {
  readonly pack: Pack
  readonly draft: Inputs
  readonly figure: SourcedView
}

function Source({ pack, draft, figure }: SourceProps) {
  const differs = figure.choices.length > 0
  const [isOpen, setOpen] = useState(differs)
  // A difference opens it; only the pilot closes it, or it would shut under the fingers as soon as all agree.
  useEffect(() => {
    if (differs) setOpen(true)
  }, [differs])
  return (
    <details open={isOpen} onToggle={({ currentTarget }) => setOpen(currentTarget.open)}>
      <summary>
        <span class="cap">{figure.label}</span> <Told figure={figure} />
      </summary>
      <fieldset class="stack">
        <legend class="hidden-label">{figure.label}</legend>
        <Own figure={figure} />
        <SourceFields pack={pack} draft={draft} figure={figure} />
        {differs && <Settle draft={draft} figure={figure} />}
      </fieldset>
    </details>
  )
}

const MARK: Readonly<Record<SourcedView['state'], MarkName>> = {
  nothing: 'ring',
  agrees: 'full',
  settled: 'half',
  open: 'unequal',
  reasonless: 'unequal',
  outdated: 'unequal',
  followed: 'half',
  mixed: 'unequal',
}

function Told({ figure }: { readonly figure: SourcedView }) {
  const { state } = figure
  const isOpen = ['open', 'reasonless', 'outdated', 'mixed'].includes(state)
  return (
    <span class={isOpen ? 'wrong-entry' : 'soft'}>
      <Mark name={MARK[state]} /> {wordsOf(figure)}
    </span>
  )
}

function wordsOf({ state, fields }: SourcedView): string {
  const names = (agrees: boolean) => fields.filter((one) => one.agrees === agrees).map(({ words }) => words)
  switch (state) {
    case 'nothing':
      return 'nothing stated'
    case 'agrees':
      return `${names(true).join(', ')} ${names(true).length > 1 ? 'agree' : 'agrees'}`
    case 'open':
      return `${names(false).join(', ')} ${names(false).length > 1 ? 'differ' : 'differs'}: choose one`
    case 'reasonless':
      return 'chosen, the reason is missing'
    case 'outdated':
      return 'differs from what was settled: choose again'
    case 'settled':
      return 'differed, settled'
    case 'followed':
      return 'as its source states it'
    case 'mixed':
      return 'no value'
  }
}

function Own({ figure }: { readonly figure: SourcedView }) {
  const { own, shown, isHidden, because } = figure
  if (because) return <p>Not computed here: {because}.</p>
  return (
    <p>
      {own === 'computed' ? 'Computed here: ' : 'Entered here: '}
      {isHidden ? (
        <span class="soft">hidden</span>
      ) : (
        <strong>{shown ?? (own === 'computed' ? 'not known yet' : 'nothing yet')}</strong>
      )}
    </p>
  )
}
