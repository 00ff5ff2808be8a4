/** The papers of a run for its debrief: what came in when, and how often each edition was read. Reading is no mark. */

import type { Pack } from '../../pack/checklist.ts'
import { pileOf } from '../../papers/pile.ts'
import type { RunState } from '../core/state.ts'
import type { Moment, Tally } from './tally.ts'

export interface DebriefPaper {
  /** "load sheet". */
  readonly title: string
  /** Undefined for a card. */
  readonly edition: number | undefined
  /** When it came in, ms from the start of the run; undefined for a card. */
  readonly t: number | undefined
  readonly looks: number
  /** When it was put away and not taken out again. */
  readonly putAwayAt?: number
}

export function tellHandled({ papers }: Tally, { event }: Moment<'paperHandled'>): void {
  const { edition, how, t } = event
  const { looks = 0, putAwayAt } = papers.get(edition) ?? {}
  const isLook = how === 'lookedAt'
  const away = how === 'putAway' ? t : isLook ? putAwayAt : undefined
  papers.set(edition, { looks: looks + (isLook ? 1 : 0), ...(away !== undefined && { putAwayAt: away }) })
}

/** Empty where the pack has none. */
export function papersIn(pack: Pack, { sheets, situation, script }: RunState, { papers }: Tally): DebriefPaper[] {
  return pileOf(pack, sheets, { situation, hasStations: script !== undefined }).map(({ id, paper, number, t }) => ({
    ...{ title: paper.title, edition: number, t, looks: 0 },
    ...papers.get(id),
  }))
}

/** How often it was opened; what lay open from before the run was not opened in it, and may have been read all the same. */
export function looksWords(looks: number): string {
  if (looks === 0) return 'not opened during the run'
  return looks === 1 ? 'opened once' : `opened ${looks} times`
}
