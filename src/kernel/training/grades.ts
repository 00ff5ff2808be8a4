/** Grades that an instructor gave in a run: each of one competency, in one part of the run or in all of it. */

import { GRADES, type GradeStep } from '../pack/grading.ts'
import { type Fields, listOf, number, object, oneNumberOf, optional, text } from '../shape.ts'

export interface Grade {
  readonly id: string
  readonly runId: string
  /** Who gave it. */
  readonly by: string
  /** ISO 8601. */
  readonly given: string
  /** Of the list that it was given by. */
  readonly competency: string
  readonly name: string
  readonly grade: GradeStep
  /** What the step says. */
  readonly step: string
  /** Behaviours that were seen, and that were wanted and not seen, as the list words them. */
  readonly seen: readonly string[]
  readonly notSeen: readonly string[]
  /** Name of the phase that it is for; empty for the whole run. */
  readonly part: string
}

export const WHOLE_RUN = 'the whole run'

export const partName = ({ part }: Pick<Grade, 'part'>): string => (part === '' ? WHOLE_RUN : part)

/** All that one instructor gave in one run, as it is kept and handed on. */
export interface GradeSheet {
  readonly runId: string
  /** Name of the pack, and when the run began, ms since 1970: for people. */
  readonly pack: string
  readonly startedAt: number
  readonly by: string
  /** Where the list is from that was graded by. */
  readonly list: string
  /** ISO 8601; left out while grades may still change. */
  readonly finishedAt?: string
  readonly grades: readonly Grade[]
}

/** What it is a grade of; two instructors agree or not about the same. */
export const unitOf = ({ runId, competency, part }: Pick<Grade, 'runId' | 'competency' | 'part'>): string =>
  JSON.stringify([runId, competency, part])

/** Of each unit the grade that was given last, in the order in which units were first graded. */
export function lastGrades<G extends Grade>(grades: readonly G[]): G[] {
  const last = new Map<string, G>()
  for (const grade of grades.toSorted((one, other) => one.given.localeCompare(other.given)))
    last.set(unitOf(grade), grade)
  return [...last.values()]
}

export const GRADE_FIELDS: Fields<Grade> = {
  ...{ id: text, runId: text, by: text, given: text, competency: text, name: text, step: text, part: text },
  grade: oneNumberOf(GRADES),
  seen: listOf(text),
  notSeen: listOf(text),
}

export const gradeShape = object<Grade>(GRADE_FIELDS)

export const sheetShape = object<GradeSheet>({
  ...{ runId: text, pack: text, startedAt: number, by: text, list: text, finishedAt: optional(text) },
  grades: listOf(gradeShape),
})
