/** A source against its schema: every mismatch as a problem with its place and what would be right. */

import type { z } from 'zod'
import { MOST_COLLECTED } from '../kernel/bounds.ts'
import type { Problem } from '../kernel/problem.ts'
import { quoted } from '../kernel/quoted.ts'
import { didYouMean, nearest } from './nearest.ts'
import { keysAt, MARKS, valueAt } from './shapeKeys.ts'
import { nameOf, should, shouldBe } from './shapeWords.ts'
import type { Path, Source } from './source.ts'
import { fewOf } from './telling.ts'
import { unitMeant } from './unitMeant.ts'

type Issue = z.core.$ZodIssue

/** An issue that holds no others, and where it is. */
interface Found {
  readonly issue: Issue
  readonly path: Path
}

/** The value in its shape, or what is wrong with it. */
export function shaped<T>(source: Source, schema: z.ZodType<T>): { readonly value?: T; readonly problems: Problem[] } {
  if (source.problems.length > 0) return { problems: [...source.problems] }
  const result = schema.safeParse(source.value, { reportInput: true })
  if (result.success) return { value: result.data, problems: [] }
  const found = result.error.issues.flatMap((issue) => plain(issue, [])).slice(0, MOST_COLLECTED)
  const misspelt = new Set<string>()
  const unknown = found.flatMap(({ issue, path }) => {
    if (issue.code !== 'unrecognized_keys') return []
    const known = keysAt(schema, source.value, path)
    for (const key of issue.keys) {
      const meant = nearest(key, known)
      if (meant !== undefined) misspelt.add([...path, meant].join('\n'))
    }
    return unknownKeys(source, path, issue.keys, known)
  })
  const others = found.filter(({ issue, path }) => {
    // What is missing under its right name stands there under the wrong one.
    const isMisspelt = issue.input === undefined && misspelt.has(path.join('\n'))
    return issue.code !== 'unrecognized_keys' && !isMisspelt
  })
  return { problems: [...others.map((one) => problemOf(source, one)), ...unknown] }
}

/** Of a choice between shapes, the issues of the one that needs the fewest corrections. */
function plain(issue: Issue, above: Path): readonly Found[] {
  const path = [...above, ...issue.path.map((segment) => (typeof segment === 'number' ? segment : String(segment)))]
  if (issue.code !== 'invalid_union' || issue.discriminator !== undefined || isOfTypes(issue)) return [{ issue, path }]
  const best = [...issue.errors].sort((one, other) => cost(one) - cost(other))[0] ?? []
  return best.flatMap((one) => plain(one, path))
}

/** A unit as crews and cards write it is known by that too: "volts", "ft-lb". */
function meantBy(name: string, given: string, known: readonly string[]): string {
  const unit = name === 'unit' ? unitMeant(given) : undefined
  return unit !== undefined && known.includes(unit) ? didYouMean(unit, [unit]) : didYouMean(given, known)
}

/** What to write for a slip that many make; undefined for others. */
function inStead(name: string, given: unknown, expected: string): string | undefined {
  if (name === 'read' && given === null) {
    return 'read is empty; write {} where it is only noted, or where it must lie: {min: 40}'
  }
  const isOne = expected === 'array' && (typeof given === 'string' || typeof given === 'number')
  if (!isOne) return undefined
  const shown =
    typeof given === 'number' || /^[A-Za-z][A-Za-z0-9]*$/.test(given) ? String(given) : JSON.stringify(given)
  return shown.length > 40 ? undefined : `${name} should be a list, also of one: [${shown}]`
}

type UnionIssue = Extract<Issue, { code: 'invalid_union' }>

/** No shape fits at all: it should be of another type. */
function isOfTypes({ errors }: UnionIssue): boolean {
  return errors.flat().every(({ code, path }) => code === 'invalid_type' && path.length === 0)
}

/** Unknown keys weigh three each; what is wrong deep inside says that the shape itself was meant, a mark missing that not. */
function cost(issues: readonly Issue[]): number {
  return issues.reduce((sum, issue) => {
    if (issue.input === undefined && MARKS.includes(issue.path.join('.'))) return sum + 1_000_000
    if (issue.code === 'unrecognized_keys') return sum + 3 * issue.keys.length
    return sum + (issue.path.length === 0 ? 100 : issue.path.length === 1 ? 2 : 1)
  }, 0)
}

function unknownKeys(source: Source, path: Path, keys: readonly string[], known: readonly string[]): Problem[] {
  const problem = (key: string, message: string): Problem => ({
    code: 'shape.unknownKey',
    message,
    place: source.placeOfKey(path, key),
    severity: 'error',
  })
  return fewOf(
    keys.map((key) => problem(key, strangeKey(key, known))),
    (count) => `and ${count} more names from here on are not known`,
  )
}

function problemOf(source: Source, { issue, path }: Found): Problem {
  const problem = (message: string, at: Path = path): Problem => ({
    code: 'shape',
    message,
    place: source.place(at),
    severity: 'error',
  })
  const name = nameOf(path)
  switch (issue.code) {
    case 'invalid_union':
      return issue.discriminator === undefined
        ? problem(shouldBe(name, issue.input, issue.errors.flat().map(should)))
        : wrongWord(source, issue, path, problem)
    case 'invalid_type':
      return problem(inStead(name, issue.input, issue.expected) ?? shouldBe(name, issue.input, [should(issue)]))
    case 'invalid_value': {
      const known = issue.values.map(String)
      return problem(
        typeof issue.input === 'string'
          ? `${name} ${quoted(issue.input)} is not known${meantBy(name, issue.input, known)}`
          : shouldBe(name, issue.input, known),
      )
    }
    case 'invalid_key': {
      const key = String(path.at(-1))
      const message = `${quoted(key)} ${issue.issues[0]?.message ?? 'cannot be a name here'}`
      return { ...problem(message), place: source.placeOfKey(path.slice(0, -1), key) }
    }
    case 'too_small':
    case 'too_big':
      return problem(`${name} ${should(issue)}`)
    default: {
      const { input } = issue
      if (typeof input === 'string' && /^-?[\d.,']+$/.test(input) && /name of letters/.test(issue.message)) {
        return problem(
          `${name} is the text ${quoted(input)}; it should be a number as it is, ${input.replace(/[,']/g, '')}, or a name`,
        )
      }
      return problem(`${name} ${typeof input === 'string' ? quoted(input) : ''} ${issue.message}`)
    }
  }
}

/** The word that says which of several shapes is meant. */
function wrongWord(
  source: Source,
  issue: UnionIssue,
  path: Path,
  problem: (message: string, at: Path) => Problem,
): Problem {
  const { discriminator = '' } = issue
  const word = path.at(-1) === discriminator ? path : [...path, discriminator]
  const given = valueAt(source.value, word)
  const options = ('options' in issue ? (issue.options ?? []) : []).map(String)
  if (given === undefined) return problem(`${discriminator} is missing; there are ${options.join(', ')}`, path)
  if (typeof given !== 'string') return problem(shouldBe(discriminator, given, options), word)
  return problem(`${discriminator} ${quoted(given)} is not known${didYouMean(given, options)}`, word)
}

/** A name that another form of the same thing has is known, but not beside these. */
function strangeKey(key: string, known: readonly string[]): string {
  if (known.includes(key)) return `${quoted(key)} does not go with the other names here`
  return `${quoted(key)} is not known here${didYouMean(key, known)}`
}
