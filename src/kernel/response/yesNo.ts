/** "Yes" and "no", where a question may be answered so. */

import { isNumberToken, type Token, type Transcript } from '../numbers/tokens.ts'
import { HARMLESS, HESITATIONS, isNegation } from './lexicon.ts'

/** What of it is listened for. */
export const YES_HEARD = ['yes', 'affirm', 'affirmative'] as const
export const NO_HEARD = ['no', 'negative'] as const

const YES: ReadonlySet<string> = new Set('yes yeah yep yup yah aye affirm affirmative sure absolutely'.split(' '))
const NO: ReadonlySet<string> = new Set('no nope nah negative'.split(' '))
/** Before the answer. */
const BEFORE: ReadonlySet<string> = new Set('well oh so and okay ok right alright please'.split(' '))
/** What goes along with it besides what says nothing: "yes, let's do that first", "no, not yet, later". */
const BESIDE: ReadonlySet<string> = new Set(
  "do does did first go going ahead sure certainly do's we'd i'd you to".split(' '),
)
const BESIDE_NO: ReadonlySet<string> = new Set('not yet later leave skip after afterwards continue without'.split(' '))

/** Undefined where it is neither, or more than that: a value, another word, a yes that is denied. */
export function yesOrNo({ tokens }: Transcript): 'yes' | 'no' | undefined {
  const said = tokens.filter(({ text }) => !HESITATIONS.has(text))
  const from = said.findIndex(({ text }) => !BEFORE.has(text))
  const head = said[from]?.text ?? ''
  const rest = said.slice(from + 1)
  if (rest.some(isNumberToken)) return undefined
  const isBeside = ({ text }: Token) => HARMLESS.has(text) || BESIDE.has(text)
  if (YES.has(head)) return rest.every((token) => isBeside(token) && !isNegation(token.text)) ? 'yes' : undefined
  const goesAlong = (token: Token) =>
    !YES.has(token.text) && (isBeside(token) || isNo(token) || BESIDE_NO.has(token.text))
  return NO.has(head) && rest.every(goesAlong) ? 'no' : undefined
}

const isNo = ({ text }: Token) => NO.has(text)
