/** A run along its time: spans and points, each with the sentence that tells it. What would have been right is not among it. */

import { capital } from '../../capital.ts'
import type { Pack } from '../../pack/checklist.ts'
import { findItem, listById } from '../../pack/place.ts'
import { isMiss, type Verdict } from '../../response/model.ts'
import { clockTime } from '../core/clockTime.ts'
import type { RunEvent } from '../core/events.ts'
import { onsetOf } from '../core/onset.ts'
import { itemState } from '../core/progress.ts'
import type { Interruption, RunState } from '../core/state.ts'
import { findTurn, turnState } from '../talk/talk.ts'
import { timed, watchById } from '../watch/watchTiming.ts'
import type { DebriefFault } from './debriefPartner.ts'
import { isGoneOn } from './debriefTry.ts'
import { deviationsOf, seconds, watchesIn } from './debriefWatch.ts'
import { momentKey, type Places } from './places.ts'
import type { Moment, Tally } from './tally.ts'
import { briefingsIn } from './timelineBriefings.ts'
import { LANES, type Lane, type TimelineEntry, type TimelineFrom, type Went } from './timelineEntry.ts'

/** By time, and from one lane to the next. `moments`: of the run from its beginning. */
export function timelineIn(
  pack: Pack,
  moments: readonly Moment[],
  { tally, places, faults = [] }: TimelineFrom,
): TimelineEntry[] {
  const last = moments.at(-1)
  if (!last) return []
  const entries = [
    ...stretches(moments, (state) => phaseAt(pack, state)).map((one) => span('phase', one, one.id)),
    ...stretches(moments, ({ floor }) => ('list' in floor ? floor.list : undefined)).map((one) =>
      span('list', one, listById(pack, one.id).name),
    ),
    ...itemsIn(pack, moments, { tally, places }),
    ...turnsIn(pack, moments, { tally, places }),
    ...briefingsIn(pack, moments, { tally, places }),
    ...startsIn(pack, last, tally, places),
    ...faults.map(faultIn),
    ...figuresIn(moments, tally),
    ...breaksIn(last.after, moments[0]?.event.t ?? 0),
  ]
  return entries.toSorted((one, other) => one.t - other.t || LANES.indexOf(one.lane) - LANES.indexOf(other.lane))
}

interface Stretch {
  readonly id: string
  readonly t: number
  readonly endT: number
}

/** How long something stayed the same; nothing of the times when there is none of it. */
function stretches(moments: readonly Moment[], idOf: (state: RunState) => string | undefined): Stretch[] {
  const found: Stretch[] = []
  let open: { readonly id: string; readonly t: number } | undefined
  const close = (endT: number) => open && found.push({ ...open, endT })
  for (const { event, after } of moments) {
    const id = after.figureStatus === undefined ? undefined : idOf(after)
    if (id === open?.id) continue
    close(event.t)
    open = id === undefined ? undefined : { id, t: event.t }
  }
  close(moments.at(-1)?.event.t ?? 0)
  return found
}

function phaseAt(pack: Pack, { floor }: RunState): string | undefined {
  if (floor.at === 'end') return undefined
  if ('phase' in floor) return pack.phases[floor.phase]?.name
  return pack.phases.find(({ activities }) => activities.some(({ id }) => id === floor.list))?.name
}

function span(lane: Lane, { t, endT }: Stretch, label: string): TimelineEntry {
  return { lane, t, endT, label, went: 'plain', told: `${capital(label)}, ${clockTime(endT - t)} in all.` }
}

const VERDICTS: Readonly<Record<Verdict, string>> = {
  correct: 'right',
  negative: 'wrong',
  incomplete: 'not whole',
  sayAgain: 'not understood',
  command: 'a command',
}

type Judged = RunEvent<'answered'> | RunEvent<'transmitted'>

/** Right, and refused: something had to come first. */
const isRefused = ({ tooEarly }: Tally, { t }: Judged) =>
  tooEarly.some((one) => (one.of === 'item' || one.of === 'call') && one.t === t)

/** “four point eight up”, wrong */
function toldOf(tally: Tally, judged: Judged): string {
  const { evidence, judgement } = judged
  const { verdict, because } = judgement
  const said = evidence.by === 'key' ? 'by key' : `“${evidence.text}”`
  if (isRefused(tally, judged)) return `${said}, too early`
  return `${said}, ${because === 'valueless' || because === 'acknowledged' ? 'without the value' : VERDICTS[verdict]}`
}

/** Onset of the words where the ear has it, and never before what they answer. */
const onsetWithin = (state: RunState, event: Judged, since: number) =>
  Math.min(event.t, Math.max(since, onsetOf(state, event)))

function wentOf(tally: Tally, tries: readonly Judged[], closed: Went): Went {
  if (tries.some((one) => isMissed(tally, one))) return 'missed'
  if (closed !== 'right') return closed
  return tries.some(({ judgement }) => judgement.verdict === 'sayAgain') ? 'askedAgain' : 'right'
}

/** As it is counted: half a read-back that is gone on with at once is none. */
function isMissed(tally: Tally, one: Judged): boolean {
  if (isRefused(tally, one)) return true
  const own = one.type === 'transmitted' ? (tally.transmissions.get(one.turn) ?? []) : []
  const told = own.find(({ seq }) => seq === one.seq)
  if (told && isGoneOn(told, own)) return false
  return isMiss(one.judgement)
}

/** Each time that an item was put, until the run went on from it. */
function itemsIn(pack: Pack, moments: readonly Moment[], { tally, places }: TimelineFrom): TimelineEntry[] {
  return stretches(moments, ({ floor }) => (floor.at === 'item' ? floor.item : undefined)).map((stretch) => {
    const { id, t, endT } = stretch
    const inside = moments.filter(({ event, before }) => {
      const isHere = before.floor.at === 'item' && before.floor.item === id
      return isHere && event.t >= t && event.t <= endT
    })
    const tries = inside.flatMap(({ event }) => (event.type === 'answered' && event.item === id ? [event] : []))
    const { status, by } = itemState(inside.at(-1)?.after ?? (moments[0]?.after as RunState), id)
    const closed: Went = status === 'passed' ? 'passed' : status !== 'done' ? 'open' : by === 'key' ? 'byKey' : 'right'
    const [first] = tries
    const state = inside.at(-1)?.after
    const answeredAt = first && state ? onsetWithin(state, first, t) : undefined
    const how = { passed: 'passed', open: 'left open', byKey: 'by key, not read back' } as const
    const told = [
      ...tries.map((one) => toldOf(tally, one)),
      ...(closed === 'right' ? [] : [how[closed as keyof typeof how]]),
      ...(answeredAt === undefined ? [] : [`answered after ${seconds(answeredAt - t)}`]),
    ]
    const label = findItem(pack, id).item.challenge
    const from = first && places.byMoment.get(momentKey(first.t, id))
    return {
      ...{ lane: 'item', t, endT, label, went: wentOf(tally, tries, closed) },
      told: `${capital(label)}: ${told.join('; ')}.`,
      ...(answeredAt !== undefined && { answeredAt }),
      ...(from !== undefined && { from }),
    }
  })
}

/** Each call and read-back, from its first word until the turn was done. */
function turnsIn(pack: Pack, moments: readonly Moment[], { tally, places }: TimelineFrom): TimelineEntry[] {
  interface Go {
    readonly said: readonly Moment<'transmitted'>[]
    /** Undefined where it was left open. */
    readonly doneT?: number
  }
  const goes = new Map<string, Go>()
  const done: Go[] = []
  for (const moment of moments) {
    const { event, after } = moment
    if (event.type === 'transmitted') {
      const said = [...(goes.get(event.turn)?.said ?? []), moment as Moment<'transmitted'>]
      goes.set(event.turn, { said })
    }
    // A colleague may have closed it.
    for (const [turn, { said }] of goes) {
      if (turnState(after, turn).status !== 'done') continue
      done.push({ said, doneT: event.t })
      goes.delete(turn)
    }
  }
  return [...done, ...goes.values()].flatMap(({ said: go, doneT }): TimelineEntry[] => {
    const [first, last] = [go[0], go.at(-1)]
    if (!first || !last) return []
    const { turn, t } = first.event
    const { label } = findTurn(pack, turn).turn
    const isDone = doneT !== undefined
    const tries = go.map(({ event }) => event)
    const isByKey = tries.some(({ evidence }) => evidence.by === 'key')
    const onset = onsetWithin(first.after, first.event, 0)
    const from = places.byMoment.get(momentKey(t, turn))
    return [
      {
        ...{ lane: 'talk', t: onset, endT: doneT ?? last.event.t, label },
        went: wentOf(tally, tries, isDone ? (isByKey ? 'byKey' : 'right') : 'open'),
        told: `${capital(label)}: ${[...tries.map((one) => toldOf(tally, one)), ...(isDone ? [] : ['not done'])].join('; ')}.`,
        ...(from !== undefined && { from }),
      },
    ]
  })
}

/** Each attempt at a watch, and its calls between their limits. */
function startsIn(pack: Pack, { after: ground, event }: Moment, tally: Tally, places: Places): TimelineEntry[] {
  const attempts = [...tally.attempts.values()]
  return watchesIn(pack, ground, tally).flatMap((told, index): TimelineEntry[] => {
    const attempt = attempts[index]
    if (!attempt) return []
    const watch = watchById(pack, told.id, ground)
    const from = places.byId.get(told.id)
    const again = from === undefined ? {} : { from }
    const calls = watch.calls.flatMap((call, at): TimelineEntry[] => {
      const account = told.calls[at]
      const { soonestAt, dueAt } = timed(watch, attempt.state, call)
      const heardAt = attempt.state.calls[call.id]
      // What was neither heard nor due has no time.
      const t = heardAt ?? (account?.unheard ? dueAt : undefined)
      if (!account || t === undefined) return []
      const deviations = deviationsOf(account)
      const value = account.value === undefined ? [] : [String(account.value)]
      const within = [
        ...(soonestAt === undefined ? [] : [`not before ${seconds(soonestAt - told.t)}`]),
        ...(dueAt === undefined ? [] : [`by ${seconds(dueAt - told.t)}`]),
      ]
      const when = heardAt === undefined ? 'not heard' : `after ${seconds(t - told.t)}`
      return [
        {
          ...{ lane: 'watch', t, endT: t, label: call.label, went: deviations.length > 0 ? 'missed' : 'right' },
          told: `${capital(told.name)}, ${call.label}: ${[when, ...value, ...within, ...deviations].join(', ')}.`,
          limits: { ...(soonestAt !== undefined && { soonestAt }), ...(dueAt !== undefined && { dueAt }) },
          ...again,
        },
      ]
    })
    const endT = told.stoppedAfterMs !== undefined ? told.t + told.stoppedAfterMs : (calls.at(-1)?.t ?? event.t)
    const isDone = told.status === 'done'
    const how = told.because === undefined ? '' : `, stopped: ${told.because}`
    const went = calls.some((call) => call.went === 'missed') ? 'missed' : isDone ? 'right' : 'open'
    const words = `${capital(told.name)}: ${clockTime(endT - told.t)} in all${isDone ? '' : how || ', not finished'}.`
    return [{ lane: 'watch', t: told.t, endT, label: told.name, went, told: words, ...again }, ...calls]
  })
}

/** What the partner did wrong, and whether anybody objected. */
function faultIn({ t, kind, about, caught, caughtAt = t }: DebriefFault): TimelineEntry {
  const isOfColleague = kind === 'misread' || kind === 'leftOut'
  const isOfStation = isOfColleague || kind === 'readBack' || kind === 'otherCallSign'
  const who = isOfColleague ? 'your colleague' : kind === 'readBack' ? 'the controller' : 'Otherseat'
  return {
    ...{ lane: isOfStation ? 'talk' : 'item', t, endT: caughtAt, label: about, went: caught ? 'right' : 'missed' },
    told: `${capital(about)}: ${who} erred${caught ? `, caught after ${seconds(caughtAt - t)}` : ', and nobody objected'}.`,
  }
}

function figuresIn(moments: readonly Moment[], { revisions }: Tally): TimelineEntry[] {
  const point = (t: number, label: string, told: string): TimelineEntry => ({
    ...{ lane: 'figures', t, endT: t, label, went: 'plain', told },
  })
  const sheets = moments.flatMap(({ event }) =>
    event.type === 'sheetCame' ? [point(event.t, 'sheet', 'A sheet came in.')] : [],
  )
  return [
    ...sheets,
    ...revisions.map(({ revision, status, label, t, givenBy, reopened }) => {
      const open = reopened.length === 0 ? '' : `; opened again: ${reopened.join(', ')}`
      if (givenBy !== undefined) return point(t, 'from a station', `Figures from ${givenBy}${open}.`)
      const name = label === status ? '' : `, ${label}`
      return point(t, status, `${capital(status)} figures accepted as revision ${revision}${name}${open}.`)
    }),
  ]
}

const BREAKS: Readonly<Record<Interruption['what'], string>> = {
  standBy: 'Stood by',
  break: 'Broke off',
  left: 'Left the page',
}

function breaksIn({ interruptions }: RunState, since: number): TimelineEntry[] {
  return interruptions
    .filter(({ t }) => t >= since)
    .map(({ what, t, lengthMs, at }) => ({
      ...{ lane: 'break', t, endT: t + lengthMs, label: BREAKS[what].toLowerCase(), went: 'plain' },
      told: `${BREAKS[what]} at ${at}, ${clockTime(lengthMs)}.`,
    }))
}
