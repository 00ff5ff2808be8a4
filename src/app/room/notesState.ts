/** What the screens show of voice notes: an instructor's, on this device alone. */

export interface NotesState {
  /** Marks that have one: as `noteKey` names them. */
  readonly there: ReadonlySet<string>
  readonly playing: string | undefined
  /** `since`: clock time at which it began; undefined while the microphone opens. */
  readonly recording: { readonly key: string; readonly since: number | undefined } | undefined
  /** Of all that this browser keeps; undefined until it has been looked up. */
  readonly size: { readonly bytes: number; readonly runs: number } | undefined
  readonly wrong: string
}

export const NO_NOTES: NotesState = {
  there: new Set(),
  playing: undefined,
  recording: undefined,
  size: undefined,
  wrong: '',
}

/** Of the mark that the note is on. */
export const noteKey = ({ runId, given }: { readonly runId: string; readonly given: string }): string =>
  `${runId}/${noteNumber({ given })}`

/** A note lies under the time of its mark, ms since 1970: nobody marks twice in one. */
export const noteNumber = ({ given }: { readonly given: string }): number => Date.parse(given)
