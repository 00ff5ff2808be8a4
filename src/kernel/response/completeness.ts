/**
 * How much of an answer has been said: none of it, some, or every required part, right or wrong. It gets kinds and never
 * values, so nothing that follows from it can depend on whether the answer is right (law 2).
 *
 * It knows the response: the runner asks it whether speech was meant for the open item at all. `hearing/form.ts` knows only
 * shapes and counts, since nothing else reaches the ear, and says after which pause an answer may be over.
 */

import type { Specs } from '../kinds/kind.ts'
import type { Token } from '../numbers/tokens.ts'
import { type AskedWith, askedFor } from './asked.ts'
import { withoutChallenge } from './challenge.ts'
import { type Filled, fillSlots } from './fill.ts'
import type { Frame } from './frame.ts'
import type { Response } from './response.ts'
import { isPlausible } from './runs.ts'

export interface CompletenessOptions extends AskedWith {
  /** Names of parts that an earlier breath said. */
  readonly held?: readonly string[]
}

export type Completeness = 'none' | 'half' | 'whole'

/** `none`: nothing of the item yet; `half`: begun; `whole`: every required part was said. Never throws. */
export function completenessOf(
  response: Response,
  specs: Specs,
  tokens: readonly Token[],
  options: CompletenessOptions = {},
): Completeness {
  const { challenge, frames } = askedFor(response, specs, options)
  const body = withoutChallenge(tokens, challenge).filter(({ text }) => text !== 'correction')
  const held = new Set(options.held)
  const all = frames.map((frame) => completenessIn(frame, fillSlots(frame, [body], held), held))
  return all.includes('whole') ? 'whole' : all.includes('half') ? 'half' : 'none'
}

function completenessIn(frame: Frame, filled: Filled, held: ReadonlySet<string>): Completeness {
  let whole = true
  let some = false
  frame.path.forEach((slot, index) => {
    const said = slot.type === 'word' ? filled.words.has(index) : isFigureSaid(frame, filled, index)
    some ||= said || filled.figures.has(index)
    if (slot.required && !said && !held.has(slot.name)) whole = false
  })
  if (!some) return 'none'
  return whole ? 'whole' : 'half'
}

function isFigureSaid(frame: Frame, filled: Filled, index: number): boolean {
  const spec = frame.specs[index]
  const fillers = filled.figures.get(index) ?? []
  return (
    spec !== undefined &&
    fillers.some(({ readings }) =>
      readings.some((reading) => !reading.secondary && !reading.lacks && isPlausible(reading, spec)),
    )
  )
}
