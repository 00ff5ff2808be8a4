/** What each source states for one figure: typed, or read aloud while a run is on. */

import { enteredValue } from '../../../app/figures/fields.ts'
import type { SourcedView, SourceField } from '../../../app/figures/sourcesView.ts'
import type { Inputs } from '../../../kernel/figures/model.ts'
import type { Pack } from '../../../kernel/pack/checklist.ts'
import { useActions, useApp } from '../../useApp.ts'
import { Mark } from '../shell/Mark.tsx'
import { Field } from './Field.tsx'

interface SourceFieldsProps {
  readonly pack: Pack
  readonly draft: Inputs
  readonly figure: SourcedView
}

export function SourceFields({ pack, draft, figure }: SourceFieldsProps) {
  const actions = useActions()
  const isRunning = useApp((state) => state.run?.status === 'running')
  const { name, unit, isText, fields, written } = figure
  const { spec, measure } = pack.figures.declarations[name] ?? {}
  const type = ({ source, kept }: SourceField, text: string) => {
    const { [name]: _, ...others } = draft.stated?.[source] ?? {}
    const value = (spec && enteredValue(spec, text, measure)) ?? kept
    const ofSource = value === undefined ? others : { ...others, [name]: value }
    actions.draft({ ...draft, stated: { ...draft.stated, [source]: ofSource } })
  }
  const readAloud = (source: string) => {
    actions.press({ type: 'crossCheck', figure: name, source })
    actions.show('run')
  }
  return (
    <div class="fields">
      {fields.map((field) => (
        <div key={field.source} class="source">
          <Field
            label={field.words}
            unit={unit}
            range={written}
            isText={isText}
            entered={field.entered}
            placeholder={field.kept === undefined ? '' : 'as in force'}
            problems={field.problems}
            type={(text) => type(field, text)}
          />
          <Agreement field={field} />
          {isRunning && (
            <button type="button" onClick={() => readAloud(field.source)}>
              Read it aloud <span class="hidden-label">from the {field.words}</span>
            </button>
          )}
        </div>
      ))}
    </div>
  )
}

function Agreement({ field: { agrees, difference, blankOn } }: { readonly field: SourceField }) {
  if (blankOn) return <p class="small">Not on the {blankOn}: not compared.</p>
  if (agrees === undefined) return null
  return (
    <p class={agrees ? 'soft small' : 'wrong-entry'}>
      <Mark name={agrees ? 'full' : 'unequal'} /> {agrees ? 'agrees' : 'differs'}
      {difference && ` (${difference})`}
    </p>
  )
}
