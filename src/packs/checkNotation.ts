/** Texts in the response notation as a pack has them: parsed, or reported at the place in the file where they go wrong. */

import type { Problem } from '../kernel/problem.ts'
import { NOTHING, parseResponse, type Response } from '../kernel/response/response.ts'
import { anyWayOf } from './buildExchange.ts'
import { tooManyWays } from './responseBounds.ts'
import type { Path, Source } from './source.ts'

/** Texts that have been read: while a pack is being written nearly all of them stay as they are. */
const known = new Map<string, ReturnType<typeof parseResponse>>()
const MOST_KNOWN = 4_000

function parsedOf(text: string): ReturnType<typeof parseResponse> {
  const found = known.get(text) ?? parseResponse(text)
  if (known.size >= MOST_KNOWN) known.clear()
  known.set(text, found)
  return found
}

/** The text at `path`; `what` names it for its author. */
export function responseAt(source: Source, text: string, path: Path, what: string): Response | readonly Problem[] {
  const parsed = parsedOf(text)
  if ('response' in parsed) {
    const tooMany = tooManyWays(parsed.response.tree)
    if (tooMany === undefined) return parsed.response
    return [{ code: 'response.large', message: `${what}: ${tooMany}`, place: source.place(path), severity: 'error' }]
  }
  // One slip makes what stands behind it look wrong too.
  return parsed.problems.slice(0, 1).map(({ message, offset }) => ({
    code: 'response.malformed',
    message: `${what}: ${message}`,
    place: source.placeInText(path, offset),
    severity: 'error',
  }))
}

/** For what else is to be checked: a text that does not parse was reported, and asks for nothing. */
export function responseOrNothing(text: string): Response {
  const parsed = parsedOf(text)
  return 'response' in parsed ? parsed.response : NOTHING
}

/** Ways to say something that has no value: each parses, and holds no figure, for nothing would compare it. */
export function sayingProblems(source: Source, texts: readonly string[], path: Path, what = 'say'): Problem[] {
  const problems = texts.flatMap((text, index) => {
    const at: Path = [...path, index]
    const response = responseAt(source, text, at, what)
    if (!('figures' in response)) return response
    return response.figures.map((name) => ({
      code: 'saying.figure',
      message: `${what}: <${name}> is not compared with anything here; use words`,
      place: source.placeInText(at, text.indexOf(`<${name}>`)),
      severity: 'error' as const,
    }))
  })
  const tooMany = problems.length > 0 ? undefined : tooManyWays(anyWayOf(texts).tree)
  if (tooMany === undefined) return problems
  return [{ code: 'response.large', message: `${what}: ${tooMany}`, place: source.place(path), severity: 'error' }]
}
