/** "Yes" and "no", where a question may be answered so. */

import { isNumberToken, type Token } from '../numbers/tokens.ts'
import { HESITATIONS, isNegation, isStateWord, OPENERS } from './lexicon.ts'

/** What of it is listened for. */
export const YES_HEARD = ['yes', 'affirm', 'affirmative'] as const
export const NO_HEARD = ['no', 'negative'] as const

const YES: ReadonlySet<string> = new Set('yes yeah yep yup yah aye affirm affirmative sure absolutely'.split(' '))
const NO: ReadonlySet<string> = new Set('no nope nah naw negative'.split(' '))
/** Before the answer. */
const BEFORE: ReadonlySet<string> = new Set([...OPENERS, 'oh', 'actually'])
/** Behind a "yes" these make something else of it. */
const AGAINST_YES: ReadonlySet<string> = new Set(
  'but later after afterwards skip leave instead carry continue wait except other another hold'.split(' '),
)
/** "No problem, do that first" is none. */
const AGAINST_NO: ReadonlySet<string> = new Set('problem problems worries but sorry'.split(' '))
/** States that a longer answer may speak of: "yes, let's start the right engine first", "no, carry on". */
const SAID_OF_IT: ReadonlySet<string> = new Set('right left on off start started first'.split(' '))
/** "No flaps up" answers nothing that was asked. */
const isOfAnything = (token: Token) => isNumberToken(token) || (isStateWord(token.text) && !SAID_OF_IT.has(token.text))

/** Undefined where it is neither, or more than that: a value, a state, a yes that is denied. */
export function yesOrNo({ tokens }: { readonly tokens: readonly Token[] }): 'yes' | 'no' | undefined {
  const said = tokens.filter(({ text }) => !HESITATIONS.has(text))
  const from = said.findIndex(({ text }) => !BEFORE.has(text))
  const head = said[from]?.text ?? ''
  const rest = said.slice(from + 1)
  const has = (words: ReadonlySet<string>) => rest.some(({ text }) => words.has(text))
  const isDenied = rest.some(({ text }) => isNegation(text))
  if (rest.some(isOfAnything)) return undefined
  if (YES.has(head)) return isDenied || has(NO) || has(AGAINST_YES) ? undefined : 'yes'
  if (!NO.has(head) || has(YES) || has(AGAINST_NO)) return undefined
  // "No, do that first."
  return rest.some(({ text }) => text === 'first') && !isDenied ? undefined : 'no'
}
