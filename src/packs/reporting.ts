/** How checks say what is wrong with a file: by the path of a thing in its data, with the name that was probably meant. */

import { MOST_COLLECTED } from '../kernel/bounds.ts'
import { isError, type Place, type Problem } from '../kernel/problem.ts'
import { didYouMean } from './nearest.ts'
import type { Path, Source } from './source.ts'

/** What was written in place of one of these names. */
export interface Meant {
  readonly name: string
  readonly known: () => Iterable<string>
}

export type Report = (code: string, path: Path, message: string, meant?: Meant, severity?: Problem['severity']) => void

export function reporting(source: Source, problems: Problem[]): Report {
  return (code, path, message, meant, severity = 'error') =>
    add(problems, code, () => source.place(path), message, meant, severity)
}

export function add(
  problems: Problem[],
  code: string,
  place: () => Place,
  message: string,
  meant?: Meant,
  severity: Problem['severity'] = 'error',
): void {
  if (problems.length >= MOST_COLLECTED && (severity === 'advice' || problems.some(isError))) return
  const hint = meant ? didYouMean(meant.name, [...meant.known()]) : ''
  problems.push({ code, message: message + hint, place: place(), severity })
}
