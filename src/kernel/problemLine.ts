/** A problem as one line of text. Apart from `problem.ts`, which the first screen loads. */

import type { Problem } from './problem.ts'
import { onOneLine } from './quoted.ts'

/** `file:line:column: message`, or the message alone where no place is known; advice begins with `warning:`. */
export function showProblem({ place, message, severity }: Problem): string {
  const line = place ? `${place.file}:${place.line}:${place.column}: ${message}` : message
  return onOneLine(severity === 'advice' ? `warning: ${line}` : line)
}
