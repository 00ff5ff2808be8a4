/** One line of `judge`'s input -> what the kernel judges, or what is wrong with the line. */

import type { Judged } from '../kernel/kinds/kind.ts'
import { hypothesesOf } from '../kernel/response/hypotheses.ts'
import type { JudgeInput } from '../kernel/response/model.ts'
import { type ParsedResponse, parseResponse, type Response } from '../kernel/response/response.ts'
import { judgeInput } from '../packs/judgeInput.ts'

type Id = string | number | null | undefined
export type JudgeLine =
  | { readonly id: Id; readonly input: JudgeInput; readonly explain: boolean }
  | { readonly id: Id; readonly error: string }

/** Reads one line; never throws. The `id` comes back as it was given, null where it is neither text nor a number. */
export function readJudgeLine(line: string): JudgeLine {
  const json = parsedJson(line)
  if ('error' in json) return { id: null, error: json.error }
  const id = idOf(json.value)
  const read = judgeInput(json.value)
  if ('error' in read) return { id: id ?? null, error: read.error }
  const found = responseWith(read.fields.response, read.fields.figures)
  if ('error' in found) return { id: id ?? null, error: found.error }
  const { heard, score, alternatives, explain = false, ...asked } = read.fields
  const hypotheses = hypothesesOf({
    text: heard,
    ...(score !== undefined && { score }),
    ...(alternatives && { alternatives }),
  })
  return { id, explain, input: { ...asked, ...hypotheses, response: found.response } }
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
const parsed = new Map<string, Response>()
/** A stream of lines has few; of a stream where each has its own, not all are kept. */
const MOST_KEPT = 500

function parsedOnce(text: string): ParsedResponse {
  const known = parsed.get(text)
  if (known) return { response: known }
  const result = parseResponse(text)
  if ('response' in result) {
    if (parsed.size >= MOST_KEPT) parsed.clear()
    parsed.set(text, result.response)
  }
  return result
}

/** The response with the figures that it names handed in; or what is wrong with it. */
function responseWith(text: string, figures: Judged): { readonly response: Response } | { readonly error: string } {
  const result = parsedOnce(text)
  if ('problems' in result) {
    return {
      error: `"response" at ${result.problems.map(({ message, offset }) => `${offset + 1}: ${message}`).join('; ')}`,
    }
  }
  const missing = result.response.figures.find((name) => !Object.hasOwn(figures, name))
  return missing === undefined ? result : { error: `"response" uses <${missing}>, which is not among "figures"` }
}
