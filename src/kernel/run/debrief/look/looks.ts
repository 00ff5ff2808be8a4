/**
 * Whether the pilot can have looked before answering: the time from the end of the challenge to the first sound of the
 * answer, against the pilot's own times. Told as a likelihood with its errors, never as a verdict, and never aloud: who
 * looked ahead of the challenge answers as soon as who did not look at all.
 */

import type { Item } from '../../../pack/checklist.ts'
import { findItem, saidFigures } from '../../../pack/place.ts'
import { itemState } from '../../core/progress.ts'
import type { RunState } from '../../core/state.ts'
import type { Moment, Tally } from '../tally.ts'
import { learned } from './learning.ts'
import { isTelling, type LookModels, likelihoodRatio, modelsOf } from './lookModel.ts'
import { LONGEST_MS, LOOKS, type LookKind, type LookTimes, type LookWait, SHORTEST_MS } from './lookTimes.ts'

/** `ms` is below zero where the answer began before the challenge had ended. */
export interface LookAnswer extends LookWait {
  /** How many times likelier the wait is without a look than with one, from a thousandth to a thousand. */
  readonly ratio: number
  /** Below the threshold of its kind, where that tells anything. */
  readonly isQuick: boolean
}

export type DebriefLooks =
  /** Nothing is known of the pilot's times: waits alone. */
  | { readonly isCalibrated: false; readonly answers: readonly LookWait[] }
  | { readonly isCalibrated: true; readonly models: LookModels; readonly answers: readonly LookAnswer[] }

/** Notes the wait of an answer that follows its challenge at once. */
export function tellLook(tally: Tally, { pack, event, before, after }: Moment): void {
  if (event.type === 'answered' && tally.justPut === event.item) {
    const wait = waitOf(findItem(pack, event.item).item, event, before)
    if (wait) tally.looks.push(wait)
  }
  const isPut = after.floorListenId !== before.floorListenId && after.floor.at === 'item'
  tally.justPut = isPut && after.floor.at === 'item' ? after.floor.item : undefined
}

type Answered = Moment<'answered'>['event']

const IS_ANSWER: ReadonlySet<string> = new Set(['correct', 'negative', 'incomplete'])

/** Undefined where nothing was to be looked at, or the wait is not known: typed, from memory, after its value was given. */
function waitOf(item: Item, { evidence, judgement, t }: Answered, before: RunState): LookWait | undefined {
  const { by, text, beganAt, saidUntil, early } = evidence
  const { memory = false, look = [], challenge } = item
  const isKnown = by === 'voice' && beganAt !== undefined && (saidUntil !== undefined || early)
  if (!isKnown || memory || !IS_ANSWER.has(judgement.verdict) || itemState(before, item.id).revealed) return undefined
  const kind = lookAt(item, before)
  // Cut off, it has no end; what began in it began before its end in any case.
  const ms = saidUntil === undefined ? -1 : beganAt - saidUntil
  return kind && ms <= LONGEST_MS ? { kind, ms, challenge, t, text, look } : undefined
}

/** A word that the pack gives neither states nor a place to look at tells nothing of a look. */
function lookAt(item: Item, state: RunState): LookKind | undefined {
  if (saidFigures(item, state).length > 0) return 'value'
  return item.look || item.states || item.partStates ? 'state' : undefined
}

/** A thousandth to a thousand: beyond that the two distributions are not known well enough. */
const FARTHEST = 1_000

/** By what was known of the pilot when the run began, and by the run itself. */
export function looksIn({ looks }: Tally, times: LookTimes | undefined): DebriefLooks {
  if (!times) return { isCalibrated: false, answers: looks }
  const models = modelsOf(learned(times, looks))
  const answers = looks.map((wait): LookAnswer => {
    const model = models[wait.kind]
    const ratio = likelihoodRatio(model, Math.max(wait.ms, SHORTEST_MS))
    return {
      ...wait,
      ratio: Math.min(FARTHEST, Math.max(1 / FARTHEST, ratio)),
      isQuick: isTelling(model) && wait.ms < model.thresholdMs,
    }
  })
  return { isCalibrated: true, models, answers }
}

/** "A value", as it is read. */
const WHAT: Readonly<Record<LookKind, string>> = { value: 'a value', state: 'a state' }
const seconds = (ms: number) => `${(ms / 1_000).toFixed(2)} s`

/** "Answered 0.31 s after the challenge: 40 times likelier without a look than with one." */
export function ratioWords({ ms, ratio }: LookAnswer): string {
  const when = ms < 0 ? 'before the challenge had ended' : `${seconds(ms)} after the challenge`
  const times = ratio >= 1 ? ratio : 1 / ratio
  const most = times >= FARTHEST ? `more than ${FARTHEST}` : times < 10 ? times.toFixed(1) : String(Math.round(times))
  const how = ratio >= 1 ? 'likelier without a look than with one' : 'likelier with a look than without'
  return `${when}: ${most} times ${how}`
}

/** What the times say, kind by kind; how to calibrate them where they are not known. */
export function looksWords(looks: DebriefLooks): string[] {
  if (!looks.isCalibrated) {
    const what =
      looks.answers.length === 0
        ? ''
        : ` ${looks.answers.length} waits were measured, and there is nothing to hold them against.`
    return [`Not known yet.${what} The sound check measures your times by its eight lines; runs after that tell.`]
  }
  return LOOKS.map((kind) => modelWords(looks.models, kind))
}

function modelWords(models: LookModels, kind: LookKind): string {
  const { lookedMs, quickMs, thresholdMs, errorRate } = models[kind]
  const times = `To read ${WHAT[kind]} takes you about ${seconds(lookedMs)}, to answer without a look ${seconds(quickMs)}`
  const percent = Math.max(1, Math.round(errorRate * 100))
  if (!isTelling(models[kind])) return `${times}: too close together for your spread to tell one from the other.`
  return (
    `${times}. Quick is below ${seconds(thresholdMs)}: by your spread ${percent} in 100 answers with a look are ` +
    `quicker than that, and ${percent} in 100 without one slower.`
  )
}
