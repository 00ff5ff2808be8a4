/** A line of `judge`'s input in its shape; or the first thing that is wrong with it, in one sentence. */

import type { z } from 'zod'
import { judgeLine } from './judgeSchema.ts'

export type JudgeFields = z.infer<typeof judgeLine>

export function judgeInput(line: unknown): { readonly fields: JudgeFields } | { readonly error: string } {
  const result = judgeLine.safeParse(line, { reportInput: true })
  if (result.success) return { fields: result.data }
  const [issue] = result.error.issues
  return { error: issue ? sentence(issue) : 'the line is no valid input' }
}

function sentence(issue: z.core.$ZodIssue): string {
  const isKind = issue.code === 'invalid_union' && issue.discriminator === 'kind'
  const input = isKind ? (issue.input as { kind?: unknown } | undefined)?.kind : issue.input
  const name = nameOf(issue.path)
  if (issue.code === 'custom') return `${name} ${issue.message}`
  if (input === undefined) return `${name} is missing; it ${shouldBe(issue)}`
  return `${name} ${shouldBe(issue)}${shown(input)}`
}

/** "decimals" of figure "trim"; elsewhere the path itself. */
function nameOf(path: readonly PropertyKey[]): string {
  const [first, second, ...rest] = path.map((name) => String(name).slice(0, MOST_LETTERS))
  if (first === undefined) return 'the line'
  if (first !== 'figures' || second === undefined)
    return `"${[first, second, ...rest].filter((name) => name !== undefined).join('.')}"`
  return rest.length === 0 ? `figure "${second}"` : `"${rest.join('.')}" of figure "${second}"`
}

const MOST_LETTERS = 40

/** What stands there, if that is short. */
function shown(input: unknown): string {
  if (typeof input === 'string') return `, not ${JSON.stringify(input.slice(0, MOST_LETTERS))}`
  return typeof input === 'object' || (typeof input === 'number' && !Number.isFinite(input)) ? '' : `, not ${input}`
}

function shouldBe(issue: z.core.$ZodIssue): string {
  switch (issue.code) {
    case 'invalid_type':
      return `should be ${EXPECTED.get(issue.expected) ?? issue.expected}`
    case 'invalid_value':
      return `should be ${anyOf(issue.values)}`
    case 'invalid_union':
      return 'options' in issue && Array.isArray(issue.options) ? `should be ${anyOf(issue.options)}` : issue.message
    case 'too_small':
      if (typeof issue.input !== 'number') return 'should not be empty'
      return `should be ${issue.inclusive ? 'at least' : 'more than'} ${issue.minimum}`
    case 'too_big':
      return `should be at most ${issue.maximum}`
    default:
      return issue.message
  }
}

const anyOf = (values: readonly unknown[]) => `${values.length > 1 ? 'one of ' : ''}${values.map(String).join(', ')}`

/** Types as the schema's library names them -> as people do. */
const EXPECTED = new Map([
  ['string', 'text'],
  ['number', 'a finite number'],
  ['int', 'a whole number'],
  ['boolean', 'true or false'],
  ['array', 'a list'],
  ['object', 'an object'],
  ['record', 'an object'],
])
