/** pack.yaml and procedures.yaml in their shape -> the pack as the kernel knows it. Names are checked in `checkProcedures.ts`. */

import type { FigureModel } from '../kernel/figures/pack.ts'
import type { KindSpec } from '../kernel/kinds/kind.ts'
import type {
  Abnormal,
  Activity,
  Attempts,
  CallValue,
  Decision,
  Flow,
  Item,
  Line,
  List,
  Note,
  Pack,
  Pause,
  Phase,
  Quirk,
  ResponseCase,
  Situation,
  SituationOption,
  Step,
  Watch,
  WatchCall,
} from '../kernel/pack/checklist.ts'
import { calledEvent } from '../kernel/pack/condition.ts'
import type { Paper } from '../kernel/pack/paper.ts'
import { limitsOf } from '../kernel/pack/place.ts'
import type { Synonyms } from '../kernel/response/packSynonyms.ts'
import { responseFrom } from '../kernel/response/response.ts'
import { NO_HEARD, YES_HEARD } from '../kernel/response/yesNo.ts'
import { anyWayOf, briefingOf, exchangeOf } from './buildExchange.ts'
import { conditionOf, interlocksOf } from './conditions.ts'
import type { PackText } from './packSchema.ts'
import { partStatesIn, statesIn } from './partStates.ts'
import { exactly, nothingMore, present } from './present.ts'
import type {
  ActivityText,
  FlowText,
  ItemText,
  LineText,
  ListText,
  ProceduresText,
  QuestionText,
  WatchText,
} from './proceduresSchema.ts'
import { repeats } from './repeats.ts'

const asOption = exactly<SituationOption>()
const asSituation = exactly<Situation>()

function situationsOf(pack: PackText): Situation[] {
  return Object.entries(pack.situations).map(([name, { options, ...same }]) =>
    asSituation({
      name,
      options: Object.entries(options).map(([value, { say, ...same }]) =>
        asOption({ value, say: anyWayOf(say, pack.synonyms), ...same }),
      ),
      ...same,
    }),
  )
}

/** What texts of procedures are made with. */
interface Ground {
  readonly synonyms: Synonyms
  readonly figures: FigureModel
  readonly situations: PackText['situations']
}

const asItem = exactly<Item>()
const asCase = exactly<ResponseCase>()

/** One item, or as many as it is asked: `before` is the entry before it, that a wait counts from. */
function itemsOf(list: string, text: ItemText, before: string, ground: Ground): Item[] {
  const { times: _, each: __, ...one } = text
  let last = before
  return repeats(text).map(({ id, challenge }) => {
    const item = itemOf(list, { ...one, item: id, challenge }, last, ground)
    last = item.id
    return item
  })
}

function itemOf(
  list: string,
  { item, response, look, when, interlocks, restsOn, states, wait, ...same }: Omit<ItemText, 'times' | 'each'>,
  before: string,
  { synonyms, figures }: Ground,
): Item {
  const cases = typeof response === 'string' ? [{ say: response, when: undefined }] : response
  const responses = cases.map(({ say, when, ...same }) =>
    asCase({ response: responseFrom(say, synonyms), when: conditionOf(when), ...same }),
  )
  // With another limit a reading may be out of it.
  const limits = responses.flatMap(({ response }) => response.figures.flatMap((name) => limitsOf(figures, name)))
  return asItem({
    type: 'item' as const,
    id: `${list}.${item}`,
    responses,
    restsOn: [...new Set([...restsOn, ...limits])],
    states: statesIn(states),
    partStates: partStatesIn(states),
    look: look.length > 0 ? look : undefined,
    when: conditionOf(when),
    interlocks: withWait(interlocksOf(interlocks), wait, before, same.challenge),
    ...same,
  })
}

type Wait = NonNullable<ItemText['wait']>

/** A time to wait is an interlock with the entry before it. */
function withWait(
  interlocks: Item['interlocks'],
  wait: Wait | undefined,
  after: string,
  say: string,
): Item['interlocks'] {
  if (!wait) return interlocks
  const { seconds, due, ...rest } = wait
  nothingMore(rest)
  return [...(interlocks ?? []), present({ after, seconds, say, due })]
}

const asDecision = exactly<Decision>()

/** Any way to say one of the options answers it, and "yes" or "no" where they mean one. */
function questionOf(
  list: string,
  { question, decides, yes, no, challenge, look, when, wait, ...same }: QuestionText,
  before: string,
  { synonyms, situations }: Ground,
): Item {
  const ways = Object.values(situations[decides]?.options ?? {}).flatMap(({ say }) => say)
  const short = [...(yes === undefined ? [] : YES_HEARD), ...(no === undefined ? [] : NO_HEARD)]
  return asItem({
    type: 'item' as const,
    id: `${list}.${question}`,
    challenge,
    responses: [{ response: anyWayOf([...ways, ...short], synonyms) }],
    answers: 'pilot' as const,
    restsOn: [],
    critical: false,
    decides: asDecision({ situation: decides, yes, no }),
    look: look.length > 0 ? look : undefined,
    when: conditionOf(when),
    interlocks: withWait(undefined, wait, before, challenge),
    ...same,
  })
}

const asLine = exactly<Line>()

function lineOf(list: string, { line, clearance, say, when, ...same }: LineText, synonyms: Synonyms): Line {
  return asLine({
    type: 'line' as const,
    id: `${list}.${line}`,
    clearance: clearance ?? line,
    say: anyWayOf(say, synonyms),
    when: conditionOf(when),
    ...same,
  })
}

const asList = exactly<List>()

function listOf({ list, entries, when, ...same }: ListText, ground: Ground): List {
  return asList({
    type: 'list' as const,
    id: list,
    ...entriesOf(list, entries, ground),
    when: conditionOf(when),
    ...same,
  })
}

const asNote = exactly<Note>()

/** What is asked, and the notes between. A wait at the top of a list counts from when that was called. */
function entriesOf(list: string, texts: ListText['entries'], ground: Ground): Pick<List, 'entries' | 'notes'> {
  const entries: (Item | Line)[] = []
  const notes: Note[] = []
  for (const text of texts) {
    const last = entries.at(-1)
    const before = !last ? calledEvent(list) : last.type === 'line' ? `cleared:${last.clearance}` : last.id
    if ('item' in text) entries.push(...itemsOf(list, text, before, ground))
    else if ('question' in text) entries.push(questionOf(list, text, before, ground))
    else if ('line' in text) entries.push(lineOf(list, text, ground.synonyms))
    else {
      const [type, words] = 'note' in text ? (['note', text.note] as const) : (['heading', text.heading] as const)
      notes.push(asNote({ type, text: words, place: entries.length, when: conditionOf(text.when) }))
    }
  }
  return { entries, ...(notes.length > 0 && { notes }) }
}

const asFlow = exactly<Flow>()
const asStep = exactly<Step>()

function flowOf({ flow, steps, silent, when, ...same }: FlowText, synonyms: Synonyms): Flow {
  return asFlow({
    type: 'flow' as const,
    id: flow,
    steps: steps.map((step) => stepOf(flow, step, synonyms)),
    silent: silent || undefined,
    when: conditionOf(when),
    ...same,
  })
}

function stepOf(
  flow: string,
  { step, say, when, interlocks, ...same }: FlowText['steps'][number],
  synonyms: Synonyms,
): Step {
  return asStep({
    id: `${flow}.${step}`,
    say: say.length === 0 ? undefined : anyWayOf(say, synonyms),
    when: conditionOf(when),
    interlocks: interlocksOf(interlocks),
    ...same,
  })
}

const asWatch = exactly<Watch>()
const asCall = exactly<WatchCall>()
const asAbnormal = exactly<Abnormal>()
const asPause = exactly<Pause>()
const asAttempts = exactly<Attempts>()
const asNamed = exactly<NonNullable<CallValue['named']>>()
const asSpec = exactly<KindSpec>()
const asCallValue = exactly<CallValue>()

function watchOf(
  { watch, begins, calls, abnormal, attempts, when, interlocks, ...same }: WatchText,
  synonyms: Synonyms,
): Watch {
  return asWatch({
    type: 'watch' as const,
    id: watch,
    begins: anyWayOf(begins, synonyms),
    calls: calls.map((call) => callOf(call, synonyms)),
    abnormal: abnormal.map(({ abnormal, say, again, ...same }) =>
      asAbnormal({ id: abnormal, say: anyWayOf(say, synonyms), again: again && asPause(again), ...same }),
    ),
    when: conditionOf(when),
    attempts:
      attempts &&
      asAttempts({ ...attempts, rest: attempts.rest && asPause(attempts.rest), cool: asPause(attempts.cool) }),
    interlocks: interlocksOf(interlocks),
    ...same,
  })
}

function callOf({ call, say, value, when, ...same }: WatchText['calls'][number], synonyms: Synonyms): WatchCall {
  return asCall({
    id: call,
    say: anyWayOf(say, synonyms),
    value: value && callValueOf(value),
    when: conditionOf(when),
    ...same,
  })
}

function callValueOf({
  min,
  max,
  label,
  stopWords,
  between,
  ...spec
}: NonNullable<WatchText['calls'][number]['value']>): CallValue {
  const numbers = present({ min: numberIn(min), max: numberIn(max) })
  const names = present({ min: nameIn(min), max: nameIn(max) })
  const named = Object.keys(names).length > 0 ? asNamed(names) : undefined
  return asCallValue({ spec: asSpec(present(spec)) as KindSpec, ...numbers, named, label, stopWords, between })
}

const numberIn = (end: string | number | undefined) => (typeof end === 'number' ? end : undefined)
const nameIn = (end: string | number | undefined) => (typeof end === 'string' ? end : undefined)

function activityOf(text: ActivityText, ground: Ground): Activity {
  const { synonyms } = ground
  if ('flow' in text) return flowOf(text, synonyms)
  if ('list' in text) return listOf(text, ground)
  if ('watch' in text) return watchOf(text, synonyms)
  return 'exchange' in text ? exchangeOf(text, synonyms) : briefingOf(text, synonyms)
}

const asPack = exactly<Pack>()
const asPhase = exactly<Phase>()
const asQuirk = exactly<Quirk>()

/** `units` are the figures' (`buildFigures.ts`). */
export function buildPack(
  pack: PackText,
  figures: FigureModel,
  procedures: ProceduresText,
  papers: readonly Paper[],
  texts: Pack['texts'],
  sha256: string,
): Pack {
  const { situations: _, units: __, quirks, synonyms, ...same } = pack
  const { phases, ...rest } = procedures
  nothingMore(rest)
  return asPack({
    sha256,
    texts,
    figures,
    papers,
    situations: situationsOf(pack),
    quirks: quirks.map((quirk) => asQuirk(quirk)),
    phases: phases.map(({ phase, activities, ...same }) =>
      asPhase({
        id: phase,
        activities: activities.map((activity) =>
          activityOf(activity, { synonyms, figures, situations: pack.situations }),
        ),
        ...same,
      }),
    ),
    ...same,
  })
}
