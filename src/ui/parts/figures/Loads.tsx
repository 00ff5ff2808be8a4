/** Loads by station, with what each may hold. */

import { enteredNumber, type LoadField } from '../../../app/figures/fields.ts'
import { formatNumber } from '../../../kernel/figures/format.ts'
import type { Inputs } from '../../../kernel/figures/model.ts'
import { useActions } from '../../useApp.ts'
import { Field } from './Field.tsx'

export function Loads({ draft, loads }: { readonly draft: Inputs; readonly loads: readonly LoadField[] }) {
  const actions = useActions()
  if (loads.length === 0) return null
  const type = (name: string, text: string) => {
    const { [name]: _, ...others } = draft.loads
    // Text that is no number is computed as one that cannot be, and so is named as a problem.
    const load = text.trim() === '' ? undefined : (enteredNumber(text) ?? Number.NaN)
    actions.draft({ ...draft, loads: load === undefined ? others : { ...others, [name]: load } })
  }
  return (
    <fieldset class="section">
      <legend>Loads by station</legend>
      <div class="fields">
        {loads.map(({ name, label, unit, max, entered, problems }) => (
          <Field
            key={name}
            label={label}
            unit={unit}
            range={max === undefined ? '' : `at most ${formatNumber(max)} ${unit}`}
            entered={entered}
            problems={problems}
            type={(text) => type(name, text)}
          />
        ))}
      </div>
    </fieldset>
  )
}
