/** The state of a run: plain data, the fold of its log (law 6). How it comes about is in `step.ts`. */

import type { Inputs, Status } from '../../figures/model.ts'
import type { Value } from '../../kinds/kind.ts'
import type { Sheet } from '../../papers/pile.ts'
import type { PassReason } from '../../response/commands.ts'
import type { Judgement } from '../../response/model.ts'
import type { PartsOfTopics } from '../../response/topics.ts'
import type { PartnerState } from '../partner/model.ts'
import type { By, Dial, Effect, EventFields, Evidence, RunAgain, RunSettings, Script } from './events.ts'
import type { Injected } from './injections.ts'

export type ItemStatus = 'open' | 'done' | 'passed' | 'leftOpen' | 'reopened'

export interface ItemState {
  readonly status: ItemStatus
  /** How it was closed. */
  readonly by?: By
  /** Why it was passed. */
  readonly reason?: PassReason
  /** Otherseat's simulated seat answered it, where the pilot challenges. */
  readonly seat?: 'otherseat'
  /** The response that applied when it was closed: another situation may ask for a different one. */
  readonly response?: string
  /** Spoken values it was closed on. */
  readonly expected: Readonly<Record<string, Value>>
  readonly revision: number
  /** Revision in force when it was last challenged. */
  readonly challengeRevision: number
  readonly misses: number
  /** Things that Otherseat sent the eyes to after a miss. */
  readonly looks: number
  /** In a row; the ear's doing, not the pilot's. */
  readonly sayAgains: number
  /** Parts right in an earlier breath of this challenge. */
  readonly partsSoFar: readonly string[]
  /** Parts that were begun in it, as they were said: "five point two", still without its direction. */
  readonly begun: Readonly<Record<string, string>>
  /** Its value was shown or spoken on request: marked for good (law 4). */
  readonly revealed: boolean
  /** Value refused at the try before, as spoken, and implausible values read then. */
  readonly refused?: string
  readonly implausible: Readonly<Record<string, Value>>
}

export interface ListState {
  readonly called: boolean
  /** Completion was called; taken back when an item reopens. */
  readonly complete: boolean
  /** It was complete once and is not any more. */
  readonly revoked: boolean
  /** Gone on from with items left open; asked for again when nothing else is ahead. */
  readonly suspended: boolean
  readonly onPreliminary: boolean
}

export interface PendingCall {
  readonly id: string
  /** Onset of its speech, ms from the start of the run. */
  readonly at: number
  readonly value?: Value
}

/** A value that was read out, and the onset of its speech, ms from the start of the run. */
export interface Reading {
  readonly value: Value
  readonly at: number
}

/** What Otherseat has asked and waits for: mostly affirm or negative. */
export type Question =
  /** `next`, a list, a briefing or an exchange under way, comes first by the pack: is it to be done now? */
  | { readonly about: 'outOfOrder'; readonly list: string; readonly next: string }
  /** `objected`: the pilot said that they are, and none were accepted. */
  | { readonly about: 'finalFiguresIn'; readonly list: string; readonly objected?: true }
  /** The pilot is to read a value off a source. */
  | { readonly about: 'reading'; readonly figure: string; readonly source: string }
  /** The pilot is to say what they worked out. */
  /** `begun`: words of it that lacked something. */
  | { readonly about: 'ownValue'; readonly figure: string; readonly begun?: string }
  | { readonly about: 'warnings'; readonly list: string }
  /** Why an item is to be passed. */
  | { readonly about: 'passReason'; readonly item: string }
  /** A critical item wants affirm twice. */
  | { readonly about: 'pass'; readonly item: string; readonly reason: PassReason; readonly affirmed?: boolean }
  /** A call that came out of order: was the one before it seen? */
  | { readonly about: 'callOrder'; readonly watch: string; readonly missing: string; readonly call: PendingCall }
  /** A call that came sooner than it can have been seen: was it? */
  | { readonly about: 'callEarly'; readonly watch: string; readonly call: PendingCall }
  /** A value outside its limits: was that read? */
  | { readonly about: 'callValue'; readonly watch: string; readonly call: PendingCall }
  /** After a stop with people around the aircraft: are the brakes set? */
  | { readonly about: 'brakes' }
  /** An order that differs from the figure. */
  | { readonly about: 'order'; readonly turn: string; readonly heard: string }

/** Where the run is: what the next answer would be taken for. */
export type Floor =
  | { readonly at: 'flow'; readonly phase: number; readonly activity: number }
  | { readonly at: 'call'; readonly phase: number; readonly activity: number }
  | { readonly at: 'item'; readonly list: string; readonly item: string }
  | { readonly at: 'line'; readonly list: string; readonly line: string }
  | { readonly at: 'watch'; readonly phase: number; readonly activity: number }
  | { readonly at: 'exchange'; readonly phase: number; readonly activity: number }
  | { readonly at: 'briefing'; readonly phase: number; readonly activity: number }
  | { readonly at: 'end' }

export interface ExchangeTurnState {
  /**
   * `said`: the station has spoken, the pilot's read-back is awaited. `relaying`: Otherseat's side reads back instead;
   * `relayed`: it has, and the controller is to answer. `slipped`: the station then said another value.
   */
  readonly status: 'ahead' | 'said' | 'relaying' | 'relayed' | 'slipped' | 'done'
  /** Parts read back right in an earlier transmission, and words begun in it. */
  readonly partsSoFar: readonly string[]
  readonly begun: Readonly<Record<string, string>>
  readonly misses: number
  readonly sayAgains: number
  /** Its words were shown on the screen. */
  readonly shown: boolean
  /** Figures that the station asked to have confirmed and that were not said right since. */
  readonly owed?: readonly string[]
  /** How often the same request was made without them. */
  readonly withoutOwed?: number
  /** Figures that were still owed when the request was granted. */
  readonly waived?: readonly string[]
  /** An order was kept to against the figure. */
  readonly insisted?: string
  /** An order, or what a station said, that rested on a figure that has changed since. */
  readonly again?: boolean
  /** Values that the station's words held when it last said them. */
  readonly agreed?: Readonly<Record<string, Value>>
  /** The station erred here: what came of it. */
  readonly slip?: 'open' | 'noticed' | 'unnoticed'
  /** Figures whose wrong values a controller called correct. */
  readonly accepted?: readonly string[]
}

/** Times are ms from the start of the run. */
export interface WatchState {
  readonly status: 'ahead' | 'running' | 'stopped' | 'done'
  /** How often it was begun. */
  readonly attempt: number
  readonly beganAt: number
  /** Call -> onset of the speech that called it. */
  readonly calls: Readonly<Record<string, number>>
  /** Calls that were not heard in their turn and affirmed once a later one came: their times are no later than that. */
  readonly seenBefore: readonly string[]
  /** Values read out with calls. */
  readonly values: Readonly<Record<string, Value>>
  /** Calls that were asked for since none was heard. */
  readonly asked: readonly string[]
  /** Calls of which it was said at their limit that none was heard. */
  readonly unheard: readonly string[]
  /** Call -> the one that has to come first and, when this was called, had not been seen. */
  readonly ahead?: Readonly<Record<string, string>>
  /** Calls that began after their limit. */
  readonly late: readonly string[]
  /** Call -> its first onset, where that was sooner than it can have been seen. */
  readonly early: Readonly<Record<string, number>>
  /** Call -> values outside their limits that were read out with it. */
  readonly outside: Readonly<Record<string, readonly Reading[]>>
  /** Call -> values that were not the difference of those that they lie between. */
  readonly unfit: Readonly<Record<string, readonly Value[]>>
  /** A call whose value is still to be read out, or was read and not taken; and the one that waits for it. */
  readonly pending?: {
    readonly call: string
    readonly at: number
    readonly wasRead?: boolean
    readonly behind?: PendingCall
  }
  /** What an instructor has its gauges show, where there are none to look at. */
  readonly shows?: string
  /** Why it was stopped: an abnormal call, or the crew's "stop". */
  readonly because?: string
  /** Onset of the words that stopped it. */
  readonly stoppedAt?: number
  readonly actions: readonly string[]
  /** Before this it may not begin again, and why. */
  readonly notBefore?: { readonly until: number; readonly say: string }
}

export interface Catch {
  readonly item: string
  readonly changedAt: number
  readonly t: number
  readonly by: 'pilot' | 'otherseat'
}

/** A break of the pilot's, or the page left and opened again. */
export interface Interruption {
  readonly what: 'standBy' | 'break' | 'left'
  /** When it began, ms from the start of the run. */
  readonly t: number
  readonly lengthMs: number
  /** What was open: "takeoff trim". */
  readonly at: string
  /** One item back or from the top was offered. */
  readonly offered: boolean
}

/** A moment of another run that is done again. */
export interface AgainState extends RunAgain {
  /** The list, exchange, start or briefing that it is about, once the events of the other run are over. */
  readonly activity: string | undefined
  readonly misses: number
  readonly isOver: boolean
  /** It is over, and the pilot has not gone on. */
  readonly isWaiting: boolean
}

export interface LastAnswer {
  /** The item answered; of a transmission or a briefing the turn or the briefing, of the pilot's own value the figure. */
  readonly item: string
  readonly of?: 'call' | 'readBack' | 'briefing' | 'ownValue'
  /** As it is named on the screen. */
  readonly challenge: string
  readonly text: string
  readonly by: By
  readonly judgement: Judgement
  /** Right, and something else comes first. */
  readonly isRefused?: boolean
}

export interface RunState {
  readonly runId: string
  /** Of the last event folded; -1 before the first. */
  readonly seq: number
  /** Of the last event, ms from the start of the run: the kernel's only clock. */
  readonly t: number
  readonly status: 'none' | 'running' | 'ended' | 'stopped'
  /** Clock time of the first event, ms since 1970. */
  readonly startedAt: number
  readonly settings: RunSettings
  /** A short run of what was due. */
  readonly drill?: true
  /** Read-backs and nothing else: how they are put. */
  readonly dial?: Dial
  readonly situation: Readonly<Record<string, string>>
  readonly revision: number
  readonly figureStatus: Status | undefined
  readonly values: Readonly<Record<string, Value>>
  /** What was read off gauges, or noted: as it was said last. */
  readonly readings: Readonly<Record<string, Value>>
  /** As entered for the revision in force. */
  readonly inputs: Inputs | undefined
  /** Sheets as they came in, oldest first: what the papers on the table print. */
  readonly sheets: readonly Sheet[]
  /** Editions that the pilot has put away. */
  readonly putAway: readonly string[]
  readonly pad: EventFields['padWritten']
  /** Values of all revisions, oldest first: a wrong number may come from one of them. */
  readonly history: readonly {
    readonly revision: number
    readonly label: string
    readonly values: Readonly<Record<string, Value>>
    /** By a station, in an exchange. */
    readonly isGiven?: true
  }[]
  /** Figures whose values were asked for in this run. */
  readonly revealedFigures: readonly string[]
  /** Of the revision in force, not acknowledged yet. */
  readonly warnings: readonly string[]
  /** The same as the voice names them, each once. */
  readonly warned: readonly string[]
  readonly cleared: readonly string[]
  readonly stepsDone: readonly string[]
  readonly flowsClosed: readonly string[]
  /** Steps to be done again since a figure that they set has changed. */
  readonly stepsAgain: readonly string[]
  /** A flow that is being read out step by step. */
  readonly readingFlow: boolean
  /** Figures that the pilot is still to work out. */
  readonly ownToAsk: readonly string[]
  /** Late catch: figures that have moved since `inputs` held, and of which nothing was said yet. */
  readonly heldBack?: {
    readonly inputs: Inputs | undefined
    readonly t: number
    readonly revision: number
    readonly moved: readonly string[]
  }
  /** Late catch: items that rested on old values, and who noticed. Times in ms from the start of the run. */
  readonly catches: readonly Catch[]
  readonly items: Readonly<Record<string, ItemState>>
  readonly lists: Readonly<Record<string, ListState>>
  readonly watches: Readonly<Record<string, WatchState>>
  /** Where the partner errs, answers or is interrupted on purpose; undefined before the first of it. */
  readonly partner?: PartnerState
  /** What an instructor had happen, in order. */
  readonly injected?: readonly Injected[]
  /** An instructor has the ear hear nothing: until `earBack`. */
  readonly isDeafened?: true
  /** What stations say; undefined where the voices outside the crew are left out. */
  readonly script: Script | undefined
  readonly again?: AgainState
  /** Shown to a room now. */
  readonly demonstration?: Omit<EventFields['demonstrated'], 'isOn'>
  /** It was, at some time in the run. */
  readonly wasDemonstrated?: true
  readonly frozen?: {
    /** Ms from the start of the run. */
    readonly since: number
    /** An answer that waits for its verdict, and the listening turn that it came in. */
    readonly said?: Evidence & { readonly listenId: number }
    /** What is to be said and listened for when it goes on. */
    readonly effects: readonly Effect[]
  }
  /** Begun in the middle, by the event of this number; `isCopied`: what stations gave before stands on the pad. */
  readonly begunAt?: { readonly activity: string; readonly seq: number; readonly isCopied: boolean }
  /** Turns of exchanges by id. */
  readonly turns: Readonly<Record<string, ExchangeTurnState>>
  /** Entered figures that hold as a turn gave them, each with what the papers had in its place. */
  readonly fromStations: Readonly<Record<string, { readonly over: Value | undefined }>>
  /** Topics covered, and topics last said wrong. */
  readonly topics: Readonly<Record<string, 'ok' | 'wrong'>>
  /** Of topics said so far, their parts. */
  readonly topicParts: PartsOfTopics
  readonly briefingsClosed: readonly string[]
  /** Things that were asked for before an interlock's time had passed: announced when it has. */
  readonly waitedFor: readonly string[]
  /** Interlocks whose end was announced. */
  readonly timesAnnounced: readonly string[]
  /** What is said once a run and was. */
  readonly saidOnce: readonly string[]
  /** What is to be said when the watch that is running is over. */
  readonly wordsAfterWatch: readonly string[]
  /** When the pilot last did something with the open item. */
  readonly activeAt: number
  readonly interruptions: readonly Interruption[]
  /** One item back or from the top was just offered. */
  readonly isBack: boolean
  /** When each thing was done that an interlock may wait for, ms from the start: items, steps, lists, watches, `cleared:name`. */
  readonly doneAt: Readonly<Record<string, number>>
  /** What had the floor when a list was called that may be called at any time: the run goes on there. */
  readonly interrupted?: string
  readonly floor: Floor
  readonly question: Question | undefined
  readonly standingBy: boolean
  /** Number of the listening turn; words of an earlier one are late. */
  readonly listenId: number
  /** Turn at which the present floor was taken (or figures changed on it): older words are not judged here. */
  readonly floorListenId: number
  /** `floorListenId` was last set by a revision, so older words are void because figures changed. */
  readonly revisedListenId: number
  /** The item that had the floor then: what was said to it in the meantime is void. */
  readonly revisedItem: string | undefined
  readonly last: LastAnswer | undefined
  /** What the pilot said last, where nothing was made of it. */
  readonly notUnderstood: string | undefined
  /** Items, turns and briefings in the order in which the pilot closed them, for "correction" and "go back one". */
  readonly closed: readonly string[]
  /** What Otherseat said last, for "say again" and the screen; empty where a station has spoken since. */
  readonly said: string
  /** When the pilot was last asked aloud to say something again, ms from the start of the run. */
  readonly askedAgainAt: number | undefined
  /** Listening turn in which silence was answered; the open item is not asked for once more in it. */
  readonly promptedListenId: number
  readonly stoppedBecause?: string
}

/** What an event brings about: the state after it, and what is asked for, in order. */
export interface Step {
  readonly state: RunState
  readonly effects: readonly Effect[]
}
