/** "Right, I've got ...": a word with which people begin to speak, and no side. */

import type { Token } from '../numbers/tokens.ts'
import { HESITATIONS } from './lexicon.ts'

/** What follows it then: whoever means a side says what is right of what. */
const FOLLOWERS: ReadonlySet<string> = new Set(
  `the i i've i'm i'll we we've we're we'll it's its that's this so okay ok then well yes yeah yep let let's now and cleared taxi
  taxiing holding`.split(/\s+/),
)

/** `ownsRight`: the answer itself may say "right". */
export function withoutOpening(tokens: readonly Token[], ownsRight: boolean): readonly Token[] {
  if (ownsRight) return tokens
  const isSound = ({ text }: Token) => HESITATIONS.has(text)
  const first = tokens.findIndex((token) => !isSound(token))
  const next = tokens.slice(first + 1).find((token) => !isSound(token))
  const opens = tokens[first]?.text === 'right' && next !== undefined && FOLLOWERS.has(next.text)
  return opens ? tokens.slice(first + 1) : tokens
}
