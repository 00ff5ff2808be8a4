/**
 * All that can happen in a run (what the log holds) and all that can be asked for in return. Events are past, effects
 * are orders. An event carries what was decided and its evidence, so that a replay repeats no decision.
 */

import type { FigureChange, Inputs, Status } from '../../figures/model.ts'
import type { Hearable } from '../../hearing/hearable.ts'
import type { Value } from '../../kinds/kind.ts'
import type { Lack } from '../../kinds/reading.ts'
import type { Role } from '../../pack/roles.ts'
import { COMMANDS, type Command } from '../../response/commands.ts'
import type { Cause, Judgement } from '../../response/model.ts'
import type { PartsOfTopics } from '../../response/topics.ts'
import type { LookTimes } from '../debrief/look/lookTimes.ts'
import type { Fault, ObjectionTo, PlannedBreak } from '../partner/model.ts'
import type { Injection } from './injections.ts'

/** Stands in every log, above every debrief and on every paper. */
export const NOTICE = 'For training and simulation only'

/** How something came in. A key press in place of a read-back is logged as just that. */
export type By = 'voice' | 'typed' | 'key' | 'file'

export interface Evidence {
  readonly by: By
  /** The words, as heard or typed; empty for a key. */
  readonly text: string
  readonly score?: number
  readonly alternatives?: readonly { readonly text: string; readonly score?: number }[]
  readonly beganAt?: number
  readonly endedAt?: number
  /** It began before the challenge had been said to its end. */
  readonly early?: boolean
  /** Clock time at which what was said to the pilot before had ended; of speech only. */
  readonly saidUntil?: number
}

type Nothing = Readonly<Record<never, never>>

/** Each event by its name, with what it holds. Stored as it is: a changed field needs a migration in `readLog.ts`. */
export interface EventFields {
  readonly runStarted: {
    /** What the run is not for. */
    readonly notice?: string
    readonly pack: PackInLog
    readonly situation: Readonly<Record<string, string>>
    readonly settings: RunSettings
    /** Clock time, ms since 1970: times of speech are counted from it. */
    readonly startedAt: number
    /** The departure was dealt: the same number deals the same one, with its trap. */
    readonly dealt?: number
    /** A short run of what was due, on a pack that has this alone: its items -> the same items in the whole pack. */
    readonly drill?: Readonly<Record<string, string>>
    /** What the voices outside the crew will say; without it they are left out. */
    readonly script?: Script
    /** Read-backs and nothing else: how they are put. */
    readonly dial?: Dial
    /** A moment of another run, done again. */
    readonly again?: RunAgain
  }
  /** The run is begun in the middle, on the figures of the events before: all that comes before this activity counts as done. */
  readonly begunAt: { readonly activity: string; readonly evidence: Evidence }
  /**
   * It is shown to a room from here on, or no more: values stand beside answers, once these are in, and training leaves the
   * run out. `asksRoom`: an answer waits for its verdict until the run goes on.
   */
  readonly demonstrated: {
    readonly isOn: boolean
    readonly stops: DemonstrationStops
    readonly asksRoom: boolean
  }
  /** Nothing is said, heard or timed until it goes on. `said`: an answer that waits for its verdict. */
  readonly frozen: { readonly said?: Evidence }
  readonly unfrozen: Nothing
  readonly figuresRevised: {
    readonly revision: number
    readonly status: Status
    readonly label: string
    readonly inputs: Inputs
    /** Every figure's spoken value in this revision. */
    readonly values: Readonly<Record<string, Value>>
    readonly changes: readonly FigureChange[]
    /** Limits broken and gross errors: no list is complete until they are acknowledged. */
    readonly warnings: readonly string[]
    /** The same as the voice names them, each once; older logs do not have it. */
    readonly warned?: readonly string[]
    /** Entered because this figure was read aloud. */
    readonly crossChecked?: string
    /** Entered because this turn of an exchange gave the values. */
    readonly takenDown?: string
    /** The sheet that came with it: what its papers print. */
    readonly sheet?: Inputs
    /** Taken over from the sheet by a button, not typed. */
    readonly takenOver?: boolean
  }
  /** A sheet came in by itself: its papers are on the table, the figures in force are as before. */
  readonly sheetCame: { readonly sheet: Inputs }
  /** No mark: reading papers is the job. */
  readonly paperHandled: { readonly edition: string; readonly how: PaperHandling }
  /** The scratch pad as it stands: what is typed, and lines drawn by hand, each as x and y in turn, in thousandths of its width. */
  readonly padWritten: { readonly text: string; readonly strokes: readonly (readonly number[])[] }
  /** The pilot wants to read a value aloud off a source; empty where the one that was named is none of the figure's. */
  readonly crossCheckAsked: { readonly figure: string; readonly source: string; readonly evidence: Evidence }
  /** Read off a source aloud; the revision that takes it in follows at once. */
  readonly stated: {
    readonly source: string
    readonly figure: string
    readonly value: Value
    readonly evidence: Evidence
  }
  /** What the pilot worked out, beside Otherseat's own value, and what a wrong one fits. */
  readonly ownValueSaid: {
    readonly figure: string
    readonly value: Value
    readonly isRight: boolean
    readonly causes: readonly Cause[]
    readonly evidence: Evidence
  }
  /** The same without its direction, say: neither right nor wrong yet. */
  readonly ownValueBegun: { readonly figure: string; readonly lacks: Lack; readonly evidence: Evidence }
  readonly situationSet: { readonly name: string; readonly value: string; readonly evidence: Evidence }
  readonly cleared: { readonly clearance: string; readonly evidence: Evidence }
  readonly listCalled: { readonly list: string; readonly evidence: Evidence }
  readonly stepDone: { readonly step: string; readonly evidence: Evidence }
  readonly flowClosed: { readonly flow: string; readonly evidence: Evidence }
  /** The steps of the open flow are to be read out one by one. */
  readonly flowAsked: { readonly flow: string; readonly evidence: Evidence }
  readonly answered: {
    readonly item: string
    readonly evidence: Evidence
    readonly judgement: Judgement
    /** Spoken values that the item rested on at the verdict. */
    readonly expected: Readonly<Record<string, Value>>
    readonly challengeRevision: number
    readonly revision: number
  }
  readonly voided: {
    readonly item: string
    readonly evidence: Evidence
    readonly because: 'figuresChanged' | 'late' | 'onsetCut'
  }
  /** The pilot called a station, or read back what it said. */
  readonly transmitted: {
    readonly exchange: string
    readonly turn: string
    readonly part: 'call' | 'readBack'
    readonly evidence: Evidence
    readonly judgement: Judgement
    readonly expected: Readonly<Record<string, Value>>
    readonly revision: number
  }
  /** Something of a briefing was said: topics by id. */
  readonly briefed: {
    readonly briefing: string
    readonly evidence: Evidence
    readonly topics: Readonly<Record<string, 'ok' | 'wrong'>>
    /** Of each of them the parts said so far; absent in logs of earlier editions. */
    readonly parts?: PartsOfTopics
    /** What was taken for the wrong values, as words. */
    readonly heard: readonly string[]
    /** The same breath ended the briefing. */
    readonly ends?: boolean
  }
  readonly briefingEnded: { readonly briefing: string; readonly evidence: Evidence }
  /** The words of a station were shown on request. */
  readonly wordsShown: { readonly turn: string; readonly evidence: Evidence }
  /** Speech that was neither an answer nor a command; the run is unaffected. */
  readonly overheard: {
    readonly evidence: Evidence
    /** It was said to this start: with `meant` no call of it that could be understood, else what its stop had asked for. */
    readonly watch?: string
    /** It may have been meant for the run, and nothing was made of it: the screen says so. */
    readonly meant?: boolean
    /** It was a call to another station, and this turn of a broadcast comes first. */
    readonly first?: string
    /** Said to an item that the pilot has still to challenge. */
    readonly unchallenged?: boolean
  }
  readonly commanded: {
    readonly command: RunCommand
    readonly argument?: string
    /** It was no command, but meant for the run, and nothing was made of it: the screen says so. */
    readonly meant?: boolean
    readonly evidence: Evidence
  }
  /** A word item confirmed by key: logged as not read back. */
  readonly confirmedByKey: {
    readonly item: string
    readonly evidence: Evidence
    readonly expected: Readonly<Record<string, Value>>
    readonly revision: number
  }
  /** Between Otherseat's side and a controller, without the pilot: it has read back, or the controller has heard it. */
  readonly radioed: { readonly turn: string; readonly part: RadioPart }
  /** What the partner is about to do wrong, in what follows from the next event; nobody is told. */
  readonly faultPlanned: { readonly fault: Fault }
  /** An interruption that comes in with the next event. */
  readonly breakPlanned: PlannedBreak
  /** An instructor has something happen; the pilot meets it as if it came by itself. `given`: when it was given, ISO 8601. */
  readonly injected: {
    readonly order: string
    readonly by: string
    readonly given: string
    readonly what: Injection
  }
  /** The pilot has dealt with what came in. */
  readonly breakOver: { readonly evidence: Evidence }
  /** Where the pilot challenges: Otherseat's simulated seat answers. */
  readonly challenged: { readonly item: string; readonly evidence: Evidence }
  /** The pilot goes on from what that seat has answered. */
  readonly accepted: { readonly item: string; readonly evidence: Evidence }
  /** The pilot does not take what was said for right. `chance`: the number of what is meant, of all that were said. */
  readonly objected: {
    readonly to: ObjectionTo
    /** Number of what it is about; undefined where nothing was said that could have been wrong. */
    readonly chance?: number
    /** The item whose answer, without a value, it is about. */
    readonly item?: string
    /** Of a read-back: the elements that it names. */
    readonly elements?: readonly string[]
    readonly evidence: Evidence
  }
  readonly watchBegan: { readonly watch: string; readonly at: number; readonly evidence: Evidence }
  /** `at`: onset of the speech, ms from the start of the run; limits are compared with it. */
  readonly watchCalled: {
    readonly watch: string
    readonly call: string
    readonly at: number
    /** Read out with it, and whether it lies in the pack's range. */
    readonly value?: Value
    readonly inRange?: boolean
    readonly evidence: Evidence
  }
  readonly watchStopped: {
    readonly watch: string
    readonly abnormal: string
    readonly at: number
    readonly evidence: Evidence
  }
  /** A call was not heard by 60 % of its limit, or by the limit. */
  readonly watchDue: { readonly watch: string; readonly call: string; readonly stage: 'ask' | 'limit' }
  /** The time of an interlock has passed: of this item, step or watch. */
  readonly timeUp: { readonly of: string }
  readonly silent: { readonly order: number; readonly after: 'prompt' | 'tone' }
  /** `typing`: the pilot types, or has just done so, and needs no ear. */
  readonly earFailed: { readonly message: string; readonly typing?: boolean }
  /** It was deaf and is not any more: what was said meanwhile was not heard. */
  readonly earBack: Nothing
  readonly voiceFailed: { readonly text: string }
  /** The page was left and opened again. */
  readonly resumed: Nothing
  /** A bug: what was thrown, and what the pilot had said, if it was that. */
  readonly stopped: { readonly message: string; readonly evidence?: Evidence }
  readonly ended: Nothing
}
export type EventType = keyof EventFields

/** What happened; where several may be meant, one of them. */
export type EventBody<Type extends EventType = EventType> = {
  readonly [T in Type]: { readonly type: T } & EventFields[T]
}[Type]

/** The pack as a run began with it: a later edition cannot change an old run. */
export interface PackInLog {
  readonly id: string
  readonly version: string
  readonly sha256: string
  readonly name: string
  readonly texts: Readonly<Record<string, string>>
}

interface Stamp {
  readonly v: 1
  readonly seq: number
  readonly runId: string
  /** Milliseconds from the start of the run. */
  readonly t: number
  /** ISO 8601. */
  readonly wall: string
}

/** An event as stored. */
export type RunEvent<Type extends EventType = EventType> = EventBody<Type> & Stamp

/** Of which run this one goes on from a place: all events up to that one are taken over from it. */
export interface RunAgain {
  readonly runId: string
  /** The number of the last event taken over. */
  readonly seq: number
  /** What was missed there the last time; left out where that run never came to the end of it. */
  readonly lastMisses?: number
}

/** What stations will say, by figure; a figure that is not among it is said as it stands. */
export interface Script {
  readonly values: Readonly<Record<string, Value>>
  /**
   * What goes by another figure, one value drawn for each value of that one: a route for each runway, since the
   * runway in use may change before, or after, the station speaks.
   */
  readonly by?: Readonly<Record<string, ScriptedBy>>
  /** Once in the run a controller errs, and the pilot is meant to notice. */
  readonly slip?: Slip
  /** Turns of which nobody hears one element the first time, since another transmits as well: turn -> element. */
  readonly steppedOn?: Readonly<Record<string, string>>
}
export interface ScriptedBy {
  readonly figure: string
  readonly values: Readonly<Record<string, Value>>
}
export interface Slip {
  readonly turn: string
  readonly figure: string
  /** Another value of the figure is said after a right read-back, or the first wrong value of any is called correct. */
  readonly kind: 'acceptsWrong' | 'saysAnother'
  /** The other value follows from this number and from what would have been right when it is said. */
  readonly seed: number
}

/** Noise under what is said by radio. */
export const RADIO_NOISES = ['none', 'light', 'heavy'] as const
export type RadioNoise = (typeof RADIO_NOISES)[number]
/** How transmissions are put that are to be read back. */
export interface Dial {
  /** About so many words a minute. */
  readonly wordsAMinute: number
  readonly noise: RadioNoise
  /** Others with a call sign like one's own are given clearances first. */
  readonly likeCallSigns: boolean
  /** Now and then somebody transmits over an element. */
  readonly steppedOn: boolean
  /** "Stand by" comes before some of them. */
  readonly standBy: boolean
  /** Each ends with another station's frequency, and the pilot calls there. */
  readonly handOvers: boolean
  /** Some are amended once they were read back. */
  readonly amendments: boolean
}

export const PAPER_HANDLINGS = ['lookedAt', 'putAway', 'takenOut'] as const
export type PaperHandling = (typeof PAPER_HANDLINGS)[number]

export interface RunSettings {
  readonly phraseology: 'plain' | 'standard' | 'verbatim'
  /** Misses before the voice coaches; 0 never. */
  readonly coachAfter: number
  /** A stranger to it: single digits are asked for at the first misunderstanding. */
  readonly digitsFirst?: boolean
  /** Whose words stations use; ICAO where it is not said. */
  readonly radio?: 'icao' | 'faa'
  /** `shown` where it is not said. In `memory` the steps are hidden until their list has checked them. */
  readonly flows?: FlowMode
  /** Calls of a watch are answered with their times. */
  readonly timesAloud?: boolean
  /** Otherseat keeps to itself what new figures change until a list would be complete. */
  readonly lateCatch?: boolean
  /** Figures for which the pack wants it are asked for before Otherseat's value counts. */
  readonly ownValues?: boolean
  /** Silence at an open item that is a break: 90 s where it is not said. */
  readonly breakAfterS?: number
  /** The pilot's own times to look and answer, as they were known when the run began. */
  readonly lookTimes?: LookTimes
  /** Who challenges and who answers: the pilot answers where it is not said. */
  readonly roles?: RolesMode
  /** Who reads back what a controller says: the pilot where it is not said. */
  readonly readBacks?: ReadBackMode
  /** The partner errs: in this share of its chances, drawn from this number. */
  readonly partner?: { readonly seed: number; readonly rate: number }
  /** Interruptions on purpose: at this share of the items, with or without a cue. */
  readonly breaks?: { readonly seed: number; readonly rate: number; readonly cues: CueMode }
}
/** What a run that is demonstrated freezes at by itself. */
export const DEMONSTRATION_STOPS = ['answers', 'misses', 'never'] as const
export type DemonstrationStops = (typeof DEMONSTRATION_STOPS)[number]
export const ROLES_MODES = ['pilotAnswers', 'pilotChallenges'] as const
export type RolesMode = (typeof ROLES_MODES)[number]
export const READ_BACK_MODES = ['pilot', 'colleague'] as const
export type ReadBackMode = (typeof READ_BACK_MODES)[number]
export const RADIO_PARTS = ['readBack', 'hearBack'] as const
export type RadioPart = (typeof RADIO_PARTS)[number]
export const CUE_MODES = ['with', 'without', 'mixed'] as const
export type CueMode = (typeof CUE_MODES)[number]
export const FLOW_MODES = ['shown', 'spoken', 'memory'] as const
export type FlowMode = (typeof FLOW_MODES)[number]

/** A list is called by an event of its own. */
export type RunCommand = Exclude<Command, 'call'>
export const RUN_COMMANDS = COMMANDS.filter((command): command is RunCommand => command !== 'call')

/** `steppedOn`: two transmissions at once, in place of what was said. */
export const TONES = ['tick', 'attention', 'soft', 'deaf', 'steppedOn'] as const
export type ToneName = (typeof TONES)[number]

export type Effect =
  /** Half duplex: the ear is shut while this sounds. `onRadio`: Otherseat's side to a station; to be heard, and not shown. */
  | { readonly type: 'speak'; readonly text: string; readonly role: Role; readonly onRadio?: true }
  | { readonly type: 'tone'; readonly tone: ToneName }
  | { readonly type: 'listen'; readonly listenId: number; readonly hearable: Hearable }
  | { readonly type: 'shut' }
  /** Values that a station gave are to come in as a revision. */
  | { readonly type: 'recordFromStation'; readonly turn: string; readonly values: Readonly<Record<string, Value>> }
  /** What was said has been heard: now this part of the talk between Otherseat's side and a controller. */
  | { readonly type: 'radio'; readonly turn: string; readonly part: RadioPart }
  /** The event comes back after a time, unless another timer of the name is started or all are stopped. */
  | { readonly type: 'startTimer'; readonly timer: TimerName; readonly ms: number; readonly event: EventBody }
  | { readonly type: 'stopTimers' }
export type TimerName = 'prompt' | 'tone' | 'interlock' | 'watch' | 'radio'
