/**
 * Whether something was said to be so that nobody asked for: a step, a call. It is judged as an answer is; since no
 * challenge stands before it, a question, an order or a lookout in the same words is none.
 */

import { isNumberToken, type Token, type Transcript } from '../numbers/tokens.ts'
import { judge } from './judge.ts'
import { HARMLESS, HESITATIONS, OPENERS } from './lexicon.ts'
import type { Response } from './response.ts'

const words = (text: string): ReadonlySet<string> => new Set(text.split(' '))

/** With one of these begins a question. */
const ASKING = words('is are was were do does did can could may might shall should will would')
const HAVING = words('have has')
const SUBJECTS = words('we you i they')
/** With one of these begins an order. */
const ORDERING = words('put get turn switch make give bring')
/** Before "for": still to come. */
const LOOKING = words('looking look watching watch listening checking waiting ready')

/** It is asked, ordered or looked out for. */
export function isOnlyNamed(tokens: readonly Token[], { words: own, wordings }: Response): boolean {
  const said = tokens.map(({ text }) => text).filter((word) => !HESITATIONS.has(word))
  const [first = '', second = ''] = said.slice(said.findIndex((word) => !LEADING.has(word)))
  const asks = ASKING.has(first) || (HAVING.has(first) && SUBJECTS.has(second))
  const isOwnFirst = wordings.some((text) => text.split(' ')[0] === first)
  if ((asks || ORDERING.has(first)) && !isOwnFirst) return true
  return said.some((word, at) => LOOKING.has(word) && !own.has(word) && said[at + 1] === 'for')
}
const LEADING = new Set([...OPENERS, 'just'])

/** Without a value. Words of several are known beside what else a pilot says; a single one says too little for that. */
export function isAnnounced(response: Response, heard: Transcript): boolean {
  if (isOnlyNamed(heard.tokens, response)) return false
  const asked = { response, figures: {}, heard }
  const exact = judge({ ...asked, exact: true })
  if (exact.verdict !== 'sayAgain') return exact.verdict === 'correct'
  if (!exact.parts.some((part) => part.heard !== undefined)) return false
  if (heard.tokens.some((token) => isNumberToken(token) && !response.words.has(token.canon))) return false
  const { verdict, parts } = judge(asked)
  const said = parts.flatMap((part) => part.heard?.split(' ') ?? []).filter((word) => !HARMLESS.has(word))
  return verdict === 'correct' && said.length > 1
}
