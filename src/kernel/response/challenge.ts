/** The challenge said before the answer, as many pilots do: taken off first, digits and all. */

import { isLittle, type Token } from '../numbers/tokens.ts'
import { HESITATIONS } from './lexicon.ts'

/** Small words before an echo: "and the takeoff trim is". None of them can be an answer, as "both" can. */
const LEADING = new Set(
  'and the our my so now then ok okay yes yeah yep yup alright well roger copy sir captain please just for on at aye'.split(
    ' ',
  ),
)

/** The answer after the challenge's words, where these come first; hesitations before them do not matter. */
export function withoutChallenge(tokens: readonly Token[], challenge: readonly Token[]): readonly Token[] {
  if (challenge.length === 0) return tokens
  let from = 0
  for (;;) {
    const end = echoEnd(tokens, challenge, from)
    if (end === from) return from === 0 ? tokens : tokens.slice(from)
    from = end
  }
}

/** End of an echo that begins at `from` or after words that say nothing; `from` where there is none. */
function echoEnd(tokens: readonly Token[], challenge: readonly Token[], from: number): number {
  for (let begin = from; begin < tokens.length; begin++) {
    const end = matchEnd(tokens, challenge, begin)
    if (end > begin) return end
    const token = tokens[begin] as Token
    // "For" is no four where the challenge follows.
    const isNumber = token.number !== undefined && !isLittle(token)
    if (isNumber || !(HESITATIONS.has(token.text) || LEADING.has(token.text))) return from
  }
  return from
}

/** Compared without spaces, so that "take off trim" is "takeoff trim". */
function matchEnd(tokens: readonly Token[], challenge: readonly Token[], begin: number): number {
  const wanted = challenge.map(({ canon }) => canon).join('')
  let done = 0
  for (const [index, { canon, text }] of tokens.slice(begin).entries()) {
    if (wanted.startsWith(canon, done)) {
      done += canon.length
      if (done === wanted.length) return begin + index + 1
    } else if (!HESITATIONS.has(text)) return begin
  }
  return begin
}
