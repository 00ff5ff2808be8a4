/** By what an instructor grades: competencies, each with behaviours that can be seen, and the five steps of a grade. */

/** Steps of a grade, from 1. */
export const GRADES = [1, 2, 3, 4, 5] as const
export type GradeStep = (typeof GRADES)[number]

export interface Competency {
  /** Short, as in "COM". */
  readonly id: string
  readonly name: string
  /** One sentence each. */
  readonly behaviours: readonly string[]
}

export interface GradingList {
  /** Where it is from, as it is shown beside it. */
  readonly source: string
  /** What each step says, from 1 on. */
  readonly scale: readonly string[]
  readonly competencies: readonly Competency[]
}

/** What a step of the list says. */
export const stepWords = ({ scale }: GradingList, grade: GradeStep): string => scale[grade - 1] ?? ''
