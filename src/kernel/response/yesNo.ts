/** "Yes" and "no", where a question may be answered so. */

import { isNumberToken, type Token } from '../numbers/tokens.ts'
import { HESITATIONS, isNegation, isStateWord } from './lexicon.ts'

/** What of it is listened for. */
export const YES_HEARD = ['yes', 'affirm', 'affirmative'] as const
export const NO_HEARD = ['no', 'negative'] as const

const YES: ReadonlySet<string> = new Set('yes yeah yep yup yah aye affirm affirmative sure absolutely'.split(' '))
const NO: ReadonlySet<string> = new Set('no nope nah naw negative'.split(' '))
/** Before the answer. */
const BEFORE: ReadonlySet<string> = new Set('well oh so and okay ok right alright please actually'.split(' '))
/** Behind a "yes" these make something else of it. */
const AGAINST_YES: ReadonlySet<string> = new Set(
  'but later after afterwards skip leave instead carry continue wait except other another hold'.split(' '),
)
/** "No problem, do that first" is none. */
const AGAINST_NO: ReadonlySet<string> = new Set('problem problems worries but sorry'.split(' '))
/** Besides how the answer begins, nothing in a longer one may speak of a state: "no flaps up". */
const isOfAnything = (token: Token) => isNumberToken(token) || (isStateWord(token.text) && !SAID_OF_IT.has(token.text))
/** "Yes, let's start the right engine first", "no, carry on". */
const SAID_OF_IT: ReadonlySet<string> = new Set('right left on off start started start first now'.split(' '))

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
  return has(FIRST) && !isDenied ? undefined : 'no'
}
const FIRST: ReadonlySet<string> = new Set(['first'])
