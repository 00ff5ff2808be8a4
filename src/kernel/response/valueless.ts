/**
 * "Checked", "set", "in the green" where a value or a state is asked for: an answer, and no value in it. It is the
 * pilot's, not the ear's: incomplete for a reason of its own.
 */

import { isNumberToken, type Token } from '../numbers/tokens.ts'
import type { Asked } from './asked.ts'
import type { Frame } from './frame.ts'
import { HESITATIONS, isNegation } from './lexicon.ts'
import type { Judgement, Part } from './model.ts'
import { DOUBTFUL, FAULTS } from './remarkWords.ts'

const words = (text: string): ReadonlySet<string> => new Set(text.split(/\s+/))

/** Each claims that the thing was done or is as it should be. */
const CLAIMS = words(
  `checked check rechecked crosschecked set ok okay normal yes yeah yep same confirmed confirm verified done complete
   completed good fine correct agreed bugged entered loaded tuned reviewed received counted briefed green limits
   envelope band balanced smooth nominal matches match`,
)
/** A state is looked up: "set" and "green" may be one. */
const LOOKED_UP = words(
  'checked check rechecked crosschecked confirmed confirm verified done complete completed reviewed',
)

/** Undefined where something else was said, or where the item can be answered without a value. `parts`: words said with it. */
export function valueless(
  { frames, challenge }: Asked,
  body: readonly Token[],
  parts: readonly Part[],
): Judgement | undefined {
  const needed = frames.map(({ path }) => path.filter((slot) => slot.type === 'figure' && slot.required))
  const isOfValues = needed.every((slots) => slots.length > 0)
  const claims = isOfValues ? CLAIMS : LOOKED_UP
  const said = body.filter(({ text }) => !HESITATIONS.has(text))
  const isClaim = said.some(({ text }) => claims.has(text)) && !frames.some((frame) => isOwnClaim(frame, claims, said))
  if (challenge.length === 0 || !isClaim || said.some((token) => isNumberToken(token) || speaksAgainst(token)))
    return undefined
  if (!isOfValues && parts.some(({ heard }) => heard !== undefined)) return undefined
  const [first] = frames
  const missing = (first?.path ?? []).flatMap(({ name, type, required }) =>
    required && (type === 'figure' || !isOfValues) ? [{ name, kind: type, state: 'missing' } as const] : [],
  )
  const own = isOfValues ? parts.filter(({ kind }) => kind === 'word') : []
  return { verdict: 'incomplete', because: 'valueless', parts: [...own, ...missing] }
}

/** "Checked" may be the state that is asked for. */
const isOwnClaim = (frame: Frame, claims: ReadonlySet<string>, said: readonly Token[]) =>
  frame.figureCount === 0 && said.some(({ text }) => claims.has(text) && frame.vocabulary.has(text))

const speaksAgainst = ({ text }: Token) =>
  isNegation(text) || text === 'negative' || DOUBTFUL.has(text) || FAULTS.has(text)
