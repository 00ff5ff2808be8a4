/** How a message names a part of a file, what stands there, and what should. */

import type { z } from 'zod'
import { formatNumber } from '../kernel/figures/format.ts'
import { quoted } from '../kernel/quoted.ts'
import type { Path } from './source.ts'

type Issue = z.core.$ZodIssue

/** "challenge", `entry 2 of "steps"`, `entry 1 of entry 5 of "cells"`. */
export function nameOf(path: Path): string {
  const [last, above] = [path.at(-1), path.slice(0, -1)]
  if (last === undefined) return 'the file'
  if (typeof last === 'string') return /^[\w'-]{1,40}$/.test(last) ? last : quoted(last)
  const whose = above.at(-1)
  return `entry ${last + 1} of ${typeof whose === 'string' ? quoted(whose) : nameOf(above)}`
}

/** "min is the text "15,000"; it should be a number". */
export function shouldBe(name: string, given: unknown, expected: readonly string[]): string {
  const isOnlyUnquoted =
    (typeof given === 'number' || typeof given === 'boolean') && expected.every((one) => one === TEXT)
  return `${name} is ${described(given)}; it should be ${alternatives(expected)}${isOnlyUnquoted ? ', in quotes' : ''}`
}

function described(given: unknown): string {
  if (given === undefined) return 'missing'
  if (given === null) return 'empty'
  if (Array.isArray(given)) return 'a list'
  if (typeof given === 'string') return `the text ${quoted(given)}`
  if (typeof given === 'number') return Number.isFinite(given) ? `the number ${given}` : 'beyond all numbers'
  return typeof given === 'object' ? 'a set of names with values' : String(given)
}

/** "a, b or c", each once. */
export function alternatives(names: readonly string[]): string {
  const each = [...new Set(names)]
  const last = each.pop() ?? ''
  return each.length === 0 ? last : `${each.join(', ')} or ${last}`
}

const TEXT = 'a text'
const TYPES: Readonly<Record<string, string>> = {
  string: TEXT,
  number: 'a number',
  int: 'a whole number',
  boolean: 'true or false',
  array: 'a list',
  object: 'a set of names with values',
  record: 'a set of names with values',
}

/** What the schema asks for at this place. */
export function should(issue: Issue): string {
  switch (issue.code) {
    case 'invalid_type':
      return TYPES[issue.expected] ?? issue.expected
    case 'too_small':
      if (issue.origin === 'array') return `is too short; it should be a list of at least ${issue.minimum}`
      if (issue.origin === 'string') return 'is empty; it should be some text'
      return `${issue.input} is too small; it should be ${least(issue)}`
    case 'too_big':
      if (issue.origin === 'array') return `is too long; it should be a list of at most ${issue.maximum}`
      if (issue.origin === 'string') return `is too long; it should have at most ${issue.maximum} letters`
      return `${issue.input} is too large; it should be at most ${formatNumber(Number(issue.maximum))}`
    default:
      return issue.message
  }
}

function least({ minimum, input }: Extract<Issue, { code: 'too_small' }>): string {
  const isTiny = Number(minimum) > 0 && Number(minimum) < 1 && Number(input) <= 0
  return isTiny ? 'more than 0' : `at least ${Number(minimum) < 0 ? formatNumber(Number(minimum)) : minimum}`
}
