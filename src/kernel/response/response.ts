/**
 * A response: its text parsed once, with all that follows from the text alone. A pack holds these, so nothing after it has
 * to ask whether a text parses.
 */

import { tokensOf } from '../numbers/tokens.ts'
import { type Expansion, figuresOf, type Least, leastOf, wordsOf } from './expansion.ts'
import { isEmpty, NO_SYNONYMS, type Synonyms, withSynonyms } from './packSynonyms.ts'
import { parseExpansion, type ResponseProblem } from './parse.ts'
import { type Path, pathsOf } from './path.ts'

export interface Response {
  /** In the notation, as it was written. */
  readonly text: string
  /** With the author's synonyms. */
  readonly tree: Expansion
  /** The author's own words, besides those of the trade. */
  readonly synonyms: Synonyms
  /** Names of its figures, each once, in order. */
  readonly figures: readonly string[]
  /** Its words without the figures: each phrase between them in every way it can be said. */
  readonly wordings: readonly string[]
  readonly least: Least
  /** Every word of its text and of its wordings as it is compared, names of figures and tags too. */
  readonly words: ReadonlySet<string>
  /** Every way through it. */
  readonly paths: readonly Path[]
}

export type ParsedResponse = { readonly response: Response } | { readonly problems: readonly ResponseProblem[] }

/** Parses what somebody wrote; all problems are returned together. */
export function parseResponse(text: string, synonyms = NO_SYNONYMS): ParsedResponse {
  const parsed = parseExpansion(text)
  return 'tree' in parsed ? { response: responseOfTree(text, withSynonyms(parsed.tree, synonyms), synonyms) } : parsed
}

/** A response that is known to parse: one of the code's own, or one that was checked. Throws where it does not. */
export function responseFrom(text: string, synonyms = NO_SYNONYMS): Response {
  const parsed = parseResponse(text, synonyms)
  if ('response' in parsed) return parsed.response
  throw new Error(`"${text}" is no response: ${parsed.problems.map(({ message }) => message).join('; ')}`)
}

function responseOfTree(text: string, tree: Expansion, synonyms = NO_SYNONYMS): Response {
  const wordings = wordsOf(tree)
  return {
    text,
    tree,
    synonyms,
    figures: figuresOf(tree),
    wordings,
    least: leastOf(tree),
    words: new Set([text, ...(isEmpty(synonyms) ? [] : wordings)].flatMap(canonsOf)),
    paths: pathsOf(tree),
  }
}

const canonsOf = (text: string) => tokensOf(text).map(({ canon }) => canon)

/** Any one of some responses. */
export function anyOf(responses: readonly Response[]): Response {
  const [only] = responses
  if (only && responses.length === 1) return only
  const options = responses.flatMap(({ tree }) =>
    tree.type === 'either' && tree.tag === undefined ? tree.options : tree,
  )
  return responseOfTree(responses.map(({ text }) => text).join(' | '), { type: 'either', options }, only?.synonyms)
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
  synonyms: NO_SYNONYMS,
  least: { values: 0, parts: 0 },
  words: new Set(),
  paths: [],
}

interface Joined {
  readonly response: Response
  /** With one more response after it. */
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
  // All responses of a pack have the same.
  return responseOfTree(text, { type: 'sequence', parts }, one.synonyms)
}
