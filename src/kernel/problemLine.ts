/** A problem as one line of text. Apart from `problem.ts`, which the first screen loads. */

import type { Problem } from './problem.ts'
import { onOneLine } from './quoted.ts'

/** `file:line:column: message`, or the message alone where no place is known. */
export function showProblem({ place, message }: Problem): string {
  return onOneLine(place ? `${place.file}:${place.line}:${place.column}: ${message}` : message)
}
