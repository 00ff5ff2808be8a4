/** A grade as an instructor sets it on the screen, and as it is kept: with the words that the list had then. */

import { type GradeStep, type GradingList, stepWords } from '../../kernel/pack/grading.ts'
import type { Grade } from '../../kernel/training/grades.ts'

export type GradeGiven = Pick<Grade, 'competency' | 'seen' | 'notSeen' | 'part'> & { readonly grade: GradeStep }

/** Undefined where the list knows no such competency. */
export function gradeFrom(
  list: GradingList,
  { competency, grade, seen, notSeen, part }: GradeGiven,
  who: Pick<Grade, 'id' | 'runId' | 'by' | 'given'>,
): Grade | undefined {
  const known = list.competencies.find(({ id }) => id === competency)
  if (!known) return undefined
  return { ...who, competency, name: known.name, grade, step: stepWords(list, grade), seen, notSeen, part }
}
