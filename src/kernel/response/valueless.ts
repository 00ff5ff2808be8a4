/**
 * "Checked", "set", "normal" where a value is asked for: an answer, and no value in it. It is the pilot's, not the ear's:
 * incomplete for a reason of its own.
 */

import { isNumberToken, type Token } from '../numbers/tokens.ts'
import type { Asked } from './asked.ts'
import { HARMLESS, HESITATIONS } from './lexicon.ts'
import type { Judgement, Part } from './model.ts'

/** Each claims that the thing was done or is as it should be. */
const CLAIMS: ReadonlySet<string> = new Set(
  'checked check set ok okay normal yes yeah yep same confirmed confirm verified done complete completed good fine correct agreed'.split(
    ' ',
  ),
)

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
  const words = body.filter(({ text }) => !HESITATIONS.has(text))
  const isClaim = words.some(({ text }) => CLAIMS.has(text))
  const isKnown = ({ text }: Token) => CLAIMS.has(text) || HARMLESS.has(text) || echoed.has(text)
  if (!isClaim || words.some((token) => isNumberToken(token) || !isKnown(token))) return undefined
  const missing = first.map(({ name }) => ({ name, kind: 'figure', state: 'missing' }) as const)
  const said = parts.filter(({ kind }) => kind === 'word')
  return { verdict: 'incomplete', because: 'valueless', parts: [...said, ...missing] }
}
