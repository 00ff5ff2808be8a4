/** The debrief of a run, made from its log alone: what was said, what was refused and why, what was given. */

import { deal } from '../../figures/deal.ts'
import { formatMeasured } from '../../figures/format.ts'
import type { Pack } from '../../pack/checklist.ts'
import { activityName, agenda, itemsOf, placeToBegin, saidFigures } from '../../pack/place.ts'
import { readBackOf } from '../../pack/rests.ts'
import { emptyRun } from '../core/emptyRun.ts'
import type { PackInLog, RunAgain, RunEvent } from '../core/events.ts'
import type { Injected } from '../core/injections.ts'
import { activityAt } from '../core/moving.ts'
import { itemState, listState } from '../core/progress.ts'
import type { Interruption, RunState } from '../core/state.ts'
import { briefingsIn, type DebriefBriefing } from './debriefBriefing.ts'
import { catchesIn, type DebriefCatch } from './debriefCatches.ts'
import type { DebriefItem, DebriefList } from './debriefList.ts'
import { type DebriefPaper, papersIn } from './debriefPapers.ts'
import { type DebriefPartner, partnerIn } from './debriefPartner.ts'
import { type DebriefExchange, exchangesIn } from './debriefTalk.ts'
import { type DebriefTrap, trapIn } from './debriefTrap.ts'
import { missesIn, sayAgainsIn } from './debriefTry.ts'
import { type DebriefFlow, type DebriefWatch, flowsIn, watchesIn } from './debriefWatch.ts'
import { type Deviation, deviationsOfRun, undoneIn } from './deviations.ts'
import { type Foremost, foremostIn, wentWellIn } from './foremost.ts'
import { type DebriefLooks, looksIn } from './look/looks.ts'
import { momentsOf } from './moments.ts'
import { tellNotEnded } from './notEnded.ts'
import { sinceIn } from './onlySince.ts'
import { placesIn } from './places.ts'
import {
  briefingsUnderWay,
  exchangesUnderWay,
  listsUnderWay,
  momentsWithoutSlips,
  revisionsUnderWay,
  withoutSlips,
} from './stillOpen.ts'
import {
  type DebriefRemark,
  type DebriefRevision,
  emptyTally,
  type Moment,
  type NotEnded,
  type OutOfOrder,
  type Tally,
  type TooEarly,
} from './tally.ts'
import { timelineIn } from './timeline.ts'
import type { TimelineEntry } from './timelineEntry.ts'
import { tell } from './told.ts'
import { type Totals, totalsOf } from './totals.ts'

export interface Debrief {
  readonly runId: string
  readonly pack: Omit<PackInLog, 'texts'>
  readonly startedAt: string
  readonly durationMs: number
  /** A moment of another run, done again: only what came after counts. */
  readonly again?: DebriefAgain
  /** Shown to a room: values stood beside answers, and training leaves it out. */
  readonly demonstrated?: true
  /** Begun in the middle: nothing before this place counts. */
  readonly begunAt?: DebriefPlace
  readonly complete: boolean
  /** Exchanges and briefings by name that were not done though their time had passed, once the run is over. */
  readonly leftOut: readonly string[]
  /** Of a run that has not ended: the activity that has the floor. */
  readonly next?: string
  /** What to take away: three things at most, the gravest first. */
  readonly foremost: readonly Foremost[]
  /** In one sentence; empty where nothing was. */
  readonly wentWell: string
  readonly timeline: readonly TimelineEntry[]
  readonly revisions: readonly DebriefRevision[]
  readonly lists: readonly DebriefList[]
  /** Empty where the voices outside the crew were left out. */
  readonly exchanges: readonly DebriefExchange[]
  readonly briefings: readonly DebriefBriefing[]
  readonly voided: number
  /** The trap of a departure that was drawn, and whether it was caught; nobody was told before. */
  readonly trap?: DebriefTrap
  /** Late catch: who noticed what new figures had changed. */
  readonly catches: readonly DebriefCatch[]
  /** Where the partner erred, answered, or interruptions came on purpose; nothing of it before the run is over. */
  readonly partner?: DebriefPartner
  /** What an instructor had happen. */
  readonly injected: readonly Injected[]
  readonly interruptions: readonly Interruption[]
  readonly remarks: readonly DebriefRemark[]
  readonly watches: readonly DebriefWatch[]
  readonly flows: readonly DebriefFlow[]
  /** Situations as they were changed during the run. */
  readonly situations: readonly { readonly t: number; readonly label: string; readonly option: string }[]
  readonly outOfOrder: readonly OutOfOrder[]
  readonly notEnded: readonly NotEnded[]
  /** Called done before its time: right as said, and refused. */
  readonly tooEarly: readonly TooEarly[]
  /** "Stop", by the pilot's own word, and what was open then. */
  readonly stops: readonly { readonly t: number; readonly text: string; readonly at: string }[]
  /** Every edition that was on the table; cards too. */
  readonly papers: readonly DebriefPaper[]
  /** What the pilot wrote down. */
  readonly pad: RunState['pad']
  /** Deviations from the use of checklists, calls and read-backs, by kind and then in the order of their times. */
  readonly deviations: readonly Deviation[]
  readonly looks: DebriefLooks
  readonly totals: Totals
}

export interface DebriefAgain extends RunAgain {
  /** Of the list, exchange, start or briefing. */
  readonly name: string
  /** Until it was left, or so far. */
  readonly misses: number
  readonly isOver: boolean
}

export interface DebriefPlace {
  readonly activity: string
  /** With its phase where that has another name: "Start, push clearance". */
  readonly name: string
}

/**
 * Made from the log of one run, in order and from its beginning, and the run's own pack. `isUnderWay`: the pilot looks at it
 * and goes on, so what would be right at something open is left out.
 * Throws where the log does not begin with `runStarted`, or names what the pack does not have.
 */
export function debriefOf(pack: Pack, events: readonly RunEvent[], isUnderWay = false): Debrief {
  const [first] = events
  if (first?.type !== 'runStarted') throw new Error('the log does not begin with runStarted')
  const { taken, own } = momentsOf(pack, events)
  const seam = taken.at(-1)?.after ?? emptyRun(first.runId)
  const state = own.at(-1)?.after ?? seam
  const tally = emptyTally()
  // The figures that a run in the middle is begun on are its own.
  const begunOn = taken.filter(
    ({ event }) => !first.again && event.type === 'figuresRevised' && event.takenDown === undefined,
  )
  const moments = [...begunOn, ...own]
  for (const moment of moments) tell(tally, moment)
  const places = placesIn([...taken, ...own])
  const { again } = first
  const since = sinceIn(seam, state)
  const allLists = since.lists(listsIn(pack, state, tally))
  const allExchanges = since.exchanges(exchangesIn(pack, state, tally))
  const lists = isUnderWay ? listsUnderWay(allLists) : allLists
  const allBriefings = since.briefings(briefingsIn(pack, state, tally))
  const briefings = isUnderWay ? briefingsUnderWay(allBriefings) : allBriefings
  const watches = watchesIn(pack, state, tally)
  const complete = lists.every((list) => list.complete)
  // Looked at in the middle of a run, it keeps the trap to itself.
  const isOver = state.status === 'ended' || (complete && (!isUnderWay || state.floor.at === 'end'))
  const isSecret = isUnderWay && !isOver
  const toldExchanges = isSecret ? withoutSlips(allExchanges) : allExchanges
  const exchanges = isUnderWay ? exchangesUnderWay(toldExchanges) : toldExchanges
  const dealt = isOver && first.dealt !== undefined ? deal(pack.figures, readBackOf(pack), first.dealt) : undefined
  // A moment alone is not the departure; before the final figures the trap is for another time.
  const hasFinal = complete || state.figureStatus !== 'preliminary'
  const trap = again || !dealt || !hasFinal ? undefined : trapIn(pack, moments, dealt.trap)
  const partner = partnerIn(pack, state, { isOver: isOver || state.floor.at === 'end', since: seam.t })
  const next = state.status === 'running' ? activityAt(pack, state.floor)?.name : undefined
  const revisions = isUnderWay ? revisionsUnderWay(tally.revisions) : tally.revisions
  const { voided, situations, outOfOrder, remarks, stops, tooEarly } = tally
  const toldBefore = again ? notEndedIn(taken) : []
  const notEnded = tally.notEnded.filter(({ id }) => !toldBefore.some((one) => one.id === id))
  const debrief = {
    runId: first.runId,
    pack: { id: pack.id, version: pack.version, sha256: pack.sha256, name: pack.name },
    startedAt: events[again?.seq ?? 0]?.wall ?? first.wall,
    durationMs: state.t - seam.t,
    ...(again && { again: againIn(pack, again, state) }),
    ...(state.wasDemonstrated && { demonstrated: true as const }),
    ...(state.begunAt && !again && { begunAt: placeIn(pack, state.begunAt.activity) }),
    complete,
    ...(next !== undefined && { next }),
    leftOut: isOver && next === undefined ? undoneIn({ exchanges, briefings }).map(({ name }) => name) : [],
    ...{ revisions, lists, exchanges, briefings, voided },
    ...(trap !== undefined && { trap }),
    catches: catchesIn(pack, state, isOver).filter(({ changedAt }) => changedAt >= seam.t),
    injected: (state.injected ?? []).filter(({ t }) => isOver && t >= seam.t),
    interruptions: state.interruptions.filter(({ t }) => t >= seam.t),
    ...(partner && { partner }),
    watches,
    flows: since.flows(flowsIn(pack, state)),
    ...{ situations, outOfOrder, notEnded, remarks, stops, tooEarly },
    papers: papersIn(pack, state, tally),
    pad: state.pad,
    totals: totalsOf({ lists, exchanges, briefings, watches, tooEarly, partner, isOver }),
  }
  const looks = looksIn(tally, first.settings.lookTimes)
  const deviations = deviationsOfRun(pack, {
    ...debrief,
    looks,
    readOut: tally.readOut,
    givenAt: tally.givenAt,
    isOver,
  })
  const account = { ...debrief, looks, deviations }
  return {
    ...account,
    foremost: foremostIn(pack, account, places),
    wentWell: wentWellIn(account),
    timeline: timelineIn(pack, isSecret ? momentsWithoutSlips(moments, state) : moments, {
      tally,
      places,
      faults: partner?.faults,
    }),
  }
}

/** Whether all lists are complete, and what besides lists was left out; of a run that has not ended, what comes next. */
export function headlineOf({ complete, next, leftOut }: Pick<Debrief, 'complete' | 'next' | 'leftOut'>): string {
  const head = complete ? 'All lists complete' : 'Not all lists are complete'
  if (next !== undefined) return complete ? `${head}; next: ${next}` : head
  return leftOut.length === 0 ? head : `${head}; left out: ${leftOut.join(', ')}`
}

function notEndedIn(moments: readonly Moment[]): readonly NotEnded[] {
  const tally = emptyTally()
  for (const moment of moments) tellNotEnded(tally, moment)
  return tally.notEnded
}

function placeIn(pack: Pack, activity: string): DebriefPlace {
  return { activity, name: placeToBegin(pack, activity) }
}

function againIn(pack: Pack, again: RunAgain, state: RunState): DebriefAgain {
  const { activity, misses = 0, isOver = false } = state.again ?? {}
  const name = activity === undefined ? '' : activityName(pack, activity)
  return { ...again, name, misses, isOver }
}

/** As they were read last, with their units. */
function readingsIn(pack: Pack, { readings }: RunState, names: readonly string[]): string[] {
  return names.flatMap((name) => {
    const [declared, value] = [pack.figures.declarations[name], readings[name]]
    return declared && value !== undefined ? `${declared.label} ${formatMeasured(value, declared.measure)}` : []
  })
}

function listsIn(pack: Pack, state: RunState, { answers, reopened }: Tally): DebriefList[] {
  return agenda(pack, state).flatMap(({ activity }) => {
    if (activity.type !== 'list') return []
    const { complete, revoked, onPreliminary, called } = listState(state, activity.id)
    if (activity.anytime && !called) return []
    const items = itemsOf(activity, state).map((item): DebriefItem => {
      const { id, challenge, look = [] } = item
      const { status, by, reason, revealed, looks } = itemState(state, id)
      const tries = answers.get(id) ?? []
      return {
        ...{ id, challenge, status },
        ...(by && { by }),
        ...(reason && { reason }),
        readings: status === 'done' ? readingsIn(pack, state, saidFigures(item, state)) : [],
        ...{ given: revealed, tries, misses: missesIn(tries), sayAgains: sayAgainsIn(tries) },
        ...{ reopened: reopened.get(id) ?? 0, look, looks },
      }
    })
    return [{ id: activity.id, name: activity.name, complete, revoked, onPreliminary, called, items }]
  })
}
