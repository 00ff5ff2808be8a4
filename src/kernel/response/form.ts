/**
 * Whether an answer is whole in form: all required parts have been said, right or wrong. It gets kinds and never
 * values, so that the pause after an answer cannot depend on whether the answer is right (law 2).
 */

import type { Specs } from '../kinds/kind.ts'
import { tokensOf } from '../numbers/tokens.ts'
import { isPlausible } from './assign.ts'
import { type Bound, bind } from './bind.ts'
import { withoutChallenge } from './challenge.ts'
import type { Response } from './response.ts'
import { scan } from './scan.ts'
import { type Scene, scenesFor } from './scene.ts'

export interface FormOptions {
  readonly challenge?: string
  readonly states?: readonly (readonly string[])[]
  readonly held?: readonly string[]
}

export type Form = 'none' | 'half' | 'whole'

/** `none`: nothing of the item yet; `half`: begun; `whole`: every required part was said. Never throws. */
export function isWhole(response: Response, specs: Specs, text: string, options: FormOptions = {}): Form {
  const { challenge = '', states = [], held = [] } = options
  const echoed = challenge === '' ? [] : tokensOf(challenge)
  const body = withoutChallenge(tokensOf(text), echoed)
  const heldParts = new Set(held)
  const forms = scenesFor(response, specs, states, echoed).map((scene) => {
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
    return formOf(scene, bound, heldParts)
  })
  return forms.includes('whole') ? 'whole' : forms.includes('half') ? 'half' : 'none'
}

function formOf(scene: Scene, bound: Bound, held: ReadonlySet<string>): Form {
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
