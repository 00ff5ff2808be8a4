/**
 * A response as it is used: its text parsed once, with all that follows from the text alone. A pack holds these, so that
 * nobody has to ask again whether a text parses.
 */

import { tokensOf } from '../numbers/tokens.ts'
import { type Expansion, figuresOf, type Least, leastOf, wordsOf } from './expansion.ts'
import { parseExpansion, type ResponseProblem } from './parse.ts'
import { type Path, pathsOf } from './path.ts'

export interface Response {
  /** In the notation, as it was written. */
  readonly text: string
  readonly tree: Expansion
  /** Names of its figures, each once, in order. */
  readonly figures: readonly string[]
  /** Its words, figures aside: each phrase between figures in every way it can be said. */
  readonly wordings: readonly string[]
  readonly least: Least
  /** Every word of its text as it is compared, names of figures and tags too. */
  readonly words: ReadonlySet<string>
  /** Every way through it. */
  readonly paths: readonly Path[]
}

export type ParsedResponse = { readonly response: Response } | { readonly problems: readonly ResponseProblem[] }

/** Parses what somebody wrote; all problems are returned together. */
export function parseResponse(text: string): ParsedResponse {
  const parsed = parseExpansion(text)
  return 'tree' in parsed ? { response: responseOfTree(text, parsed.tree) } : parsed
}

/** A response that is known to parse: one of the code's own, or one that was checked. Throws where it does not. */
export function responseFrom(text: string): Response {
  const parsed = parseResponse(text)
  if ('response' in parsed) return parsed.response
  throw new Error(`"${text}" is no response: ${parsed.problems.map(({ message }) => message).join('; ')}`)
}

function responseOfTree(text: string, tree: Expansion): Response {
  return {
    text,
    tree,
    figures: figuresOf(tree),
    wordings: wordsOf(tree),
    least: leastOf(tree),
    words: new Set(tokensOf(text).map(({ canon }) => canon)),
    paths: pathsOf(tree),
  }
}

/** Any one of some responses. */
export function anyOf(responses: readonly Response[]): Response {
  const [only] = responses
  if (only && responses.length === 1) return only
  const options = responses.flatMap(({ tree }) =>
    tree.type === 'either' && tree.tag === undefined ? tree.options : tree,
  )
  return responseOfTree(responses.map(({ text }) => text).join(' | '), { type: 'either', options })
}

/** What may be said: the figure alone, or nothing. */
export function optionalFigures(names: readonly string[]): Response {
  const parts = names.map((name): Expansion => ({ type: 'optional', part: { type: 'figure', name } }))
  return responseOfTree(names.map((name) => `[<${name}>]`).join(' '), { type: 'sequence', parts })
}

/** Asks for nothing, and no answer fits it. */
export const NOTHING: Response = {
  text: '',
  tree: { type: 'sequence', parts: [] },
  figures: [],
  wordings: [],
  least: { values: 0, parts: 0 },
  words: new Set(),
  paths: [],
}

interface Joined {
  readonly response: Response
  /** With one more response behind it. */
  readonly longer: WeakMap<Response, Joined>
}
const joined = new WeakMap<Response, Joined>()

/** Some responses, one after the other, as one; the same object for the same responses. */
export function allOf([first, ...rest]: readonly Response[]): Response {
  if (!first) return NOTHING
  const begin = joined.get(first) ?? { response: first, longer: new WeakMap() }
  joined.set(first, begin)
  return rest.reduce((head, response) => {
    const known = head.longer.get(response) ?? { response: both(head.response, response), longer: new WeakMap() }
    head.longer.set(response, known)
    return known
  }, begin).response
}

function both(one: Response, other: Response): Response {
  const parts = [one, other].flatMap(({ tree }) =>
    tree.type === 'sequence' && tree.tag === undefined ? tree.parts : tree,
  )
  const text = [one, other].map((each) => (each.tree.type === 'either' ? `(${each.text})` : each.text)).join(' ')
  return responseOfTree(text, { type: 'sequence', parts })
}
