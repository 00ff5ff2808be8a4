/** What the plain field and the editor have in common. */

import type { Place, Problem } from '../../../../kernel/problem.ts'

/** What outlives what is drawn. */
export interface Held<T> {
  current: T
}

export interface TextPlaces {
  goTo(place: Place): void
}

export interface TextFieldProps {
  readonly label: string
  readonly value: string
  readonly files: Readonly<Record<string, string>>
  readonly problems: readonly Problem[]
  readonly onChange: (value: string) => void
  readonly onCursor?: (offset: number) => void
  /** Gets the way to a place in the text. */
  readonly places: Held<TextPlaces>
}
