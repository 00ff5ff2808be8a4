/** What the plain field and the editor have in common. */

import type { Place, Problem } from '../../../../kernel/problem.ts'

/** What outlives what is drawn. */
export interface Held<T> {
  current: T
}

export interface TextPlaces {
  goTo(place: Place): void
  /** Brings an offset into view with the cursor at it; what has the focus keeps it. */
  show(offset: number): void
}

export interface TextFieldProps {
  /** The key of the pack. */
  readonly pack: string
  /** Of the file. */
  readonly label: string
  readonly value: string
  /** Those of the pack as they are kept. */
  readonly files: Readonly<Record<string, string>>
  readonly problems: readonly Problem[]
  readonly onChange: (value: string) => void
  /** Gets an offset. */
  readonly onCursor?: (offset: number) => void
  /** Gets the way to a place in the text. */
  readonly places: Held<TextPlaces>
}
