/** A pack whose files are sound, as it was written, with the places of all its parts: what advice is given on. */

import type { Problem } from '../../kernel/problem.ts'
import type { FiguresText } from '../figuresSchema.ts'
import type { PackText } from '../packSchema.ts'
import type { PapersText } from '../papersSchema.ts'
import type { ActivityText, ProceduresText } from '../proceduresSchema.ts'
import type { Path, Source } from '../source.ts'
import type { TablesText } from '../tablesSchema.ts'

export interface File<T> {
  readonly source: Source
  readonly value: T
}

export interface Written {
  readonly pack: File<PackText>
  readonly figures: File<FiguresText>
  readonly procedures: File<ProceduresText>
  /** Left out where the pack has no such file. */
  readonly tables?: File<TablesText>
  readonly papers?: File<PapersText>
}

/** Says something at a path of a file; with an offset, at that character of the text there. */
export type Advise = (code: string, path: Path, message: string, offset?: number) => void

export function advising(source: Source, problems: Problem[]): Advise {
  return (code, path, message, offset) => {
    const place = offset === undefined ? source.place(path) : source.placeInText(path, offset)
    problems.push({ code: `advice.${code}`, message, place, severity: 'advice' })
  }
}

export interface Placed<T> {
  readonly value: T
  readonly path: Path
}

/** The activities of all phases in their order. */
export function activitiesOf({ procedures }: Written): Placed<ActivityText>[] {
  return procedures.value.phases.flatMap(({ activities }, phase) =>
    activities.map((value, index) => ({ value, path: ['phases', phase, 'activities', index] })),
  )
}
