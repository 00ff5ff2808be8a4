/** The input figures by their headings. A hidden value in force stays unless another one is typed. */

import { enteredValue, type FieldGroup, type FigureField } from '../../../app/figures/fields.ts'
import type { Inputs } from '../../../kernel/figures/model.ts'
import type { Pack } from '../../../kernel/pack/checklist.ts'
import { useActions, useApp } from '../../useApp.ts'
import { Choices } from '../settings/Choices.tsx'
import { Field } from './Field.tsx'

interface GroupsProps {
  readonly pack: Pack
  readonly draft: Inputs
  readonly groups: readonly FieldGroup[]
}

export function FieldGroups({ pack, draft, groups }: GroupsProps) {
  const actions = useActions()
  const inForce = useApp((state) => state.revisions.at(-1)?.inputs)
  const type = (field: FigureField, text: string) => {
    const { spec, measure } = pack.figures.declarations[field.name] ?? {}
    const value = spec && enteredValue(spec, text, measure)
    const { [field.name]: _, ...others } = draft.values
    const kept = field.keeps ? inForce?.values[field.name] : undefined
    const next = value ?? kept
    actions.draft({ ...draft, values: next === undefined ? others : { ...others, [field.name]: next } })
  }
  return (
    <>
      {groups.map(({ title, fields }) => (
        <fieldset key={title} class="section">
          <legend>{title}</legend>
          <div class="fields">
            {fields.map((field) => (
              <FigureInput key={field.name} field={field} type={(text) => type(field, text)} />
            ))}
          </div>
        </fieldset>
      ))}
    </>
  )
}

interface InputProps {
  readonly field: FigureField
  readonly type: (text: string) => void
}

function FigureInput({ field, type }: InputProps) {
  const { label, options, entered, keeps, ...rest } = field
  if (!options) {
    return <Field {...rest} label={label} entered={entered} placeholder={keeps ? 'as in force' : ''} type={type} />
  }
  const shown = options.map((value) => ({ value, label: value }))
  const all = keeps ? [{ value: '', label: 'As in force' }, ...shown] : shown
  return <Choices legend={label} options={all} value={entered} choose={type} />
}
