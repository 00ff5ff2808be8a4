/** Last-minute changes to the load sheet: persons or weight added at a station, or taken off. */

import { enteredNumber, type LoadField } from '../../../app/figures/fields.ts'
import type { Inputs, LastMinuteChange } from '../../../kernel/figures/model.ts'
import { useActions } from '../../useApp.ts'
import { Field } from './Field.tsx'

export function LastMinute({ draft, loads }: { readonly draft: Inputs; readonly loads: readonly LoadField[] }) {
  const actions = useActions()
  const changes = draft.lastMinute ?? []
  const [first] = loads
  if (!first) return null
  const set = (lastMinute: readonly LastMinuteChange[]) => actions.draft({ ...draft, lastMinute })
  const replace = (place: number, change: LastMinuteChange) => set(changes.with(place, change))
  return (
    <fieldset class="section stack">
      <legend>Last-minute changes</legend>
      {changes.map((change, place) => (
        <Row
          key={place}
          change={change}
          loads={loads}
          replace={(next) => replace(place, next)}
          remove={() => set(changes.toSpliced(place, 1))}
        />
      ))}
      <div>
        <button type="button" onClick={() => set([...changes, { station: first.name }])}>
          Add a last-minute change
        </button>
      </div>
    </fieldset>
  )
}

interface RowProps {
  readonly change: LastMinuteChange
  readonly loads: readonly LoadField[]
  readonly replace: (change: LastMinuteChange) => void
  readonly remove: () => void
}

function Row({ change, loads, replace, remove }: RowProps) {
  const { station, weight, count } = change
  const load = loads.find((each) => each.name === station)
  return (
    <div class="fields">
      <label class="field">
        Station
        <select value={station} onChange={({ currentTarget }) => replace({ station: currentTarget.value })}>
          {loads.map(({ name, label }) => (
            <option key={name} value={name}>
              {label}
            </option>
          ))}
        </select>
      </label>
      {load?.each !== undefined && (
        <Field
          label="Persons added (minus if removed)"
          range={`${load.each} ${load.unit} each`}
          entered={count === undefined ? '' : String(count)}
          type={(text) => replace(amount(station, 'count', text))}
        />
      )}
      <Field
        label="Weight added (minus if removed)"
        unit={load?.unit ?? ''}
        entered={weight === undefined ? '' : String(weight)}
        type={(text) => replace(amount(station, 'weight', text))}
      />
      <button type="button" onClick={remove}>
        Remove <span class="hidden-label">the change at {load?.label}</span>
      </button>
    </div>
  )
}

/** By count or by weight, not both: the one typed last counts. */
function amount(station: string, by: 'count' | 'weight', text: string): LastMinuteChange {
  const number = enteredNumber(text)
  return number === undefined ? { station } : { station, [by]: number }
}
