/**
 * Deviations of a run by kind, each where it stands: what the debrief has of lists, flows, exchanges and starts, laid out
 * by the kinds that observers in airline cockpits used. In 60 flights they noted 899 deviations: 194 in the use of
 * checklists, 391 in monitoring, 314 in primary procedures (Dismukes and Berman, NASA/TM-2010-216396, 2010; looked up at
 * ntrs.nasa.gov/citations/20110011145, the counts in a quotation of it). Its six kinds for checklists are read and do,
 * answered without looking, item left out, wrong timing, from memory and not begun (from memory); what was said from memory
 * cannot be heard, so that kind is not among these. The others are ours.
 */

import { capital } from '../../capital.ts'
import type { Pack } from '../../pack/checklist.ts'
import { type DebriefBriefing, isLastWrong, LEFT_OUT_THEN, refusedWords, rightWords } from './debriefBriefing.ts'
import type { DebriefItem, DebriefList } from './debriefList.ts'
import type { DebriefExchange, DebriefTurn } from './debriefTalk.ts'
import { type DebriefTry, isGoneOn, saying } from './debriefTry.ts'
import { type DebriefCall, type DebriefFlow, type DebriefWatch, deviationsOf, seconds } from './debriefWatch.ts'
import { type DebriefLooks, ratioWords } from './look/looks.ts'
import type { NotEnded, OutOfOrder, TooEarly } from './tally.ts'
import { missingIn, whyOf } from './whyWrong.ts'

/** In the order in which they are told. */
export const DEVIATION_KINDS = [
  'wrong',
  'sequence',
  'hearBack',
  'notBegun',
  'notCompleted',
  'leftOut',
  'given',
  'valueless',
  'readDo',
  'tooQuick',
] as const
export type DeviationKind = (typeof DEVIATION_KINDS)[number]

/** What each is called, and what is wrong with it. */
export const DEVIATION_WORDS: Readonly<Record<DeviationKind, { readonly name: string; readonly about: string }>> = {
  wrong: {
    name: 'Wrong value or state',
    about: 'Answered, read back, read out or briefed otherwise than was right, or outside its limits.',
  },
  sequence: { name: 'Wrong timing or sequence', about: 'Done, called or begun before its turn, or after its time.' },
  hearBack: { name: 'Hear-back missed', about: 'A station erred, and nobody objected.' },
  notBegun: { name: 'Not begun', about: 'A list, a flow, an exchange or a briefing whose time came and passed.' },
  notCompleted: { name: 'Not completed', about: 'Begun, and left before its end.' },
  leftOut: { name: 'Left out', about: 'An item, a topic, a call or a part of an answer that did not come by itself.' },
  given: {
    name: 'Value given',
    about: 'Shown or told before it was said, and not read where it stands.',
  },
  valueless: { name: 'Without the value', about: '“Checked”, “set” or “roger” in place of what was to be read out.' },
  readDo: {
    name: 'Flow done as read and do',
    about: 'A flow is done from memory and its list checks it; read out, nothing checks it.',
  },
  tooQuick: {
    name: 'Perhaps answered without looking',
    about: 'Sooner than your own times for a look: a likelihood, no verdict.',
  },
}

export interface Deviation {
  readonly kind: DeviationKind
  /** A challenge, a turn, a list, a flow, a start. */
  readonly where: string
  /** Ms from the start of the run, where it happened at one moment. */
  readonly at?: number
  /** As heard or typed. */
  readonly said?: string
  /** What happened. */
  readonly sentence: string
  /** What should have been, or why it counts. */
  readonly why: string
  /** Of `tooQuick`: how many times likelier without a look. */
  readonly ratio?: number
}

/** What they are taken from: parts of a debrief, and two tables of its tally. */
export interface DeviationsFrom {
  readonly tooEarly: readonly TooEarly[]
  readonly outOfOrder: readonly OutOfOrder[]
  readonly notEnded: readonly NotEnded[]
  readonly lists: readonly DebriefList[]
  readonly exchanges: readonly DebriefExchange[]
  readonly briefings: readonly DebriefBriefing[]
  readonly watches: readonly DebriefWatch[]
  readonly flows: readonly DebriefFlow[]
  readonly looks: DebriefLooks
  /** Flow -> when it was first read out. */
  readonly readOut: ReadonlyMap<string, number>
  /** Item -> when its value was first given. */
  readonly givenAt: ReadonlyMap<string, number>
  /** The run has ended, or all of its lists are complete: what is open will not be done any more. */
  readonly isOver: boolean
}

/** By kind, and within it by time; those without a time come last. */
export function deviationsOfRun(pack: Pack, from: DeviationsFrom): readonly Deviation[] {
  const found = [
    ...sequencesIn(from),
    ...from.watches.flatMap(callsIn),
    ...listsIn(from),
    ...talksIn(from),
    ...from.lists.flatMap(({ items }) => items).flatMap((item) => itemIn(pack, item, from)),
    ...from.exchanges.flatMap(({ turns }) => turns).flatMap((turn) => turnIn(pack, turn, from)),
    ...from.briefings.flatMap(topicsIn),
    ...readOutIn(from),
    ...quickIn(from),
  ]
  const time = ({ at = Number.POSITIVE_INFINITY }: Deviation) => at
  return DEVIATION_KINDS.flatMap((kind) =>
    found.filter((one) => one.kind === kind).toSorted((one, other) => (time(one) < time(other) ? -1 : 1)),
  )
}

/** Deviations of each kind that there were. */
export function byKind(deviations: readonly Deviation[]): (readonly [DeviationKind, readonly Deviation[]])[] {
  return DEVIATION_KINDS.map((kind) => [kind, deviations.filter((one) => one.kind === kind)] as const).filter(
    ([, all]) => all.length > 0,
  )
}

const CALLED = { item: 'Called done', step: 'Called done', call: 'Called', start: 'Begun' } as const

function sequencesIn(from: DeviationsFrom): Deviation[] {
  const { tooEarly, flows, briefings } = from
  const { outOfOrder, notEnded } = withoutUndone(from)
  const nameOf = (id: string) => [...flows, ...briefings].find((one) => one.id === id)?.name ?? ''
  return [
    ...tooEarly.map(({ t, text, what, caution, waitMs, of }) => ({
      ...{ kind: 'sequence' as const, where: what, at: t, ...saying(text) },
      sentence: `${CALLED[of ?? 'step']} ${waitMs === undefined ? 'before its time' : `${seconds(waitMs)} too early`}.`,
      // "Push clearance first", as it was said then.
      why: `First: ${caution.replace(/ first$/, '')}.`,
    })),
    ...outOfOrder.map(({ t, list, before }) => ({
      ...{ kind: 'sequence' as const, where: list, at: t },
      ...{ sentence: 'Called before its turn.', why: `${before} was due first.` },
    })),
    ...notEnded.map(({ t, id, text, isUnbegun }) => ({
      ...{ kind: isUnbegun ? ('notBegun' as const) : ('notCompleted' as const), where: nameOf(id), at: t },
      sentence: `${text}.`,
      why: isUnbegun ? 'The list checks what was done before it.' : 'Its end is called, so that both seats know.',
    })),
  ]
}

/** What a call is alone, without the others of its deviations. */
const PLAIN: DebriefCall = { label: '', outside: [], late: false, unheard: false }

function callsIn({ name, t, calls }: DebriefWatch): Deviation[] {
  return calls.flatMap((call): Deviation[] => {
    const { label, afterMs, earlyAfterMs, outside, unfit = [], aheadOf, late, unheard } = call
    const readAt = outside[0]?.afterMs ?? afterMs
    const read = { outside, unfit, ...(readAt !== undefined && { afterMs: readAt }) }
    const of = (kind: DeviationKind, only: Partial<DebriefCall>, afterwards: number | undefined, why: string) =>
      deviationsOf({ ...PLAIN, ...only }).map((words) => ({
        ...{ kind, where: name, sentence: `${capital(label)}: ${words}.`, why },
        ...(afterwards !== undefined && { at: t + afterwards }),
      }))
    return [
      ...(earlyAfterMs === undefined
        ? []
        : of('sequence', { earlyAfterMs }, earlyAfterMs, 'A call says what is seen.')),
      ...of('wrong', read, readAt, 'It is read against its limits.'),
      ...(aheadOf === undefined ? [] : of('sequence', { aheadOf }, afterMs, 'Its calls have their order.')),
      ...(late ? of('sequence', { late }, afterMs, 'Its limit had passed.') : []),
      ...(unheard ? of('leftOut', { unheard }, undefined, 'What nobody calls, nobody may have seen.') : []),
    ]
  })
}

function listsIn({ lists, isOver }: DeviationsFrom): Deviation[] {
  const lastCalled = lists.findLastIndex(({ called }) => called)
  return lists.flatMap(({ name, called, complete, revoked, items }, at): Deviation[] => {
    if (complete) return []
    if (!called) {
      const notRun = {
        kind: 'notBegun' as const,
        where: name,
        sentence: 'The list was not run.',
        why: 'Its time had come.',
      }
      return at < lastCalled ? [notRun] : []
    }
    if (!isOver && at >= lastCalled) return []
    const open = items
      .filter(({ status }) => status !== 'done' && status !== 'passed')
      .map(({ challenge }) => challenge)
    const left = open.length === 0 ? 'Its completion was not called.' : `Open at the end: ${open.join(', ')}.`
    // Of a run begun behind it nobody has said anything of it.
    const wasRun = items.some(({ tries, by }) => tries.length > 0 || by !== undefined)
    const again = wasRun ? 'It was complete, and not run again' : 'It counted as complete, and was not asked for again'
    const sentence = revoked ? `${again} after the figures changed.` : left
    return [{ kind: 'notCompleted', where: name, sentence, why: revoked ? left : 'A list counts when it is complete.' }]
  })
}

type Talks = Pick<DeviationsFrom, 'exchanges' | 'briefings'>

/** Exchanges and briefings that are open, and whose time is over. */
export const undoneIn = ({ exchanges, briefings }: Talks): (DebriefExchange | DebriefBriefing)[] =>
  [...exchanges, ...briefings].filter(({ done, passed }) => passed && !done)

/** What was never done is told as that alone, not for each list that was called before it. */
export function withoutUndone({
  outOfOrder,
  notEnded,
  ...talks
}: Talks & Pick<DeviationsFrom, 'outOfOrder' | 'notEnded'>): Pick<DeviationsFrom, 'outOfOrder' | 'notEnded'> {
  const undone = undoneIn(talks)
  return {
    outOfOrder: outOfOrder.filter(({ before }) => !undone.some(({ name }) => name === before)),
    notEnded: notEnded.filter(({ id }) => !undone.some((one) => one.id === id)),
  }
}

function talksIn(from: DeviationsFrom): Deviation[] {
  return undoneIn(from).map((talk): Deviation => {
    const isExchange = 'turns' in talk
    const open = isExchange
      ? talk.turns.filter(({ done }) => !done).map(({ label }) => label)
      : talk.topics.filter(({ state }) => state === 'open').map(({ label }) => label)
    const all = isExchange ? talk.turns : talk.topics
    const why = isExchange
      ? 'What was not said there, the station does not know.'
      : 'What nobody briefs, nobody expects.'
    const isUnsaid = !isExchange || talk.turns.every(({ tries }) => tries.length === 0)
    if (open.length === all.length && isUnsaid)
      return { kind: 'notBegun', where: talk.name, sentence: 'It was left out.', why }
    const wrong = isExchange ? [] : talk.topics.filter(({ state }) => state === 'wrong').map(({ label }) => label)
    const refused = isExchange ? '' : refusedWords(talk)
    const sentences = [
      ...(open.length > 0 ? [`Left open: ${open.join(', ')}.`] : []),
      ...(wrong.length > 0 ? [`Said wrong, and not put right: ${wrong.join(', ')}.`] : []),
      ...(refused === '' ? [] : [`${capital(refused)}.`]),
    ]
    const sentence = sentences.length === 0 ? 'Its end was not called.' : sentences.join(' ')
    return { kind: 'notCompleted', where: talk.name, sentence, why }
  })
}

function itemIn(pack: Pack, item: DebriefItem, { givenAt }: DeviationsFrom): Deviation[] {
  const { id, challenge, status, given, tries } = item
  return [
    ...tries.flatMap((one) => [...wrongIn(pack, id, challenge, one), ...partsIn(pack, id, challenge, one)]),
    ...(status === 'leftOpen'
      ? [{ kind: 'leftOut' as const, where: challenge, sentence: 'Left open.', why: 'Nobody came back to it.' }]
      : []),
    // What was given and is still to be said may yet be read.
    ...(given && tries.length > 0 ? [givenIn(challenge, givenAt.get(id))] : []),
  ]
}

function turnIn(pack: Pack, { id, label, tries, slip }: DebriefTurn, { isOver }: DeviationsFrom): Deviation[] {
  const at = tries.at(-1)?.t
  return [
    ...tries.flatMap((one) => wrongIn(pack, id, label, one)),
    ...tries.filter((one) => !isGoneOn(one, tries)).flatMap((one) => partsIn(pack, id, label, one)),
    // While the run goes on, there is still time to object.
    ...(isOver && slip && !slip.noticed
      ? [
          {
            ...{ kind: 'hearBack' as const, where: label, ...(at !== undefined && { at }) },
            ...{ sentence: 'The controller erred here.', why: 'What comes back is heard against what was said.' },
          },
        ]
      : []),
  ]
}

/** Of one answer, call or read-back: another value, direction or state. */
function wrongIn(pack: Pack, id: string, where: string, one: DebriefTry): Deviation[] {
  const { t, text, judgement } = one
  if (judgement.verdict !== 'negative') return []
  const what = judgement.because === 'limit' ? 'Outside its limits.' : 'Not what was right.'
  return [{ kind: 'wrong', where, at: t, ...saying(text), sentence: what, why: whyOf(pack, id, one) }]
}

/** Of one answer or read-back: its value left out, or a part of it. */
function partsIn(pack: Pack, id: string, where: string, one: DebriefTry): Deviation[] {
  const { t, text, judgement } = one
  const { verdict, because } = judgement
  if (verdict !== 'incomplete') return []
  const place = { where, at: t, ...saying(text) }
  if (because === 'acknowledged')
    return [{ kind: 'valueless', ...place, sentence: 'Acknowledged.', why: 'A clearance is read back.' }]
  if (because === 'valueless')
    return [{ kind: 'valueless', ...place, sentence: 'Said to be done.', why: 'The value is the answer.' }]
  const missing = missingIn(pack, id, one)
  const sentence = `Left out: ${missing.join(', ')}.`
  return missing.length === 0 ? [] : [{ kind: 'leftOut', ...place, sentence, why: 'It had to be asked for.' }]
}

const givenIn = (where: string, at: number | undefined): Deviation => ({
  ...{ kind: 'given', where, sentence: 'Its value was shown or told.' },
  why: 'What is said after that shows no reading.',
  ...(at !== undefined && { at }),
})

const topicsIn = ({ name, topics, refused }: DebriefBriefing): Deviation[] => [
  ...topics.flatMap((topic) =>
    topic.wrong.map(({ right, ...one }) => ({
      ...{ kind: 'wrong' as const, where: name, at: one.t, ...saying(one.said ?? '') },
      sentence: `${capital(topic.label)} was briefed with a wrong value${isLastWrong(topic, one.t) ? ', and not put right' : ''}.`,
      why: rightWords(right),
    })),
  ),
  ...topics
    .filter(({ leftOut }) => leftOut)
    .map(({ label, state }) => ({
      ...{ kind: 'leftOut' as const, where: name, ...(refused[0] && { at: refused[0].t }) },
      sentence: `${capital(label)} was left out ${state === 'open' ? 'of it' : 'at first'}.`,
      why: LEFT_OUT_THEN[state],
    })),
]

const readOutIn = ({ flows, readOut }: DeviationsFrom): Deviation[] =>
  flows.flatMap(({ id, name }): Deviation[] => {
    const at = readOut.get(id)
    if (at === undefined) return []
    return [
      { kind: 'readDo', where: name, at, sentence: 'It was read out step by step.', why: 'Do it, then check it.' },
    ]
  })

function quickIn({ looks }: DeviationsFrom): Deviation[] {
  if (!looks.isCalibrated) return []
  return looks.answers
    .filter(({ isQuick }) => isQuick)
    .map((answer) => ({
      ...{ kind: 'tooQuick', where: answer.challenge, at: answer.t, ...saying(answer.text), ratio: answer.ratio },
      sentence: `Answered ${ratioWords(answer)}.`,
      why: answer.look.length === 0 ? 'Look, then answer.' : `Look at ${answer.look.join(', ')}, then answer.`,
    }))
}
