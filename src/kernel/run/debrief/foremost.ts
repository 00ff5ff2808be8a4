/**
 * What to take away from a run: three things at most, the gravest first, each of another kind; and what went well.
 *
 * The weight is what it can do, not how wrong the words were. In this order: the aircraft onto a runway without a clearance;
 * an engine or a system outside its limits; a briefing or a check between the seats that never took place; a critical item,
 * or an old value of a critical figure; controls that move the wrong way; a caution that was broken. Behind these come
 * other values, an altimeter setting or a transponder code first, what was left out, and last what is form: sequence, a call some seconds early, a key. Within a kind what
 * the pack has stopped at once comes before what it does not, too much before too little, wrong before missing, and then
 * the earlier one.
 */

import { capital } from '../../capital.ts'
import { band } from '../../figures/entered.ts'
import type { Pack } from '../../pack/checklist.ts'
import type { Role } from '../../pack/roles.ts'
import { isMiss } from '../../response/model.ts'
import { type DebriefBriefing, type DebriefTopic, isLastWrong, LEFT_OUT_THEN, rightWords } from './debriefBriefing.ts'
import type { DebriefCatch } from './debriefCatches.ts'
import type { DebriefList } from './debriefList.ts'
import type { DebriefPartner } from './debriefPartner.ts'
import type { DebriefExchange } from './debriefTalk.ts'
import { type DebriefTransmission, type DebriefTry, isGoneOn, saying } from './debriefTry.ts'
import { type DebriefWatch, deviationsOf, seconds } from './debriefWatch.ts'
import { type Deviation, undoneIn, withoutUndone } from './deviations.ts'
import { criticalOf, isOfRunway, isOfTraffic } from './grave.ts'
import { momentKey, noPlaces, type Places } from './places.ts'
import type { NotEnded, OutOfOrder, TooEarly } from './tally.ts'
import { whyOf } from './whyWrong.ts'

/** Gravest first. */
const KINDS = [
  /** To hold short, cross, line up or take off, or the runway of it, read back as something else. */
  'runway',
  /** An engine start went on outside its limits, or a gauge was read outside them. */
  'limit',
  /** A briefing, or an order or check between the seats, of which nothing was said. */
  'crewNotDone',
  /** A critical item answered wrong, or a critical figure of an older edition. */
  'critical',
  /** The controls seen to move otherwise than they were moved. */
  'controls',
  /** Called done before what protects somebody. */
  'caution',
  /** A value of an older edition, said or left standing. */
  'stale',
  /** A wrong value of the partner's, or a critical item that it left out, and nobody objected. */
  'letGo',
  /** A controller's slip that nobody noticed. */
  'slip',
  /** An element of a clearance read back wrong, or left out. */
  'readBack',
  'wrongValue',
  'wrongState',
  'listNotRun',
  /** An exchange or a briefing that was left out, or left open. */
  'talkNotDone',
  /** Anything else that the partner did wrong, and nobody objected. */
  'unnoticed',
  /** The value was asked for or shown. */
  'given',
  /** "Checked", "set", "roger". */
  'valueless',
  'partMissing',
  /** An answer that came far sooner than a look takes: a likelihood, so it is behind all that is certain. */
  'tooQuick',
  'outOfOrder',
  /** Called done before some seconds had passed. */
  'wait',
  /** A call of an engine start late, missing, or sooner than it can be seen. */
  'call',
  'topic',
  'byKey',
  /** A flow that was read out step by step. */
  'readDo',
  /** Whatever else is a deviation: nothing is missed only where there is none. */
  'other',
] as const
export type ForemostKind = (typeof KINDS)[number]

export interface Foremost {
  readonly kind: ForemostKind
  /** What it was about: a challenge, a turn, a start, a list. */
  readonly about: string
  /** Ms from the start of the run, where it happened at one moment. */
  readonly t?: number
  /** As heard or typed. */
  readonly said?: string
  /** Number of the event in which it was said. */
  readonly saidIn?: number
  /** One sentence: what was right by then, and why. */
  readonly why: string
  /** How many more of this kind the run holds. */
  readonly more: number
  /** Number of the event from which it can be done again. */
  readonly from?: number
}

interface Found extends Omit<Foremost, 'more' | 'from' | 'saidIn'> {
  /** What it was about by its id: of an item, a turn, a list, a start or a briefing. */
  readonly of?: string
  /** Within its kind: 0 where it is not said. */
  readonly weight?: number
}

/** What of a debrief it is chosen from. */
export interface Told {
  readonly tooEarly: readonly TooEarly[]
  readonly watches: readonly DebriefWatch[]
  readonly lists: readonly DebriefList[]
  readonly exchanges: readonly DebriefExchange[]
  readonly briefings: readonly DebriefBriefing[]
  readonly catches: readonly DebriefCatch[]
  readonly outOfOrder: readonly OutOfOrder[]
  readonly notEnded: readonly NotEnded[]
  readonly deviations: readonly Deviation[]
  readonly partner?: Pick<DebriefPartner, 'faults'>
}

const MOST = 3

export function foremostIn(pack: Pack, debrief: Told, places: Places = noPlaces()): readonly Foremost[] {
  const chosen = [
    ...cautionsIn(debrief),
    ...startsIn(debrief),
    ...itemsIn(pack, debrief),
    ...turnsIn(pack, debrief),
    ...listsIn(debrief),
    ...briefingsIn(debrief),
    ...talksIn(debrief),
    ...catchesIn(pack, debrief),
    ...habitsIn(debrief),
    ...faultsIn(debrief),
  ]
  const found = chosen.length > 0 ? chosen : othersIn(debrief)
  return KINDS.flatMap((kind): Foremost[] => {
    const ofKind = found
      .filter((one) => one.kind === kind)
      .toSorted((one, other) => (other.weight ?? 0) - (one.weight ?? 0) || (one.t ?? 0) - (other.t ?? 0))
    const [first, ...rest] = ofKind
    if (!first) return []
    const { of, weight: _, ...told } = first
    const { t, said } = told
    const at = t === undefined ? undefined : places.byMoment.get(momentKey(t, of))
    const from = at ?? (of === undefined ? undefined : places.byId.get(of))
    const saidIn =
      t === undefined || said === undefined
        ? undefined
        : (places.saidIn.get(momentKey(t, of)) ?? places.saidIn.get(momentKey(t)))
    return [
      {
        ...{ ...told, more: rest.length },
        ...(from !== undefined && { from }),
        ...(saidIn !== undefined && { saidIn }),
      },
    ]
  }).slice(0, MOST)
}

const cautionsIn = ({ tooEarly }: Told): Found[] =>
  tooEarly.map(({ t, text, what, caution, waitMs, isOrder }) => ({
    ...{ kind: waitMs !== undefined ? 'wait' : isOrder ? 'outOfOrder' : 'caution', about: what, t },
    ...saying(text),
    why: `${waitMs === undefined ? 'First' : `${seconds(waitMs)} too early`}: ${caution}.`,
  }))

function startsIn({ watches }: Told): Found[] {
  return watches.flatMap(({ id, name, t: beganAt, calls }) =>
    calls.flatMap((call): Found[] => {
      const deviations = deviationsOf(call)
      if (deviations.length === 0) return []
      const { label, outside, limits, stops } = call
      const t = beganAt + (outside[0]?.afterMs ?? call.afterMs ?? 0)
      const right = limits === undefined ? '' : `; ${band(limits, undefined)} is within limits`
      const why = `${capital(label)}: ${deviations.join('; ')}${right}.`
      if (outside.length === 0) return [{ kind: 'call', about: name, of: id, t, why }]
      const isOver = outside.some(({ value }) => Number(value) > (limits?.max ?? Number.POSITIVE_INFINITY))
      return [{ kind: 'limit', about: name, of: id, t, why, weight: (stops ? 2 : 0) + (isOver ? 1 : 0) }]
    }),
  )
}

function itemsIn(pack: Pack, { lists }: Told): Found[] {
  const critical = criticalOf(pack)
  return lists
    .flatMap(({ items }) => items)
    .flatMap(({ id, challenge, tries, given, by }): Found[] => {
      const about = challenge
      const of = id
      return [
        ...tries.flatMap((one): Found[] => {
          const kind = isCritical(critical, id, one) ? 'critical' : kindOf(one)
          const told = { about, of, t: one.t, ...saying(one.text), why: whyOf(pack, id, one) }
          return kind ? [{ kind, ...told, weight: isOfTraffic(pack, one) ? 1 : 0 }] : []
        }),
        ...(given
          ? [{ kind: 'given' as const, about, of, why: 'Its value was shown or told before it was said.' }]
          : []),
        ...(by === 'key' ? [{ kind: 'byKey' as const, about, of, why: 'Closed by key, not read back.' }] : []),
      ]
    })
}

/** Wrong in a critical item, or a critical figure of an older edition wherever it is said. */
function isCritical(critical: ReturnType<typeof criticalOf>, id: string, one: DebriefTry): boolean {
  const kind = kindOf(one)
  if (kind === 'stale') {
    const { parts } = one.judgement
    return critical.items.has(id) || parts.some(({ name, state }) => state === 'wrong' && critical.figures.has(name))
  }
  return critical.items.has(id) && (kind === 'wrongValue' || kind === 'wrongState')
}

function kindOf({ judgement: { verdict, because, causes = [], parts } }: DebriefTry): ForemostKind | undefined {
  if (verdict === 'incomplete') return because === 'valueless' ? 'valueless' : 'partMissing'
  if (verdict !== 'negative') return undefined
  if (because === 'limit') return 'limit'
  if (causes.some(({ cause }) => cause === 'earlierRevision')) return 'stale'
  return parts.some(({ kind, state }) => kind === 'figure' && state === 'wrong') ? 'wrongValue' : 'wrongState'
}

function turnsIn(pack: Pack, { exchanges }: Told): Found[] {
  return exchanges.flatMap(({ role, turns }) =>
    turns.flatMap(({ id, label, tries, slip }): Found[] => [
      ...tries.flatMap((one): Found[] => {
        const { verdict } = one.judgement
        if (!isMiss(one.judgement)) return []
        const kind = kindInTurn(pack, { id, role }, one)
        // The rest of a long read-back may come in a second breath.
        if (kind === 'readBack' && isGoneOn(one, tries)) return []
        const weight = (verdict === 'negative' ? 1 : 0) + (isOfTraffic(pack, one) ? 2 : 0)
        return [{ kind, about: label, of: id, t: one.t, ...saying(one.text), why: whyOf(pack, id, one), weight }]
      }),
      ...(slip && !slip.noticed
        ? [{ kind: 'slip' as const, about: label, of: id, why: 'The controller erred, and nobody objected.' }]
        : []),
    ]),
  )
}

function kindInTurn(
  pack: Pack,
  { id, role }: { readonly id: string; readonly role: Role },
  one: DebriefTransmission,
): ForemostKind {
  const { verdict, because } = one.judgement
  if (because === 'acknowledged') return 'valueless'
  if (one.part === 'call') return kindOf(one) ?? 'partMissing'
  if (isOfRunway(pack, id, one)) return 'runway'
  return role === 'otherseat' && verdict === 'negative' ? 'controls' : 'readBack'
}

function listsIn(told: Told): Found[] {
  const { lists } = told
  const { outOfOrder, notEnded } = withoutUndone(told)
  const lastCalled = lists.findLastIndex(({ called }) => called)
  return [
    ...lists
      .slice(0, Math.max(0, lastCalled))
      .filter(({ called, complete }) => !called && !complete)
      .map(({ id, name }) => ({ kind: 'listNotRun' as const, about: name, of: id, why: 'The list was not run.' })),
    ...outOfOrder.map(({ t, list, before, wasRun }) => ({
      ...{ kind: 'outOfOrder' as const, about: list, t, weight: wasRun ? 1 : 0 },
      why: `It was called before ${before}.`,
    })),
    ...notEnded.map(({ t, text }) => ({ kind: 'outOfOrder' as const, about: 'sequence', t, why: `${text}.` })),
  ]
}

const briefingsIn = ({ briefings }: Told): Found[] =>
  briefings.flatMap(({ id, name, topics }) =>
    topics.flatMap((topic): Found[] => [
      ...topic.wrong.map(({ t, said, right }): Found => {
        const isStanding = isLastWrong(topic, t)
        return {
          ...{ kind: 'wrongValue', about: `${name}, ${topic.label}`, of: id, t, ...saying(said ?? '') },
          why: `${rightWords(right)}${isStanding ? ' It was not put right.' : ''}`,
          weight: isStanding ? 1 : 0,
        }
      }),
      ...(topic.leftOut ? [leftOutOf(topic, id, name)] : []),
    ]),
  )

const leftOutOf = ({ label, state }: DebriefTopic, of: string, about: string): Found => ({
  ...{ kind: 'topic', about, of },
  why: `${capital(label)} was left out ${state === 'open' ? 'of it' : 'at first'}. ${LEFT_OUT_THEN[state]}`,
})

const talksIn = (told: Told): Found[] =>
  undoneIn(told).flatMap((talk) => {
    const { id, name } = talk
    const isBriefing = 'topics' in talk
    const isOfCrew = isBriefing || talk.role === 'otherseat'
    return told.deviations
      .filter(({ kind, where }) => where === name && (kind === 'notBegun' || kind === 'notCompleted'))
      .map(({ kind: how, sentence, why }) => ({
        ...{ kind: isOfCrew && how === 'notBegun' ? 'crewNotDone' : 'talkNotDone', about: name, of: id },
        ...{ why: `${sentence} ${why}`, weight: isBriefing ? 1 : 0 },
      }))
  })

function catchesIn(pack: Pack, { catches }: Told): Found[] {
  const { items } = criticalOf(pack)
  return catches
    .filter(({ by }) => by !== 'pilot')
    .map(({ item, challenge, changedAt }) => ({
      ...{ kind: items.has(item) ? 'critical' : 'stale', about: challenge, t: changedAt },
      why: 'It changed here, and the old value was left standing.',
    }))
}

/** A controller's word is told with its turn. */
const faultsIn = ({ partner }: Told): Found[] =>
  (partner?.faults ?? [])
    .filter(({ caught, kind }) => !caught && kind !== 'readBack')
    .map(({ grave, about, of, t, told }) => ({ kind: grave ? 'letGo' : 'unnoticed', about, of, t, why: told }))

const HABITS: ReadonlySet<string> = new Set(['tooQuick', 'readDo'])
/** Below this a wait says too little to be among three things. */
const CLEARLY = 10

const isClear = ({ ratio }: Deviation) => ratio === undefined || ratio >= CLEARLY

const habitsIn = ({ deviations }: Told): Found[] =>
  deviations.filter((one) => HABITS.has(one.kind) && isClear(one)).map((one) => foundAs(one.kind as ForemostKind, one))

const othersIn = ({ deviations }: Told): Found[] => deviations.filter(isClear).map((one) => foundAs('other', one))

function foundAs(kind: ForemostKind, { where, at, said, sentence, why }: Deviation): Found {
  return {
    ...{ kind, about: where, why: `${sentence} ${why}` },
    ...(at !== undefined && { t: at }),
    ...(said !== undefined && { said }),
  }
}

/** "Right the first time: 30 of 34 items, 8 of 9 calls and read-backs, 2 of 2 engine starts." Empty where nothing was. */
export function wentWellIn({ lists, exchanges, watches }: Told): string {
  const items = lists.flatMap((list) => list.items).filter(({ tries }) => tries.length > 0)
  const turns = exchanges.flatMap((exchange) => exchange.turns).filter(({ tries }) => tries.length > 0)
  const clean = [
    of(items, ({ misses, given, by }) => misses === 0 && !given && by !== 'key', 'items'),
    of(turns, ({ misses, slip }) => misses === 0 && slip?.noticed !== false, 'calls and read-backs'),
    of(
      watches,
      ({ status, calls }) => status === 'done' && calls.every((call) => deviationsOf(call).length === 0),
      'engine starts',
    ),
  ].filter((one) => one !== '')
  return clean.length === 0 ? '' : `Right the first time: ${clean.join(', ')}.`
}

function of<T>(all: readonly T[], isClean: (one: T) => boolean, name: string): string {
  const count = all.filter(isClean).length
  return count === 0 ? '' : `${count} of ${all.length} ${name}`
}
