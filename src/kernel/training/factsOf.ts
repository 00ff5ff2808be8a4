/** A log, folded once more, for the facts of its run. */

import type { Pack } from '../pack/checklist.ts'
import { findItem, saidFigures } from '../pack/place.ts'
import { partNames } from '../response/readBack.ts'
import { emptyRun } from '../run/core/emptyRun.ts'
import type { Evidence, RunEvent } from '../run/core/events.ts'
import { onsetOf } from '../run/core/onset.ts'
import { itemState } from '../run/core/progress.ts'
import type { RunState } from '../run/core/state.ts'
import { deviationsOf, tellAttempts, watchesIn } from '../run/debrief/debriefWatch.ts'
import { momentsOf } from '../run/debrief/moments.ts'
import { emptyTally, type Moment } from '../run/debrief/tally.ts'
import { flowAt, openSteps } from '../run/list/flowSteps.ts'
import { readBacksOf } from '../run/talk/radio.ts'
import { findTurn, turnState } from '../run/talk/talk.ts'
import { causeOf, FACTS_EDITION, type RunFacts, type Trial } from './facts.ts'
import { plantedIn } from './planted.ts'
import { createResumptions } from './resumptions.ts'

/** What has been asked and not yet been answered in a way that could be understood. */
interface Asked {
  /** Undefined once the time says nothing any more. */
  since: number | undefined
  isJudged: boolean
  isHelped: boolean
}

/**
 * Made from the log of one run, in order and from its beginning, and the run's own pack. Throws where the log does not begin
 * with `runStarted`, or names what the pack does not have.
 */
export function factsOf(pack: Pack, events: readonly RunEvent[]): RunFacts {
  const [first] = events
  if (first?.type !== 'runStarted') throw new Error('the log does not begin with runStarted')
  const trials = createTrials(pack, first.startedAt)
  const resumptions = createResumptions()
  const tally = emptyTally()
  const { own } = momentsOf(pack, events)
  for (const moment of own) {
    trials.tell(moment)
    resumptions.tell(moment)
    tellAttempts(tally, moment)
  }
  const end = own.at(-1)?.after ?? emptyRun(first.runId)
  // Whoever shows a room what a wrong answer draws gives wrong ones on purpose.
  if (end.wasDemonstrated) {
    const { runId, startedAt } = first
    return { edition: FACTS_EDITION, runId, packId: first.pack.id, startedAt, trials: [], resumptions: [], planted: [] }
  }
  return {
    edition: FACTS_EDITION,
    runId: first.runId,
    packId: first.pack.id,
    startedAt: first.startedAt,
    ...(first.drill && { drill: true }),
    ...(first.dial && { dial: first.dial }),
    trials: [...trials.all(), ...watchTrials(pack, end, tally)]
      .map((trial) => ({ ...trial, card: first.drill?.[trial.card] ?? trial.card }))
      .sort((one, other) => one.t - other.t),
    resumptions: resumptions.all(),
    planted: plantedIn(pack, own, first.again ? undefined : first.dealt),
  }
}

/** Calls of engine starts; those that an abandoned start never came to are none. */
function watchTrials(pack: Pack, end: RunState, tally: ReturnType<typeof emptyTally>): Trial[] {
  return watchesIn(pack, end, tally).flatMap(({ id, t, calls }) =>
    calls.flatMap((call): Trial[] => {
      if (call.afterMs === undefined && !call.unheard) return []
      const right = deviationsOf(call).length === 0
      const isOut = call.outside.length > 0 || (call.unfit?.length ?? 0) > 0
      const cause = call.earlyAfterMs !== undefined ? 'tooEarly' : isOut ? 'outsideLimits' : 'late'
      return [
        { of: 'watchCall', card: `${id}.${call.label}`, t: t + (call.afterMs ?? 0), right, ...(!right && { cause }) },
      ]
    }),
  )
}

function createTrials(pack: Pack, startedAt: number) {
  const trials: Trial[] = []
  const asked = new Map<string, Asked>()

  const ask = (key: string, since: number | undefined) => asked.set(key, { since, isJudged: false, isHelped: false })

  /** Only what was heard or typed is a trial: a key press is no answer. */
  function judge(
    key: string,
    evidence: Evidence,
    trial: Omit<Trial, 'ms' | 'helped'> & { readonly helped?: boolean },
  ): void {
    const open = asked.get(key)
    if (!open || open.isJudged) return
    open.isJudged = true
    if (evidence.by === 'key') return
    const { helped, cause, ...rest } = trial
    const ms = open.since === undefined ? -1 : Math.round(onsetOf({ startedAt }, { t: trial.t, evidence }) - open.since)
    trials.push({
      ...rest,
      ...(ms >= 0 && { ms }),
      ...(!trial.right && cause && { cause }),
      ...((helped || open.isHelped) && { helped: true }),
    })
  }

  function tellAnswered({ event, before, after }: Moment): void {
    if (event.type !== 'answered' || before.floor.at !== 'item' || before.floor.item !== event.item) return
    const { verdict } = event.judgement
    if (event.revision !== before.revision || verdict === 'sayAgain' || verdict === 'command') return
    const isRefused = verdict === 'correct' && itemState(after, event.item).status !== 'done'
    judge(`item ${event.item}`, event.evidence, {
      of: saidFigures(findItem(pack, event.item).item, before).length > 0 ? 'value' : 'word',
      card: event.item,
      t: event.t,
      right: verdict === 'correct' && !isRefused,
      cause: isRefused ? 'tooEarly' : causeOf(event.judgement),
      helped: itemState(before, event.item).revealed,
    })
  }

  function tellTransmitted({ event, before }: Moment): void {
    if (event.type !== 'transmitted' || event.revision !== before.revision) return
    const { verdict } = event.judgement
    const { turn } = findTurn(pack, event.turn)
    const { status, shown } = turnState(before, turn.id)
    if (verdict === 'sayAgain' || verdict === 'command') return
    const common = { card: turn.id, t: event.t, right: verdict === 'correct', cause: causeOf(event.judgement) }
    if (event.part === 'call') {
      const key = `call ${turn.id}`
      if (!asked.has(key)) ask(key, undefined)
      judge(key, event.evidence, { ...common, of: 'exchange' })
      return
    }
    if (status !== 'said') return
    const elements = readBacksOf(turn, before).filter((one) => partNames(one).required.size > 0).length
    judge(`turn ${turn.id}`, event.evidence, { ...common, of: 'readBack', elements, helped: shown })
  }

  function tellReading({ event }: Moment): void {
    if (event.type !== 'ownValueSaid') return
    const { figure: card, isRight: right, causes, t } = event
    const cause = causeOf({ verdict: 'negative', causes })
    judge(`figure ${card}`, event.evidence, { of: 'reading', card, t, right, cause })
  }

  /** A flow from memory is right where the pilot ends it, all of its steps being said to be done, without having it read out. */
  function tellFlow({ event, before, after }: Moment): void {
    const flow = flowAt(pack, before.floor)
    if (!flow || flow.silent || before.settings.flows !== 'memory') return
    if (event.type === 'flowAsked') {
      const open = asked.get(`flow ${flow.id}`)
      if (open) open.isHelped = true
    }
    if (before.flowsClosed.includes(flow.id) || !after.flowsClosed.includes(flow.id)) return
    const isEnded = event.type !== 'listCalled' || openSteps(flow, before).length === 0
    const isHelped = asked.get(`flow ${flow.id}`)?.isHelped ?? false
    const evidence = 'evidence' in event && event.evidence ? event.evidence : { by: 'key' as const, text: '' }
    judge(
      `flow ${flow.id}`,
      { ...evidence, by: 'voice' },
      {
        of: 'flow',
        card: flow.id,
        t: event.t,
        right: isEnded && !isHelped,
        cause: isHelped ? 'notFromMemory' : 'notEnded',
      },
    )
  }

  /** Asks again begin anew; what comes between a challenge and its answer leaves the answer without a time. */
  function tellAsked({ event, before, after }: Moment): void {
    const { floor, question } = after
    if (floor.at === 'item' && (before.floor.at !== 'item' || before.floor.item !== floor.item)) {
      ask(`item ${floor.item}`, event.t)
    }
    const flow = flowAt(pack, floor)
    if (flow && flowAt(pack, before.floor) !== flow) ask(`flow ${flow.id}`, event.t)
    if (question?.about === 'ownValue' && !isSameQuestion(before, question.figure))
      ask(`figure ${question.figure}`, event.t)
    for (const [id, turn] of Object.entries(after.turns)) {
      const was = before.turns[id]
      if (turn === was) continue
      if (turn.status === 'said' && was?.status !== 'said') ask(`turn ${id}`, event.t)
      if (turn.status === 'ahead' && was?.status === 'done') asked.delete(`call ${id}`)
    }
    if (event.type === 'figuresRevised') untimed(event.t)
    if (event.type === 'resumed' || event.type === 'commanded') untimed(undefined)
    if (event.type === 'commanded' && event.command === 'sayAgain') {
      for (const [id, { status }] of Object.entries(before.turns)) {
        // What nobody could hear has to be asked for.
        const isWhole = before.script?.steppedOn?.[id] === undefined
        const open = status === 'said' && isWhole ? asked.get(`turn ${id}`) : undefined
        if (open) open.isHelped = true
      }
    }
  }

  function untimed(since: number | undefined): void {
    for (const one of asked.values()) if (!one.isJudged) one.since = since
  }

  return {
    all: (): readonly Trial[] => trials,
    tell(seen: Moment): void {
      tellAnswered(seen)
      tellTransmitted(seen)
      tellReading(seen)
      tellFlow(seen)
      tellAsked(seen)
      if (seen.event.type === 'confirmedByKey') asked.delete(`item ${seen.event.item}`)
    },
  }
}

const isSameQuestion = ({ question }: RunState, figure: string) =>
  question?.about === 'ownValue' && question.figure === figure
