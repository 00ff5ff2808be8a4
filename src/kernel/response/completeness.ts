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
import { isPlausible } from './assign.ts'
import { type Bound, bind } from './bind.ts'
import { withoutChallenge } from './challenge.ts'
import type { Response } from './response.ts'
import { scan } from './scan.ts'
import type { Scene } from './scene.ts'

export interface CompletenessOptions extends AskedWith {
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
  const asked = askedFor(response, specs, options)
  const body = withoutChallenge(tokens, asked.challenge)
  const heldParts = new Set(options.held)
  const all = asked.scenes.map((scene) => {
    const bound = bind(
      scene,
      [
        scan(
          scene,
          body.filter((token) => token.text !== 'correction'),
        ),
      ],
      heldParts,
    )
    return completenessOfScene(scene, bound, heldParts)
  })
  return all.includes('whole') ? 'whole' : all.includes('half') ? 'half' : 'none'
}

function completenessOfScene(scene: Scene, bound: Bound, held: ReadonlySet<string>): Completeness {
  let whole = true
  let some = false
  scene.path.forEach((slot, index) => {
    const said = slot.type === 'word' ? bound.words.has(index) : isFigureSaid(scene, bound, index)
    some ||= said || bound.figures.has(index)
    if (slot.required && !said && !held.has(slot.name)) whole = false
  })
  if (!some) return 'none'
  return whole ? 'whole' : 'half'
}

function isFigureSaid(scene: Scene, bound: Bound, index: number): boolean {
  const spec = scene.specs[index]
  const sayings = bound.figures.get(index) ?? []
  return (
    spec !== undefined &&
    sayings.some(({ readings }) =>
      readings.some((reading) => !reading.secondary && !reading.lacks && isPlausible(reading, spec)),
    )
  )
}
