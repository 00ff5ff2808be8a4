/** What a checklist on paper holds, as it stands there. */

/** A guess, or what could not be told; `line` is that of the source, from 1. */
export interface Doubt {
  readonly line: number
  readonly text: string
}

export interface PaperItem {
  readonly line: number
  challenge: string
  answer: string
  readonly cautions: string[]
  /** Below it. */
  readonly notes: string[]
  readonly doubts: Doubt[]
}

export interface PaperList {
  readonly line: number
  readonly name: string
  readonly phase: PaperPhase | undefined
  readonly items: PaperItem[]
  readonly cautions: string[]
  /** Above its items. */
  readonly notes: string[]
  readonly doubts: Doubt[]
}

export interface PaperPhase {
  readonly line: number
  readonly name: string
}

interface Named {
  readonly line: number
  readonly text: string
}

/** What the lines above all lists say. */
export interface PaperHead {
  readonly title: Named
  readonly operator?: Named
  readonly aircraft?: Named
}

export interface Paper {
  readonly head?: PaperHead
  readonly title: { readonly line: number; readonly text: string } | undefined
  readonly lists: readonly PaperList[]
  /** Of the text as a whole. */
  readonly doubts: readonly Doubt[]
}
