/** The account of a run, made from its log alone: what was said, what was refused and why, what was given. */

import { deal } from '../../figures/deal.ts'
import type { Pack } from '../../pack/checklist.ts'
import { agenda, findItem, itemsOf, listById } from '../../pack/place.ts'
import { quirkIn } from '../../pack/quirks.ts'
import { readBackOf } from '../../pack/rests.ts'
import type { PassReason } from '../../response/commands.ts'
import type { By, PackInLog, RunEvent } from '../core/events.ts'
import type { Interruption, ItemStatus, RunState } from '../core/state.ts'
import { emptyRun, step } from '../core/step.ts'
import { itemState, listState } from '../core/turn.ts'
import { acknowledgedBy, notesOf } from './debriefFigures.ts'
import { createTalkTally, type DebriefBriefing, type DebriefExchange } from './debriefTalk.ts'
import type { DebriefTry } from './debriefTry.ts'
import { createWatchTally, type DebriefFlow, type DebriefWatch, flowsIn } from './debriefWatch.ts'

export interface DebriefItem {
  readonly id: string
  readonly challenge: string
  readonly status: ItemStatus
  readonly by?: By
  readonly reason?: PassReason
  readonly given: boolean
  readonly tries: readonly DebriefTry[]
  /** Verdicts negative, incomplete; the pilot's. */
  readonly misses: number
  /** The ear's. */
  readonly sayAgains: number
  /** How often a changed figure, or the pilot, opened it again. */
  readonly reopened: number
  /** What to look at, and how often Otherseat had to send the eyes there. */
  readonly look: readonly string[]
  readonly looks: number
}

export interface DebriefList {
  readonly id: string
  readonly name: string
  readonly complete: boolean
  readonly revoked: boolean
  readonly onPreliminary: boolean
  /** Never called: its phase passed without it. */
  readonly called: boolean
  readonly items: readonly DebriefItem[]
}

export interface Debrief {
  readonly runId: string
  readonly pack: Omit<PackInLog, 'texts'>
  readonly startedAt: string
  readonly durationMs: number
  readonly complete: boolean
  readonly revisions: readonly {
    readonly revision: number
    readonly status: string
    readonly label: string
    readonly t: number
    readonly reopened: readonly string[]
    /** What was read aloud, settled, warned of and acknowledged. */
    readonly notes: readonly string[]
  }[]
  readonly lists: readonly DebriefList[]
  /** Empty where the voices outside the crew were left out. */
  readonly exchanges: readonly DebriefExchange[]
  readonly briefings: readonly DebriefBriefing[]
  readonly voided: number
  /** The trap of a dealt departure, told now. */
  readonly trap?: string
  readonly interruptions: readonly Interruption[]
  /** `known`: the quirk of the simulator that the remark named. */
  readonly remarks: readonly { readonly t: number; readonly text: string; readonly known?: string }[]
  readonly watches: readonly DebriefWatch[]
  readonly flows: readonly DebriefFlow[]
  /** Situations as they were changed during the run. */
  readonly situations: readonly { readonly t: number; readonly label: string; readonly option: string }[]
  /** Lists that were called before their turn, and were run all the same. */
  readonly outOfOrder: readonly { readonly t: number; readonly list: string; readonly before: string }[]
  readonly totals: {
    readonly items: number
    readonly closed: number
    readonly misses: number
    readonly sayAgains: number
    readonly given: number
    readonly byKey: number
    readonly passed: number
    /** Things to look at that Otherseat sent the eyes to after a miss. */
    readonly looks: number
    /** Calls and read-backs with a wrong value or with something missing. */
    readonly radioMisses: number
    readonly wordsShown: number
    readonly topicsLeftOut: number
  }
}

/** `events` must be one run's, in order, the first being `runStarted`; the pack must be the run's. */
export function debriefOf(pack: Pack, events: readonly RunEvent[]): Debrief {
  const [first] = events
  if (first?.type !== 'runStarted') throw new Error('the log does not begin with runStarted')
  const tries = new Map<string, DebriefTry[]>()
  const reopened = new Map<string, number>()
  const revisions: Debrief['revisions'][number][] = []
  const talk = createTalkTally(pack)
  let read: RunEvent<'stated'> | undefined
  const starts = createWatchTally(pack)
  const outOfOrder: Debrief['outOfOrder'][number][] = []
  let state: RunState = emptyRun(first.runId)
  for (const event of events) {
    const before = state
    state = step(pack, state, event).state
    talk.count(event, before)
    starts.count(before, state)
    if (before.question?.about === 'outOfOrder' && state.lists[before.question.list]?.called) {
      const { list, next } = before.question
      if (!before.lists[list]?.called) outOfOrder.push({ t: event.t, list: listById(pack, list).name, before: next })
    }
    const opened = reopenedBetween(before, state)
    for (const id of opened) reopened.set(id, (reopened.get(id) ?? 0) + 1)
    if (event.type === 'answered') tries.set(event.item, [...(tries.get(event.item) ?? []), tryOf(event)])
    if (event.type === 'figuresRevised') {
      const { revision, status, label, t } = event
      const notes = notesOf(pack, before, event, read)
      const challenges = opened.map((id) => findItem(pack, id).item.challenge)
      revisions.push({ revision, status, label, t, reopened: challenges, notes })
    }
    if (event.type === 'stated') read = event
    const acknowledged = acknowledgedBy(before, state, event)
    const last = revisions.at(-1)
    if (last && acknowledged.length > 0) revisions.splice(-1, 1, { ...last, notes: [...last.notes, ...acknowledged] })
  }
  const lists = listsIn(pack, state, tries, reopened)
  const trap = first.dealt === undefined ? undefined : deal(pack.figures, readBackOf(pack), first.dealt)?.trap.told
  const items = lists.flatMap((list) => list.items)
  const [exchanges, briefings] = [talk.exchanges(state), talk.briefings(state)]
  const turns = exchanges.flatMap((exchange) => exchange.turns)
  return {
    runId: first.runId,
    pack: { id: pack.id, version: pack.version, sha256: pack.sha256, name: pack.name },
    startedAt: first.wall,
    durationMs: events.at(-1)?.t ?? 0,
    complete: lists.every((list) => list.complete),
    revisions,
    lists,
    exchanges,
    briefings,
    ...(trap !== undefined && { trap }),
    voided: events.filter((event) => event.type === 'voided').length,
    interruptions: state.interruptions,
    watches: starts.watches(),
    flows: flowsIn(pack, state),
    situations: situationsIn(pack, events),
    outOfOrder,
    remarks: events.flatMap((event) =>
      event.type === 'commanded' && event.command === 'remark'
        ? [remarkOf(pack, event.t, event.argument ?? event.evidence.text)]
        : [],
    ),
    totals: {
      items: items.length,
      closed: items.filter((item) => item.status === 'done' || item.status === 'passed').length,
      misses: items.reduce((sum, item) => sum + item.misses, 0),
      sayAgains: items.reduce((sum, item) => sum + item.sayAgains, 0),
      given: items.filter((item) => item.given).length,
      byKey: items.filter((item) => item.by === 'key').length,
      passed: items.filter((item) => item.status === 'passed').length,
      looks: items.reduce((sum, item) => sum + item.looks, 0),
      radioMisses: turns.reduce((sum, turn) => sum + turn.misses, 0),
      wordsShown: turns.filter((turn) => turn.shown).length,
      topicsLeftOut: briefings.flatMap(({ topics }) => topics).filter(({ leftOut }) => leftOut).length,
    },
  }
}

function remarkOf(pack: Pack, t: number, text: string): Debrief['remarks'][number] {
  const quirk = quirkIn(pack, text)
  return { t, text, ...(quirk && { known: quirk.say }) }
}

function situationsIn(pack: Pack, events: readonly RunEvent[]): Debrief['situations'][number][] {
  return events.flatMap((event) => {
    const situation = event.type === 'situationSet' && pack.situations.find(({ name }) => name === event.name)
    if (!situation) return []
    const option = situation.options.find(({ value }) => value === event.value)?.label ?? event.value
    return [{ t: event.t, label: situation.label, option }]
  })
}

function reopenedBetween(before: RunState, after: RunState): string[] {
  return Object.entries(after.items)
    .filter(([id, item]) => item.status === 'reopened' && before.items[id]?.status !== 'reopened')
    .map(([id]) => id)
}

function tryOf(event: RunEvent<'answered'>): DebriefTry {
  const { t, evidence, judgement, challengeRevision, revision } = event
  const early = evidence.early && { early: true }
  return { t, text: evidence.text, by: evidence.by, judgement, challengeRevision, revision, ...early }
}

function listsIn(
  pack: Pack,
  state: RunState,
  tries: ReadonlyMap<string, readonly DebriefTry[]>,
  reopened: ReadonlyMap<string, number>,
): DebriefList[] {
  return agenda(pack, state.situation).flatMap(({ activity }) => {
    if (activity.type !== 'list') return []
    const { complete, revoked, onPreliminary, called } = listState(state, activity.id)
    const items = itemsOf(activity, state.situation).map(({ id, challenge, look = [] }): DebriefItem => {
      const { status, by, reason, given, looks } = itemState(state, id)
      const said = tries.get(id) ?? []
      const verdicts = said.map((one) => one.judgement.verdict)
      return {
        id,
        challenge,
        status,
        ...(by && { by }),
        ...(reason && { reason }),
        given,
        tries: said,
        misses: verdicts.filter((verdict) => verdict === 'negative' || verdict === 'incomplete').length,
        sayAgains: verdicts.filter((verdict) => verdict === 'sayAgain').length,
        reopened: reopened.get(id) ?? 0,
        look,
        looks,
      }
    })
    return [{ id: activity.id, name: activity.name, complete, revoked, onPreliminary, called, items }]
  })
}
