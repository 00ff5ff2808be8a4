/** What a station says: words with figures in them, whose values are put in when it speaks. */

export interface Template {
  readonly text: string
  readonly pieces: readonly (string | { readonly figure: string })[]
  /** Names of its figures in their order; one may come twice. */
  readonly figures: readonly string[]
}

export function parseTemplate(text: string): Template {
  // The pattern captures, so names stand between the words.
  const pieces = text.split(/<([\w-]+)>/).map((piece, index) => (index % 2 === 0 ? piece : { figure: piece }))
  return { text, pieces, figures: pieces.flatMap((piece) => (typeof piece === 'string' ? [] : [piece.figure])) }
}

/** Its words with something written in the place of each figure. */
export function fillTemplate({ pieces }: Template, write: (figure: string) => string): string {
  return pieces.map((piece) => (typeof piece === 'string' ? piece : write(piece.figure))).join('')
}
