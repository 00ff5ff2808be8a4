/** One's own grades beside those of each other instructor: of one run, and of all runs that both have graded. */

import { type Comparison, compared } from '../../kernel/training/agreement.ts'
import type { KeptSheet } from '../../ports.ts'

export interface RaterComparison {
  readonly by: string
  readonly here: Comparison
  /** Runs that both have graded. */
  readonly runs: number
  /** Of all of them; undefined where this is the only one. */
  readonly everywhere: Comparison | undefined
}

/** With those who graded this run. Grades that may still change are compared with nobody's. */
export function comparisonsOf(sheets: readonly KeptSheet[], runId: string): RaterComparison[] {
  const finished = sheets.filter(({ finishedAt }) => finishedAt !== undefined)
  const own = new Map(finished.flatMap((sheet) => (sheet.isOwn ? [[sheet.runId, sheet] as const] : [])))
  const mine = own.get(runId)
  if (!mine) return []
  const others = finished.filter((sheet) => !sheet.isOwn && own.has(sheet.runId))
  return others
    .filter((sheet) => sheet.runId === runId)
    .map(({ by, grades }) => {
      const theirs = others.filter((sheet) => sheet.by === by)
      const isMany = theirs.length > 1
      return {
        ...{ by, here: compared(mine.grades, grades), runs: theirs.length },
        everywhere: isMany
          ? compared(
              theirs.flatMap((sheet) => own.get(sheet.runId)?.grades ?? []),
              theirs.flatMap((sheet) => sheet.grades),
            )
          : undefined,
      }
    })
}
