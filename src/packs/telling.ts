/** What a person is told of many problems: one mistake once, and no more than can be read. */

import { MOST_NAMED, MOST_TOLD } from '../kernel/bounds.ts'
import { isError, type Problem } from '../kernel/problem.ts'
import { grouped } from './grouped.ts'

export function told(problems: readonly Problem[]): Problem[] {
  const each = onceEach(problems)
  if (each.length <= MOST_TOLD) return each
  // Errors first: advice must not hide that something is wrong.
  const kept = new Set([...each.filter(isError), ...each.filter((one) => !isError(one))].slice(0, MOST_TOLD))
  const left = each.length - kept.size
  const { place } = each.at(-1) ?? {}
  const rest: Problem = {
    code: 'problems.more',
    message: `and ${left} more; what stands above may be the cause of many`,
    severity: each.filter(isError).length > 0 ? 'error' : 'advice',
    ...(place && { place }),
  }
  return [...each.filter((one) => kept.has(one)), rest]
}

const MOST_LINES = 5

/** Of these the same words at another place come of the same mistake. */
const ONE_CAUSE = /\.(unknown|unset|hole)$/

/** A name that is not known is one mistake wherever it is used: told at the first place, with the lines of the others. */
function onceEach(problems: readonly Problem[]): Problem[] {
  const uses = grouped(
    problems.map((problem, index) => ({ problem, index })),
    ({ problem, index }) => (ONE_CAUSE.test(problem.code) ? keyOf(problem) : String(index)),
  )
  return [...uses.values()].flatMap(([first, ...others]) =>
    first
      ? [
          withLines(
            first.problem,
            others.map(({ problem }) => problem),
          ),
        ]
      : [],
  )
}

function keyOf({ code, message, place }: Problem): string {
  return [code, place?.file, message].join('\n')
}

function withLines(first: Problem, others: readonly Problem[]): Problem {
  const lines = [...new Set(others.map(({ place }) => place?.line))].filter((line) => line !== first.place?.line)
  if (lines.length === 0) return first
  const named = lines.slice(0, MOST_LINES).join(', ')
  const more = lines.length > MOST_LINES ? ` and ${lines.length - MOST_LINES} more` : ''
  return { ...first, message: `${first.message} (also on ${lines.length === 1 ? 'line' : 'lines'} ${named}${more})` }
}

/** The first few of a kind, and at the place of the next how many more there are. */
export function fewOf(problems: readonly Problem[], whatMore: (count: number) => string): Problem[] {
  const [next, ...rest] = problems.slice(MOST_NAMED)
  if (!next) return [...problems]
  return [...problems.slice(0, MOST_NAMED), { ...next, message: whatMore(rest.length + 1) }]
}
