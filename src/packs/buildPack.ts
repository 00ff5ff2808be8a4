/** pack.yaml and procedures.yaml in their shape -> the pack as the kernel knows it. Names are checked in `checkProcedures.ts`. */

import type { FigureModel } from '../kernel/figures/pack.ts'
import type { KindSpec } from '../kernel/kinds/kind.ts'
import type {
  Abnormal,
  Activity,
  CallValue,
  Flow,
  Item,
  Line,
  List,
  Pack,
  Phase,
  Quirk,
  ResponseCase,
  Situation,
  SituationOption,
  Step,
  Watch,
  WatchCall,
} from '../kernel/pack/checklist.ts'
import type { Paper } from '../kernel/pack/paper.ts'
import { limitsOf } from '../kernel/pack/place.ts'
import type { Synonyms } from '../kernel/response/packSynonyms.ts'
import { responseFrom } from '../kernel/response/response.ts'
import { anyWayOf, briefingOf, exchangeOf } from './buildExchange.ts'
import { conditionOf, interlocksOf } from './conditions.ts'
import type { PackText } from './packSchema.ts'
import { partStatesIn, statesIn } from './partStates.ts'
import { exactly, nothingMore } from './present.ts'
import type {
  ActivityText,
  FlowText,
  ItemText,
  LineText,
  ListText,
  ProceduresText,
  WatchText,
} from './proceduresSchema.ts'

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
}

const asItem = exactly<Item>()
const asCase = exactly<ResponseCase>()

function itemOf(
  list: string,
  { item, response, look, when, interlocks, restsOn, states, ...same }: ItemText,
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
    interlocks: interlocksOf(interlocks),
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
    entries: entries.map((entry) =>
      'item' in entry ? itemOf(list, entry, ground) : lineOf(list, entry, ground.synonyms),
    ),
    when: conditionOf(when),
    ...same,
  })
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
const asPause = exactly<NonNullable<Abnormal['again']>>()
const asSpec = exactly<KindSpec>()
const asCallValue = exactly<CallValue>()

function watchOf({ watch, begins, calls, abnormal, when, interlocks, ...same }: WatchText, synonyms: Synonyms): Watch {
  return asWatch({
    type: 'watch' as const,
    id: watch,
    begins: anyWayOf(begins, synonyms),
    calls: calls.map((call) => callOf(call, synonyms)),
    abnormal: abnormal.map(({ abnormal, say, again, ...same }) =>
      asAbnormal({ id: abnormal, say: anyWayOf(say, synonyms), again: again && asPause(again), ...same }),
    ),
    when: conditionOf(when),
    interlocks: interlocksOf(interlocks),
    ...same,
  })
}

function callOf({ call, say, value, ...same }: WatchText['calls'][number], synonyms: Synonyms): WatchCall {
  return asCall({ id: call, say: anyWayOf(say, synonyms), value: value && callValueOf(value), ...same })
}

function callValueOf({
  min,
  max,
  label,
  stopWords,
  between,
  ...spec
}: NonNullable<WatchText['calls'][number]['value']>): CallValue {
  return asCallValue({ spec: asSpec(spec), min, max, label, stopWords, between })
}

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
        activities: activities.map((activity) => activityOf(activity, { synonyms, figures })),
        ...same,
      }),
    ),
    ...same,
  })
}
