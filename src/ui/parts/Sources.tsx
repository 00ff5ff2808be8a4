/** What others state beside what is computed here, and the choice that settles a difference. */

import type { ComputedView } from '../../app/computedView.ts'
import type { DraftView } from '../../app/draftView.ts'
import { enteredNumber } from '../../app/fields.ts'
import type { Inputs } from '../../kernel/figures/model.ts'
import { showNumber } from '../../kernel/figures/showing.ts'
import { useActions } from '../useApp.ts'
import { Field } from './Field.tsx'
import { Mark } from './Mark.tsx'
import { Settle } from './Settle.tsx'
import { sourceName } from './sourceName.ts'

interface SourcesProps {
  readonly draft: Inputs
  readonly view: DraftView
}

export function Sources({ draft, view }: SourcesProps) {
  const stated = view.computed.filter((figure) => figure.statedBy.length > 0)
  if (stated.length === 0) return null
  return (
    <section class="stack" aria-labelledby="sources">
      <h2 id="sources">Sources side by side</h2>
      {stated.map((figure) => (
        <Source key={figure.name} draft={draft} figure={figure} />
      ))}
    </section>
  )
}

function Source({ draft, figure }: { readonly draft: Inputs; readonly figure: ComputedView }) {
  const actions = useActions()
  const { name, label, unit, sources, statedBy, hidden } = figure
  const type = (source: string, text: string) => {
    const { [name]: _, ...others } = draft.stated?.[source] ?? {}
    const value = text.trim() === '' ? undefined : (enteredNumber(text) ?? text)
    const ofSource = value === undefined ? others : { ...others, [name]: value }
    actions.draft({ ...draft, stated: { ...draft.stated, [source]: ofSource } })
  }
  if (hidden) {
    return (
      <p>
        {label}: <span class="soft">hidden while the run is on</span>
      </p>
    )
  }
  const computed = sources.find(({ source }) => source === 'computed')
  const differs = sources.some(({ within }) => !within)
  return (
    <fieldset class="stack">
      <legend class="cap">{label}</legend>
      <p>
        Computed here:{' '}
        <strong>{computed ? `${showNumber(computed.value, 1)} ${unit}` : (figure.shown ?? 'not known yet')}</strong>
      </p>
      <div class="fields">
        {statedBy.map((source) => (
          <div key={source}>
            <Field
              label={sourceName(source)}
              unit={unit}
              entered={String(draft.stated?.[source]?.[name] ?? '')}
              type={(text) => type(source, text)}
            />
            <Difference figure={figure} source={source} />
          </div>
        ))}
      </div>
      {differs && <Settle draft={draft} figure={figure} />}
    </fieldset>
  )
}

function Difference({ figure, source }: { readonly figure: ComputedView; readonly source: string }) {
  const stated = figure.sources.find((one) => one.source === source)
  if (!stated) return null
  const { within, difference } = stated
  const by = `${difference > 0 ? '+' : ''}${showNumber(difference, 1)} ${figure.unit}`
  return (
    <p class={within ? 'soft small' : 'wrong-entry'}>
      <Mark name={within ? 'full' : 'unequal'} /> {within ? `agrees (${by})` : `differs by ${by}`}
    </p>
  )
}
