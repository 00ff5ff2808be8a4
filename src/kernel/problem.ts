/**
 * One problem in something a person wrote (a pack, inputs, a line on standard input): where it is,
 * what is wrong, and what would be right. Problems are collected and returned, never thrown.
 */

export interface Place {
  readonly file: string
  /** 1-based. */
  readonly line: number
  /** 1-based. */
  readonly column: number
}

export interface Problem {
  /** Stable, for tests: `figure.unknown`, `table.notMonotonic`, ... */
  readonly code: string
  readonly message: string
  /** For the voice, without a value: "landing weight over limit". */
  readonly short?: string
  readonly place?: Place
  /** Advice does not fail a check. */
  readonly severity: 'error' | 'advice'
}

export function isError(problem: Problem): boolean {
  return problem.severity === 'error'
}
