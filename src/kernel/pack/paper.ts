/** Papers as an operator lays them out: what a crew reads in the cockpit. Shapes only; `print.ts` fills them in. */

export type PaperLine =
  | { readonly heading: string }
  /** The same on every edition. */
  | { readonly label: string; readonly text: string }
  /** What the paper's source states of a figure, or what was entered for it. */
  | {
      readonly figure: string
      readonly label?: string
      /** With the numbers that limit it beside it: "max 26,480 kg". */
      readonly limits?: boolean
    }
  /** The load at a station. */
  | { readonly load: string; readonly label?: string }
  | { readonly situation: string; readonly label?: string }
  /** Preliminary, final or amended. */
  | { readonly status: string }
  /** Last-minute changes under this label, each in a line of its own. */
  | { readonly lastMinute: string }

export interface Paper {
  readonly id: string
  /** As shown and spoken: "load sheet". */
  readonly title: string
  /** Whose values it prints, where it is the sheet of a source. */
  readonly source?: string
  /** The figure that numbers its editions, as the sheet says it; counted where none is named. */
  readonly edition?: string
  /** Of a card that does not change with the departure: its issue. */
  readonly issue?: string
  readonly lines: readonly PaperLine[]
  /** Tables of the pack, printed whole. */
  readonly tables: readonly string[]
  /** Lists of the pack, printed as challenge and response without values. */
  readonly lists: readonly string[]
  readonly notes: readonly string[]
  /** Who signs it. */
  readonly signature?: string
}
