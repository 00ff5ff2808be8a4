/** A run in numbers. What was missed is counted here once, for the debrief and the list of runs alike. */

import type { Missed } from '../core/missed.ts'
import { type DebriefBriefing, missesInBriefing } from './debriefBriefing.ts'
import type { DebriefList } from './debriefList.ts'
import type { DebriefPartner } from './debriefPartner.ts'
import type { DebriefExchange } from './debriefTalk.ts'
import { type DebriefWatch, deviationsIn } from './debriefWatch.ts'
import type { TooEarly } from './tally.ts'

interface Counted extends Missed {
  /** All that was missed. */
  readonly missed: number
}

export interface Totals extends Counted {
  readonly items: number
  readonly closed: number
  readonly sayAgains: number
  readonly given: number
  readonly byKey: number
  readonly passed: number
  /** Optional items that did not apply; they are none of those passed. */
  readonly notApplicable: number
  /** Things to look at that Otherseat sent the eyes to after a miss. */
  readonly looks: number
  readonly wordsShown: number
  readonly topicsLeftOut: number
}

interface TotalsFrom {
  readonly lists: readonly DebriefList[]
  readonly exchanges: readonly DebriefExchange[]
  readonly briefings: readonly DebriefBriefing[]
  readonly watches: readonly DebriefWatch[]
  readonly tooEarly: readonly TooEarly[]
  readonly partner: DebriefPartner | undefined
  readonly isOver: boolean
}

export function totalsOf(from: TotalsFrom): Totals {
  const items = from.lists.flatMap((list) => list.items)
  const turns = from.exchanges.flatMap((exchange) => exchange.turns)
  return {
    ...missedIn(from),
    items: items.length,
    closed: items.filter((item) => item.status === 'done' || item.status === 'passed').length,
    sayAgains: sum(items.map(({ sayAgains }) => sayAgains)),
    given: items.filter((item) => item.given).length,
    byKey: items.filter((item) => item.by === 'key').length,
    passed: items.filter((item) => item.status === 'passed' && item.reason !== 'notApplicable').length,
    notApplicable: items.filter((item) => item.reason === 'notApplicable').length,
    looks: sum(items.map(({ looks }) => looks)),
    wordsShown: turns.filter((turn) => turn.shown).length,
    topicsLeftOut: from.briefings.flatMap(({ topics }) => topics).filter(({ leftOut }) => leftOut).length,
  }
}

function missedIn({ lists, exchanges, briefings, watches, tooEarly, partner, isOver }: TotalsFrom): Counted {
  const turns = exchanges.flatMap((exchange) => exchange.turns)
  const slips = isOver ? turns.filter(({ slip }) => slip?.noticed === false).length : 0
  // A controller's word is told with its turn.
  const faults = (partner?.faults ?? []).filter(({ caught, kind }) => !caught && kind !== 'readBack').length
  const places = {
    misses: missesInLists(lists),
    radioMisses: missesInTurns(exchanges),
    briefingMisses: sum(briefings.map(missesInBriefing)),
    startDeviations: deviationsIn(watches),
    early: tooEarly.filter(({ of }) => of !== 'item' && of !== 'call').length,
    letGo: faults + slips,
  }
  return { ...places, missed: sum(Object.values(places)) }
}

export const missesInLists = (lists: readonly DebriefList[]): number =>
  sum(lists.flatMap(({ items }) => items).map(({ misses }) => misses))

export const missesInTurns = (exchanges: readonly DebriefExchange[]): number =>
  sum(exchanges.flatMap(({ turns }) => turns).map(({ misses }) => misses))

const sum = (numbers: readonly number[]) => numbers.reduce((total, one) => total + one, 0)

/** Told where the count is. */
export const MISSED_MEANS =
  'Missed is what was said wrong, half, too early, too late or not at all. Half a read-back that is gone on with at once is none.'

const PLACES = {
  misses: 'at items',
  radioMisses: 'in calls, read-backs and orders',
  briefingMisses: 'in briefings',
  startDeviations: 'in engine starts',
  early: 'called before their time',
  letGo: 'of others let go',
} as const satisfies { readonly [Place in Exclude<keyof Missed, 'missed'>]: string }

/** "4 missed: 3 at items, 1 in briefings", the same in every account and in the list of runs. */
export function missedLine(missed: Omit<Missed, 'missed'>): string {
  const places = Object.keys(PLACES) as (keyof typeof PLACES)[]
  const all = sum(places.map((place) => missed[place]))
  const where = places.filter((place) => missed[place] > 0).map((place) => `${missed[place]} ${PLACES[place]}`)
  return all === 0 ? 'nothing missed' : `${all} missed: ${where.join(', ')}`
}
