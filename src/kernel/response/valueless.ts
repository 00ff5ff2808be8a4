/**
 * "Checked", "set", "in the green" where a value is asked for: an answer, and no value in it. It is the
 * pilot's, not the ear's: incomplete for a reason of its own.
 */

import { isNumberToken, type Token } from '../numbers/tokens.ts'
import type { Asked } from './asked.ts'
import { HARMLESS, HESITATIONS } from './lexicon.ts'
import type { Judgement, Part } from './model.ts'
import { ALL, BEFORE_VALUE, BESIDE_STATE, OTHER_THINGS, REMARKS } from './remarkWords.ts'

const words = (text: string): ReadonlySet<string> => new Set(text.split(/\s+/))

/** Each claims that the thing was done or is as it should be. */
const CLAIMS = words(
  `checked check rechecked crosschecked set ok okay normal yes yeah yep same confirmed verified done complete
   completed good fine correct agreed bugged entered loaded tuned reviewed received counted briefed green limits
   envelope band balanced smooth nominal matches match`,
)
const KNOWN = [
  CLAIMS,
  HARMLESS,
  REMARKS,
  OTHER_THINGS,
  BEFORE_VALUE,
  BESIDE_STATE,
  ALL,
  words('in on within under below for'),
]

/** Undefined where something else was said, or where the item can be answered without a value. `parts`: words said with it. */
export function valueless(
  { frames, challenge }: Asked,
  body: readonly Token[],
  parts: readonly Part[],
): Judgement | undefined {
  const needed = frames.map(({ path }) => path.filter((slot) => slot.type === 'figure' && slot.required))
  const [first] = needed
  if (!first || needed.some((slots) => slots.length === 0)) return undefined
  const echoed = new Set(challenge.map(({ text }) => text))
  const said = body.filter(({ text }) => !HESITATIONS.has(text))
  const isClaim = said.some(({ text }) => CLAIMS.has(text))
  const isKnown = ({ text }: Token) => echoed.has(text) || KNOWN.some((list) => list.has(text))
  if (!isClaim || said.some((token) => isNumberToken(token) || !isKnown(token))) return undefined
  const missing = first.map(({ name }) => ({ name, kind: 'figure', state: 'missing' }) as const)
  return {
    verdict: 'incomplete',
    because: 'valueless',
    parts: [...parts.filter(({ kind }) => kind === 'word'), ...missing],
  }
}
