/** pack.yaml and procedures.yaml in their shape -> the pack as the kernel knows it. Names are checked in `checkProcedures.ts`. */

import type { FigureModel } from '../kernel/figures/pack.ts'
import type {
  Activity,
  Flow,
  Item,
  Line,
  List,
  Pack,
  Situation,
  Step,
  Watch,
  WatchCall,
} from '../kernel/pack/checklist.ts'
import { responseFrom } from '../kernel/response/response.ts'
import { anyWayOf, briefingOf, exchangeOf } from './buildExchange.ts'
import { conditionOf, interlocksOf } from './conditions.ts'
import type { PackText } from './packSchema.ts'
import { present } from './present.ts'
import type {
  ActivityText,
  FlowText,
  ItemText,
  LineText,
  ListText,
  ProceduresText,
  WatchText,
} from './proceduresSchema.ts'

function situationsOf(pack: PackText): Situation[] {
  return Object.entries(pack.situations).map(([name, { label, initial, options }]) => ({
    name,
    label,
    initial,
    options: Object.entries(options).map(([value, { label, say }]) => ({ value, label, say: anyWayOf(say) })),
  }))
}

function itemOf(list: string, text: ItemText): Item {
  const { item, challenge, response, states, answers, look, restsOn, caution, critical } = text
  const cases = typeof response === 'string' ? [{ say: response }] : response
  return present({
    type: 'item' as const,
    id: `${list}.${item}`,
    challenge,
    responses: cases.map((one) =>
      present({ when: conditionOf('when' in one ? one.when : undefined), response: responseFrom(one.say) }),
    ),
    states,
    answers,
    when: conditionOf(text.when),
    look: look.length > 0 ? look : undefined,
    restsOn,
    caution,
    interlocks: interlocksOf(text.interlocks),
    critical,
  })
}

function lineOf(list: string, { line, clearance, label, say, when }: LineText): Line {
  const condition = when && conditionOf(when)
  return present({
    type: 'line' as const,
    id: `${list}.${line}`,
    clearance: clearance ?? line,
    label,
    say: anyWayOf(say),
    when: condition,
  })
}

function listOf({ list, name, alsoCalled, needsFinal, when, caution, entries }: ListText): List {
  return present({
    type: 'list' as const,
    id: list,
    name,
    alsoCalled,
    entries: entries.map((entry) => ('item' in entry ? itemOf(list, entry) : lineOf(list, entry))),
    when: conditionOf(when),
    needsFinal,
    caution,
  })
}

function flowOf({ flow, name, steps, when, caution, silent }: FlowText): Flow {
  return present({
    type: 'flow' as const,
    id: flow,
    name,
    steps: steps.map((step) => stepOf(flow, step)),
    silent: silent || undefined,
    when: conditionOf(when),
    caution,
  })
}

function stepOf(flow: string, { step, text, say, sets, when, caution, interlocks }: FlowText['steps'][number]): Step {
  return present({
    id: `${flow}.${step}`,
    text,
    say: say.length === 0 ? undefined : anyWayOf(say),
    sets,
    interlocks: interlocksOf(interlocks),
    when: conditionOf(when),
    caution,
  })
}

function callOf({ call, say, value, ...rest }: WatchText['calls'][number]): WatchCall {
  const plain = { id: call, say: anyWayOf(say), ...rest }
  if (!value) return present(plain)
  const { min, max, ...spec } = value
  return present({ ...plain, value: { spec, min, max } })
}

function watchOf(text: WatchText): Watch {
  const { watch, name, begins, hold, calls, abnormal, stopWords, when, caution } = text
  return present({
    type: 'watch' as const,
    id: watch,
    name,
    begins: anyWayOf(begins),
    hold,
    calls: calls.map(callOf),
    abnormal: abnormal.map(({ abnormal: id, say, ...rest }) => present({ id, say: anyWayOf(say), ...rest })),
    stopWords,
    interlocks: interlocksOf(text.interlocks),
    when: conditionOf(when),
    caution,
  })
}

function activityOf(text: ActivityText): Activity {
  if ('flow' in text) return flowOf(text)
  if ('list' in text) return listOf(text)
  if ('watch' in text) return watchOf(text)
  return 'exchange' in text ? exchangeOf(text) : briefingOf(text)
}

export function buildPack(
  pack: PackText,
  figures: FigureModel,
  procedures: ProceduresText,
  texts: Pack['texts'],
  sha256: string,
): Pack {
  const { id, version, name, aircraft, operator, caution, pronunciations } = pack
  return {
    id,
    version,
    sha256,
    texts,
    name,
    aircraft,
    operator,
    caution,
    pronunciations,
    figures,
    situations: situationsOf(pack),
    quirks: pack.quirks,
    phases: procedures.phases.map(({ phase, name, activities }) => ({
      id: phase,
      name,
      activities: activities.map(activityOf),
    })),
  }
}
