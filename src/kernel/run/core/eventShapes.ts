/** What each stored event must hold. An event type that has no entry here, or a field without one, does not compile. */

import {
  type FigureChange,
  type Inputs,
  type LastMinuteChange,
  type Settlement,
  STATUSES,
} from '../../figures/model.ts'
import { PHRASEOLOGIES } from '../../kinds/kind.ts'
import type { Lack } from '../../kinds/reading.ts'
import type { Band } from '../../kinds/value.ts'
import { COMMANDS } from '../../response/commands.ts'
import {
  type Alternative,
  type Because,
  type Cause,
  type Judgement,
  type Part,
  VERDICTS,
} from '../../response/model.ts'
import {
  type Fields,
  flag,
  listOf,
  nameIn,
  number,
  object,
  oneOf,
  optional,
  recordOf,
  text,
  value,
} from '../../shape.ts'
import type { LookTimes, Times } from '../debrief/look/lookTimes.ts'
import { BREAKERS, FAULT_KINDS, type Fault, GRADES, OBJECTIONS } from '../partner/model.ts'
import {
  type By,
  CUE_MODES,
  DEMONSTRATION_STOPS,
  type Dial,
  type EventBody,
  type EventFields,
  type EventType,
  type Evidence,
  FLOW_MODES,
  PAPER_HANDLINGS,
  type PackInLog,
  RADIO_NOISES,
  RADIO_PARTS,
  READ_BACK_MODES,
  ROLES_MODES,
  RUN_COMMANDS,
  type RunAgain,
  type RunEvent,
  type RunSettings,
  type Script,
  type ScriptedBy,
  type Slip,
} from './events.ts'
import { INJECTION_KINDS, type Injection } from './injections.ts'

type Stamp = Omit<RunEvent, keyof EventBody>

/** What every event has, besides its version and its type. */
export const STAMP: Fields<Omit<Stamp, 'v'>> = { seq: number, runId: text, t: number, wall: text }

const values = recordOf(value)

const evidence = object<Evidence>({
  by: nameIn<By>({ voice: true, typed: true, key: true, file: true }),
  text,
  score: optional(number),
  alternatives: optional(listOf(object<Alternative>({ text, score: optional(number) }))),
  beganAt: optional(number),
  endedAt: optional(number),
  early: optional(flag),
  saidUntil: optional(number),
})

const lack = nameIn<Lack>({ direction: true, digits: true, decimals: true })

const part = object<Part>({
  name: text,
  kind: nameIn<Part['kind']>({ word: true, figure: true }),
  state: nameIn<Part['state']>({ ok: true, wrong: true, missing: true }),
  heard: optional(text),
  read: optional(value),
  expected: optional(value),
  limits: optional(object<Band>({ min: optional(number), max: optional(number) })),
  lacks: optional(lack),
  doubtful: optional(flag),
})

const cause = object<Cause>({
  cause: nameIn<Cause['cause']>({
    earlierRevision: true,
    otherFigure: true,
    digitsSwapped: true,
    neighbourRow: true,
    neighbourColumn: true,
    otherFlap: true,
    otherUnit: true,
  }),
  detail: text,
})

const judgement = object<Judgement>({
  verdict: oneOf(VERDICTS),
  command: optional(oneOf(COMMANDS)),
  argument: optional(text),
  parts: listOf(part),
  because: optional(
    nameIn<Because>({
      value: true,
      direction: true,
      state: true,
      unit: true,
      form: true,
      ambiguous: true,
      implausible: true,
      twoValues: true,
      notUnderstood: true,
      missing: true,
      refused: true,
      valueless: true,
      limit: true,
      acknowledged: true,
    }),
  ),
  form: optional(text),
  causes: optional(listOf(cause)),
})

const inputs = object<Inputs>({
  status: oneOf(STATUSES),
  label: optional(text),
  values,
  said: optional(values),
  loads: recordOf(number),
  situation: optional(recordOf(text)),
  stated: optional(recordOf(values)),
  settled: optional(recordOf(object<Settlement>({ use: text, reason: text, over: optional(values) }))),
  lastMinute: optional(
    listOf(object<LastMinuteChange>({ station: text, weight: optional(number), count: optional(number) })),
  ),
})

export const injection = object<Injection>({
  kind: oneOf(INJECTION_KINDS),
  sheet: optional(inputs),
  words: optional(text),
  seconds: optional(number),
  seed: optional(number),
  abnormal: optional(text),
})

const change = object<FigureChange>({
  figure: text,
  label: text,
  from: optional(value),
  to: optional(value),
  spoken: flag,
})

const times = object<Times>({ count: number, mean: number, squares: number })

const settings = object<RunSettings>({
  phraseology: oneOf(PHRASEOLOGIES),
  coachAfter: number,
  digitsFirst: optional(flag),
  radio: optional(nameIn<NonNullable<RunSettings['radio']>>({ icao: true, faa: true })),
  flows: optional(oneOf(FLOW_MODES)),
  timesAloud: optional(flag),
  lateCatch: optional(flag),
  ownValues: optional(flag),
  breakAfterS: optional(number),
  lookTimes: optional(object<LookTimes>({ value: times, state: times, word: times })),
  roles: optional(oneOf(ROLES_MODES)),
  readBacks: optional(oneOf(READ_BACK_MODES)),
  partner: optional(object<NonNullable<RunSettings['partner']>>({ seed: number, rate: number })),
  breaks: optional(object<NonNullable<RunSettings['breaks']>>({ seed: number, rate: number, cues: oneOf(CUE_MODES) })),
})

const script = object<Script>({
  values,
  by: optional(recordOf(object<ScriptedBy>({ figure: text, values }))),
  slip: optional(
    object<Slip>({
      turn: text,
      figure: text,
      kind: nameIn<Slip['kind']>({ acceptsWrong: true, saysAnother: true }),
      seed: number,
    }),
  ),
  steppedOn: optional(recordOf(text)),
})

const dial = object<Dial>({
  ...{ wordsAMinute: number, noise: oneOf(RADIO_NOISES), likeCallSigns: flag, steppedOn: flag },
  ...{ standBy: flag, handOvers: flag, amendments: flag },
})

const topic = nameIn<'ok' | 'wrong'>({ ok: true, wrong: true })

const fault = object<Fault>({
  kind: oneOf(FAULT_KINDS),
  grade: oneOf(GRADES),
  about: text,
  figure: optional(text),
  said: optional(value),
  right: optional(value),
  items: optional(listOf(text)),
  element: optional(text),
  seed: optional(number),
})

export const EVENT_FIELDS: {
  readonly [Type in EventType]: Fields<EventFields[Type]>
} = {
  runStarted: {
    notice: optional(text),
    pack: object<PackInLog>({ id: text, version: text, sha256: text, name: text, texts: recordOf(text) }),
    situation: recordOf(text),
    settings,
    startedAt: number,
    dealt: optional(number),
    drill: optional(recordOf(text)),
    script: optional(script),
    dial: optional(dial),
    again: optional(object<RunAgain>({ runId: text, seq: number, lastMisses: optional(number) })),
  },
  begunAt: { activity: text, evidence },
  demonstrated: { isOn: flag, stops: oneOf(DEMONSTRATION_STOPS), asksRoom: flag },
  frozen: { said: optional(evidence) },
  unfrozen: {},
  figuresRevised: {
    revision: number,
    status: oneOf(STATUSES),
    label: text,
    inputs,
    values,
    changes: listOf(change),
    warnings: listOf(text),
    warned: optional(listOf(text)),
    crossChecked: optional(text),
    takenDown: optional(text),
    sheet: optional(inputs),
    takenOver: optional(flag),
  },
  sheetCame: { sheet: inputs },
  paperHandled: { edition: text, how: oneOf(PAPER_HANDLINGS) },
  padWritten: { text, strokes: listOf(listOf(number)) },
  crossCheckAsked: { figure: text, source: text, evidence },
  stated: { source: text, figure: text, value, evidence },
  ownValueSaid: { figure: text, value, isRight: flag, causes: listOf(cause), evidence },
  ownValueBegun: { figure: text, lacks: lack, evidence },
  situationSet: { name: text, value: text, evidence },
  cleared: { clearance: text, evidence },
  listCalled: { list: text, evidence },
  stepDone: { step: text, evidence },
  flowClosed: { flow: text, evidence },
  flowAsked: { flow: text, evidence },
  answered: { item: text, evidence, judgement, expected: values, challengeRevision: number, revision: number },
  voided: {
    item: text,
    evidence,
    because: nameIn<EventFields['voided']['because']>({
      figuresChanged: true,
      late: true,
      onsetCut: true,
    }),
  },
  transmitted: {
    exchange: text,
    turn: text,
    part: nameIn<'call' | 'readBack'>({ call: true, readBack: true }),
    evidence,
    judgement,
    expected: values,
    revision: number,
  },
  briefed: {
    briefing: text,
    evidence,
    topics: recordOf(topic),
    parts: optional(recordOf(recordOf(topic))),
    heard: listOf(text),
    ends: optional(flag),
  },
  briefingEnded: { briefing: text, evidence },
  wordsShown: { turn: text, evidence },
  overheard: {
    evidence,
    watch: optional(text),
    meant: optional(flag),
    first: optional(text),
    unchallenged: optional(flag),
  },
  commanded: { command: oneOf(RUN_COMMANDS), argument: optional(text), meant: optional(flag), evidence },
  confirmedByKey: { item: text, evidence, expected: values, revision: number },
  radioed: { turn: text, part: oneOf(RADIO_PARTS) },
  faultPlanned: { fault },
  breakPlanned: { item: text, by: oneOf(BREAKERS), cue: flag },
  injected: { order: text, by: text, given: text, what: injection },
  breakOver: { evidence },
  challenged: { item: text, evidence },
  accepted: { item: text, evidence },
  objected: {
    to: oneOf(OBJECTIONS),
    chance: optional(number),
    item: optional(text),
    elements: optional(listOf(text)),
    evidence,
  },
  watchBegan: { watch: text, at: number, evidence },
  watchCalled: { watch: text, call: text, at: number, value: optional(value), inRange: optional(flag), evidence },
  watchStopped: { watch: text, abnormal: text, at: number, evidence },
  watchDue: { watch: text, call: text, stage: nameIn<'ask' | 'limit'>({ ask: true, limit: true }) },
  timeUp: { of: text },
  silent: { order: number, after: nameIn<'prompt' | 'tone'>({ prompt: true, tone: true }) },
  earFailed: { message: text, typing: optional(flag) },
  earBack: {},
  voiceFailed: { text },
  resumed: {},
  stopped: { message: text, evidence: optional(evidence) },
  ended: {},
}
