/** Questions to the state of a run about its partner. */

import type { Pack } from '../../pack/checklist.ts'
import { findItem } from '../../pack/place.ts'
import type { RunState } from '../core/state.ts'
import { type Break, type Chance, NO_PARTNER, type PartnerState } from './model.ts'

export const partnerOf = ({ partner }: RunState): PartnerState => partner ?? NO_PARTNER

/** Those of this run itself: a moment done again begins with chances of another one. */
export const ownChances = (state: RunState): readonly Chance[] =>
  partnerOf(state).chances.filter(({ seq }) => seq > (state.again?.seq ?? -1))

/** How many faults since an event nobody has objected to. */
export const letGoSince = (state: RunState, seq: number): number =>
  partnerOf(state).chances.filter((one) => one.seq > seq && one.fault && !one.objection).length

export const withPartnerState = (state: RunState, change: Partial<PartnerState>): RunState => ({
  ...state,
  partner: { ...partnerOf(state), ...change },
})

export const pilotChallenges = ({ settings }: RunState): boolean => settings.roles === 'pilotChallenges'

/** Otherseat's side reads back what a controller says. */
export const colleagueReadsBack = ({ settings }: RunState): boolean => settings.readBacks === 'colleague'

/** Whether anything of this is in the run at all. */
export const hasPartner = ({ settings, partner }: RunState): boolean =>
  settings.partner !== undefined ||
  settings.breaks !== undefined ||
  settings.roles === 'pilotChallenges' ||
  settings.readBacks === 'colleague' ||
  // An instructor had somebody come in.
  partner !== undefined

/** Gone by, and nobody has noticed. */
export const isGoneBy = (state: RunState, item: string): boolean => state.partner?.goneBy.includes(item) ?? false

export const isCalledComplete = (state: RunState, list: string): boolean =>
  state.partner?.calledComplete.includes(list) ?? false

/** The item that Otherseat answered last, and after which it has said nothing but that; where the pilot challenges. */
export function answeredLast(pack: Pack, state: RunState): string | undefined {
  const { floor } = state
  const { answered } = partnerOf(state)
  if (!pilotChallenges(state) || answered !== undefined) return answered
  const last = state.closed.at(-1)
  const isOwn = last !== undefined && state.items[last]?.seat === 'otherseat'
  return isOwn && floor.at === 'item' && findItem(pack, last).list.id === floor.list ? last : undefined
}

/** The interruption that the pilot has not come back from. */
export const openBreak = (state: RunState): Break | undefined =>
  state.partner?.breaks.find(({ place }) => place === undefined)

/** What the open item is called is not to be had from Otherseat. */
export const isWithoutCue = (state: RunState): boolean => openBreak(state)?.cue === false
