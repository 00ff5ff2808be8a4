/** What others state beside what is computed here, and the choice that settles a difference. */

import type { ComputedView } from '../../app/computedView.ts'
import type { DraftView } from '../../app/draftView.ts'
import { enteredNumber } from '../../app/fields.ts'
import type { Inputs } from '../../kernel/figures/model.ts'
import { showNumber } from '../../kernel/figures/showing.ts'
import { useActions, useApp } from '../useApp.ts'
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
  const inForce = useApp((state) => state.revisions.at(-1)?.inputs.stated)
  const isRunning = useApp((state) => state.run?.status === 'running')
  const { name, label, unit, sources, agreement, statedBy, hidden } = figure
  const keptBy = (source: string) => (hidden ? inForce?.[source]?.[name] : undefined)
  const type = (source: string, text: string) => {
    const { [name]: _, ...others } = draft.stated?.[source] ?? {}
    const value = text.trim() === '' ? keptBy(source) : (enteredNumber(text) ?? text)
    const ofSource = value === undefined ? others : { ...others, [name]: value }
    actions.draft({ ...draft, stated: { ...draft.stated, [source]: ofSource } })
  }
  const entered = (source: string) => {
    const stated = draft.stated?.[source]?.[name]
    return stated === undefined || stated === keptBy(source) ? '' : String(stated)
  }
  const readAloud = () => {
    actions.press({ type: 'command', command: 'crossCheck', argument: name })
    actions.show('run')
  }
  const computed = sources.find(({ source }) => source === 'computed')
  return (
    <fieldset class="stack">
      <legend class="cap">{label}</legend>
      <p>
        Computed here:{' '}
        {hidden ? (
          <span class="soft">hidden while the run is on</span>
        ) : (
          <strong>{computed ? `${shownValue(computed.value)} ${unit}` : (figure.shown ?? 'not known yet')}</strong>
        )}
      </p>
      {isRunning && statedBy.includes('flightComputer') && (
        <div>
          <button type="button" onClick={readAloud}>
            Cross-check aloud <small>or say “cross check {label}”</small>
          </button>
        </div>
      )}
      <div class="fields">
        {statedBy.map((source) => (
          <div key={source}>
            <Field
              label={sourceName(source)}
              unit={unit}
              entered={entered(source)}
              placeholder={keptBy(source) === undefined ? '' : 'as in force'}
              type={(text) => type(source, text)}
            />
            <Agreement figure={figure} source={source} />
          </div>
        ))}
      </div>
      {agreement.some(({ within }) => !within) && <Settle draft={draft} figure={figure} />}
    </fieldset>
  )
}

const shownValue = (value: number | string) => (typeof value === 'number' ? showNumber(value, 1) : value)

/** By how much it differs is told only where the value itself is. */
function Agreement({ figure, source }: { readonly figure: ComputedView; readonly source: string }) {
  const within = figure.agreement.find((one) => one.source === source)?.within
  if (within === undefined) return null
  const difference = figure.sources.find((one) => one.source === source)?.difference
  const by =
    difference === undefined ? '' : ` (${difference > 0 ? '+' : ''}${showNumber(difference, 1)} ${figure.unit})`
  return (
    <p class={within ? 'soft small' : 'wrong-entry'}>
      <Mark name={within ? 'full' : 'unequal'} /> {within ? 'agrees' : 'differs'}
      {by}
    </p>
  )
}
