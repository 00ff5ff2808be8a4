/** One of a few: a group of radio buttons. */

import { useId } from 'preact/hooks'

export interface ChoiceOption<T extends string> {
  readonly value: T
  readonly label: string
  /** A few words after the label. */
  readonly about?: string
}

export interface ChoicesProps<T extends string> {
  readonly legend: string
  readonly options: readonly ChoiceOption<T>[]
  readonly value: T
  readonly choose: (value: T) => void
}

export function Choices<T extends string>({ legend, options, value, choose }: ChoicesProps<T>) {
  const name = useId()
  return (
    <fieldset class="section stack">
      <legend class="cap">{legend}</legend>
      <div class="choices">
        {options.map((option) => (
          <label key={option.value}>
            <input
              type="radio"
              name={name}
              value={option.value}
              checked={option.value === value}
              onChange={() => choose(option.value)}
            />
            <span>
              {option.label} {option.about && <span class="soft small">{option.about}</span>}
            </span>
          </label>
        ))}
      </div>
    </fieldset>
  )
}
