/** One line of `judge`'s input -> what the kernel judges, or what is wrong with the line. */

import type { Figure } from '../kernel/kinds/kind.ts'
import type { JudgeInput } from '../kernel/response/model.ts'
import { figuresOf, parseResponse } from '../kernel/response/parse.ts'
import { judgeInput } from '../packs/judgeInput.ts'
import { present } from '../packs/present.ts'

type Id = string | number | null | undefined
export type JudgeLine = { readonly id: Id; readonly input: JudgeInput } | { readonly id: Id; readonly error: string }

/** Reads one line; never throws. The `id` comes back as it was given, null where it is neither text nor a number. */
export function readJudgeLine(line: string): JudgeLine {
  const json = parsedJson(line)
  if ('error' in json) return { id: null, error: json.error }
  const id = idOf(json.value)
  const read = judgeInput(json.value)
  if ('error' in read) return { id: id ?? null, error: read.error }
  const { response, figures } = read.fields
  const problem = problemOf(response, figures)
  if (problem !== undefined) return { id: id ?? null, error: problem }
  return { id, input: present(read.fields) }
}

function parsedJson(line: string): { readonly value: unknown } | { readonly error: string } {
  try {
    return { value: JSON.parse(line) }
  } catch (error) {
    return { error: `not JSON: ${error instanceof Error ? error.message : String(error)}` }
  }
}

function idOf(value: unknown): Id {
  if (typeof value !== 'object' || value === null || !('id' in value)) return undefined
  return typeof value.id === 'string' || typeof value.id === 'number' ? value.id : null
}

/** Responses parsed once, not at every line. */
const parsed = new Map<string, { readonly figures: readonly string[]; readonly problem?: string }>()
/** A stream of lines has few; of a stream where each has its own, not all are kept. */
const MOST_KEPT = 500

function parsedOnce(response: string) {
  const known = parsed.get(response)
  if (known) return known
  const found = parseResponse(response)
  const made =
    'response' in found
      ? { figures: figuresOf(found.response) }
      : { figures: [], problem: found.problems.map(({ message, offset }) => `${offset + 1}: ${message}`).join('; ') }
  if (parsed.size >= MOST_KEPT) parsed.clear()
  parsed.set(response, made)
  return made
}

/** What is wrong with a response, by itself or with the figures that were handed in. */
function problemOf(response: string, figures: Readonly<Record<string, Figure>>): string | undefined {
  const { figures: names, problem } = parsedOnce(response)
  if (problem !== undefined) return `"response" at ${problem}`
  const missing = names.find((name) => !Object.hasOwn(figures, name))
  return missing === undefined ? undefined : `"response" uses <${missing}>, which is not among "figures"`
}
