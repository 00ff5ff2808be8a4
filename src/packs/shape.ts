/** A source against its schema: every mismatch as a problem with its place and what would be right. */

import type { z } from 'zod'
import type { Problem } from '../kernel/problem.ts'
import { didYouMean } from './nearest.ts'
import type { Path, Source } from './source.ts'

type Issue = z.core.$ZodIssue

/** The value in its shape, or what is wrong with it. */
export function shaped<T>(source: Source, schema: z.ZodType<T>): { readonly value?: T; readonly problems: Problem[] } {
  if (source.problems.length > 0) return { problems: [...source.problems] }
  const result = schema.safeParse(source.value, { reportInput: true })
  if (result.success) return { value: result.data, problems: [] }
  return { problems: result.error.issues.flatMap((issue) => told(source, schema, issue, [])) }
}

function told(source: Source, schema: z.ZodType, issue: Issue, above: Path): Problem[] {
  const path = [...above, ...issue.path.map((segment) => (typeof segment === 'number' ? segment : String(segment)))]
  const problem = (message: string, code = 'shape'): Problem => ({
    code,
    message,
    place: source.place(path),
    severity: 'error',
  })
  switch (issue.code) {
    case 'unrecognized_keys':
      return issue.keys.map((key) => ({
        ...problem(
          `"${key}" is not known here${didYouMean(key, keysAt(schema, source.value, path))}`,
          'shape.unknownKey',
        ),
        place: source.placeOfKey(path, key),
      }))
    case 'invalid_union':
      return union(source, schema, issue, path, problem)
    case 'invalid_type':
      return [
        problem(
          `${nameOf(path)} ${issue.input === undefined ? 'is missing' : 'is wrong'}; it should be ${article(issue.expected)}`,
        ),
      ]
    case 'invalid_value': {
      const known = issue.values.map(String)
      return [problem(`${nameOf(path)} ${shown(issue.input)} is not known${didYouMean(String(issue.input), known)}`)]
    }
    case 'invalid_format':
      return [problem(`${nameOf(path)} ${shown(issue.input)} should be a name of letters and digits without spaces`)]
    case 'too_small':
      return [problem(`${nameOf(path)} ${shown(issue.input)} is too small; it should be ${least(issue)}`)]
    case 'too_big':
      return [problem(`${nameOf(path)} ${shown(issue.input)} is too large; at most ${issue.maximum}`)]
    case 'invalid_key':
      return [problem(`${nameOf(path)} should be a name of letters and digits without spaces`)]
    default:
      return [problem(`${nameOf(path)}: ${issue.message}`)]
  }
}

type UnionIssue = Extract<Issue, { code: 'invalid_union' }>

/** A choice between shapes: by its word, or else the one that needs the fewest corrections. */
function union(
  source: Source,
  schema: z.ZodType,
  issue: UnionIssue,
  path: Path,
  problem: (message: string) => Problem,
): Problem[] {
  if (issue.discriminator !== undefined) {
    const word = path.at(-1) === issue.discriminator ? path : [...path, issue.discriminator]
    const given = valueAt(source.value, word)
    const options = ('options' in issue ? (issue.options ?? []) : []).map(String)
    if (given === undefined) return [problem(`${issue.discriminator} is missing; there are ${options.join(', ')}`)]
    return [
      {
        ...problem(`${issue.discriminator} ${shown(given)} is not known${didYouMean(String(given), options)}`),
        place: source.place(word),
      },
    ]
  }
  const best = [...issue.errors].sort((one, other) => cost(one) - cost(other))[0] ?? []
  const plain = issue.errors.every((issues) =>
    issues.every(({ code, path: at }) => code === 'invalid_type' && at.length === 0),
  )
  if (plain) {
    const expected = issue.errors.flat().map((one) => (one.code === 'invalid_type' ? article(one.expected) : ''))
    const missing = issue.input === undefined ? 'is missing' : 'is wrong'
    return [problem(`${nameOf(path)} ${missing}; it should be ${[...new Set(expected)].join(' or ')}`)]
  }
  return best.flatMap((one) => told(source, schema, one, path))
}

/** Unknown keys weigh one each; what is missing or wrong deep inside says that the shape itself was meant. */
function cost(issues: readonly Issue[]): number {
  return issues.reduce((sum, issue) => {
    if (issue.code === 'unrecognized_keys') return sum + 3 * issue.keys.length
    return sum + (issue.path.length === 0 ? 100 : issue.path.length === 1 ? 2 : 1)
  }, 0)
}

function nameOf(path: Path): string {
  const last = path.at(-1)
  if (last === undefined) return 'the file'
  return typeof last === 'number' ? `${path.at(-2) ?? 'entry'} ${last + 1}` : String(last)
}

function shown(value: unknown): string {
  return typeof value === 'object' && value !== null ? 'as written' : JSON.stringify(value)
}

const SPOKEN: Readonly<Record<string, string>> = {
  string: 'a text (numbers and yes, no in quotes)',
  number: 'a number',
  int: 'a whole number',
  boolean: 'true or false',
  array: 'a list',
  object: 'a set of names with values',
  record: 'a set of names with values',
}

function article(expected: string): string {
  return SPOKEN[expected] ?? expected
}

function least(issue: Extract<Issue, { code: 'too_small' }>): string {
  if (issue.origin === 'array') return `a list of at least ${issue.minimum}`
  if (issue.origin === 'string') return 'some text'
  return `${issue.inclusive ? 'at least' : 'more than'} ${issue.minimum}`
}

function valueAt(value: unknown, path: Path): unknown {
  return path.reduce<unknown>(
    (here, segment) => (here as Record<string | number, unknown> | null | undefined)?.[segment],
    value,
  )
}

/** The keys that the schema knows at a path, for "did you mean". */
function keysAt(schema: z.ZodType, value: unknown, path: Path): string[] {
  let candidates: z.core.$ZodType[] = [schema]
  for (const segment of path) {
    candidates = candidates.flatMap((one) => inside(one, segment)).flatMap(opened)
  }
  const here = valueAt(value, path) as Record<string, unknown> | undefined
  return [...new Set(candidates.flatMap(opened).flatMap((one) => keysOf(one, here)))]
}

/** The alternatives behind defaults, optionals and unions. */
function opened(schema: z.core.$ZodType): z.core.$ZodType[] {
  const def = schema._zod.def as { type: string; innerType?: z.core.$ZodType; options?: z.core.$ZodType[] }
  if (def.innerType) return opened(def.innerType)
  if (def.type === 'union') return (def.options ?? []).flatMap(opened)
  return [schema]
}

function inside(schema: z.core.$ZodType, segment: string | number): z.core.$ZodType[] {
  return opened(schema).flatMap((one) => {
    const def = one._zod.def as {
      shape?: Record<string, z.core.$ZodType>
      valueType?: z.core.$ZodType
      element?: z.core.$ZodType
    }
    const found = def.shape?.[segment] ?? def.valueType ?? def.element
    return found ? [found] : []
  })
}

/** The first word of an entry says what it is. */
const MARKS = ['item', 'line', 'flow', 'list', 'watch', 'exchange', 'briefing']

/** Of a union by a word (kind, by), only the shape with the word that stands there. */
function keysOf(schema: z.core.$ZodType, here: Record<string, unknown> | undefined): string[] {
  const { shape = {} } = schema._zod.def as { shape?: Record<string, z.core.$ZodType> }
  const meant = ['kind', 'by'].every((word) => {
    const values = shape[word]?._zod.values
    return !values || values.has(here?.[word] as string)
  })
  const marked = MARKS.filter((word) => word in shape)
  const fits = marked.length !== 1 || (marked[0] !== undefined && here !== undefined && marked[0] in here)
  return meant && fits ? Object.keys(shape) : []
}
