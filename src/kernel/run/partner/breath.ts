/** What was said on the radio last, as the pilot has it in the ear: an objection may mean any of it. */

import type { Pack } from '../../pack/checklist.ts'
import type { RunState } from '../core/state.ts'
import { findTurn } from '../talk/talk.ts'
import { partnerOf } from './partner.ts'

/**
 * The numbers of its chances, newest first: a controller may go on by itself, and both read-backs are of one breath. None
 * where something else was said since, or where the pilot reads back.
 */
export function radioBreath(pack: Pack, state: RunState): readonly number[] {
  const { chances } = partnerOf(state)
  const found: number[] = []
  let exchange: string | undefined
  for (const [at, { kind, about }] of [...chances.entries()].toReversed()) {
    if (kind !== 'colleague' && kind !== 'station') break
    const talk = findTurn(pack, about)
    exchange ??= talk.exchange.id
    if (talk.exchange.id !== exchange) break
    found.push(at)
    // It began with the pilot's own call.
    if (kind === 'colleague' && talk.turn.calls !== undefined) break
  }
  return found.some((at) => chances[at]?.kind === 'colleague') ? found : []
}
