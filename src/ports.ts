/** The ports: everything that the app asks of the world, on one page. Adapters implement them. */

import type { Hearable, Vocabulary } from './kernel/hearing/hearable.ts'
import type { Heard } from './kernel/hearing/heard.ts'
import type { Role } from './kernel/pack/roles.ts'
import type { RunEvent, ToneName } from './kernel/run/core/events.ts'
import type { RunSummary } from './kernel/run/core/summary.ts'
import type { GradeSheet } from './kernel/training/grades.ts'
import type { RoomDocument, RoomRole } from './room/documents.ts'
import type { AboutRooms, Ticket } from './room/http.ts'

export type EarState = 'off' | 'loading' | 'shut' | 'guard' | 'open' | 'hearing' | 'failed'

export type EarEvent =
  | { readonly type: 'state'; readonly state: EarState }
  | { readonly type: 'loading'; readonly fraction: number }
  | { readonly type: 'speechBegan'; readonly listenId: number; readonly at: number }
  /** Words so far: shown, never judged, never logged. */
  | { readonly type: 'soFar'; readonly listenId: number; readonly text: string }
  /** What the utterance sounded like that is reported next, where that was asked for: 16 kHz mono, 16 bits. */
  | { readonly type: 'sound'; readonly listenId: number; readonly beganAt: number; readonly samples: Int16Array }
  | { readonly type: 'heard'; readonly heard: Heard }
  /** dBFS, about ten times a second. */
  | { readonly type: 'level'; readonly level: number; readonly noise: number; readonly clipping: boolean }
  | { readonly type: 'secondModel'; readonly state: SecondModelState }
  | { readonly type: 'failed'; readonly failure: EarFailure }
  /** It had died, or was restarted, and listens again; what was said meanwhile is lost. */
  | { readonly type: 'back' }

/** The second model, by which the device's ear rescores what it heard; it hears without it as well. */
export type SecondModelState = 'none' | 'loading' | 'ready' | 'failed'

export interface EarFailure {
  readonly code:
    | 'refused'
    | 'noMicrophone'
    | 'lost'
    | 'muted'
    | 'service'
    | 'worker'
    | 'model'
    | 'audio'
    | 'unsupported'
  /** For the pilot: what happened and what to do. */
  readonly message: string
}

/**
 * Push to talk and the radio key, whatever is listened for. `ended`: the key was let go, what was
 * being said is whole; `shut`: it is dropped.
 */
export type EarGate = 'open' | 'ended' | 'shut'

/** What to listen for. It carries no value (law 2). */
export interface ListenRequest {
  /** Number of the listening turn, which goes with all that is heard in it. */
  readonly listenId: number
  readonly hearable: Hearable
  /** Clock time at which the app's own voice had ended: an answer may begin right after it. */
  readonly after: number
  /** The app's own voice is not in the microphone: listen through it. */
  readonly isHeadset?: boolean
  /** This speaker pauses between words: the end is waited for longer. */
  readonly isPatient?: boolean
  /** The pilot keeps the sound of what is said: it is reported as well, by an ear that has it. */
  readonly keepsSound?: boolean
}

/** An ear that this browser has, for the settings. */
export interface EarOffer {
  readonly name: string
  readonly label: string
  readonly about: string
  readonly hasSecondModel: boolean
  /** What was said can be kept as sound. */
  readonly givesSound?: true
  /** Where sound may leave the device: what is said as long as the ear is in use, and why, where it is chosen. */
  readonly away?: { readonly note: string; readonly reason: string }
}

export interface Ear {
  /** Asks for the microphone and loads the recogniser; resolves when it could listen, or has failed (by event). */
  open(vocabulary: Vocabulary): Promise<void>
  listen(request: ListenRequest): void
  shut(): void
  gate(gate: EarGate): void
  close(): Promise<void>
  subscribe(hear: (event: EarEvent) => void): () => void
}

/** Whom the voice speaks for: the roles of a run, and the pilot where a run is played to a room. */
export type VoicedFor = Role | 'pilot'

export interface Voice {
  /** Name for the settings screen and the log. */
  readonly name: string
  /** Resolves when the sound has ended, or is cut off by the signal. Never rejects: a failure is an outcome. */
  speak(text: string, who: VoicedFor, signal?: AbortSignal): Promise<'spoken' | 'failed' | 'cancelled'>
  /** Clock time at which that sound had ended, which a busy page learns late; undefined where that is unknown. */
  endedAt(): number | undefined
  tone(name: ToneName): Promise<void>
}

/** What a key, pedal or button of the pilot's own is for. */
export type SwitchName = 'talk' | 'radio' | 'confirm' | 'freeze'
/** A key by its place on the keyboard, or a button of a stick, pedal or pad. */
export type Binding =
  | { readonly type: 'key'; readonly code: string; readonly label: string }
  | { readonly type: 'button'; readonly pad: string; readonly button: number }
export interface SwitchEvent {
  readonly name: SwitchName
  readonly isDown: boolean
  /** A media key has no release: it is pressed once for one answer. */
  readonly isOnce?: boolean
}
export interface Switches {
  subscribe(hear: (event: SwitchEvent) => void): () => void
  /** The next key or button, in place of what it is for; undefined where given up. One at a time. */
  learn(): Promise<Binding | undefined>
  /** Hears the keys of another window of this page as well; returns its undoing. */
  attach(other: Window): () => void
}

export interface SoundDevices {
  readonly microphones: readonly { readonly id: string; readonly name: string }[]
  /** Empty where the browser lets a page choose none. */
  readonly outputs: readonly { readonly id: string; readonly name: string }[]
}

/** Append-only. */
export interface RunLog {
  /** Resolves once stored; rejects where it cannot be. */
  append(event: RunEvent): Promise<void>
  /** All events of a run, in order, as they were stored: another edition may have written them. */
  read(runId: string): Promise<unknown[]>
}

/** The runs that this browser keeps. */
export interface RunArchive extends RunLog {
  /** The newest run that may be gone on with, if any. */
  unfinished(): Promise<string | undefined>
  runs(): Promise<RunSummary[]>
  /** The run is not offered any more, though it has no end; its events stay. */
  putAway(runId: string): Promise<void>
  /** Keeps a summary that was made of the whole log; not where the run has gone on since, or is gone. */
  keepSummary(summary: RunSummary): Promise<void>
  /** Takes a run out, and gives what was there. */
  take(runId: string): Promise<StoredRun | undefined>
  /** All of it or nothing. Events of the run that are there already are to be its first ones, and stay. */
  put(run: StoredRun): Promise<void>
}
/** A run as it lies in the archive. */
export interface StoredRun {
  readonly summary: RunSummary
  readonly events: readonly unknown[]
}

/** The sound of utterances by the numbers of the events that they became: 16 kHz mono, 16 bits. */
export type RunSounds = ReadonlyMap<number, Int16Array>

/**
 * Where the sound of what was said in runs lies, beside the log, which knows nothing of it. Whatever cannot be done is a
 * rejection that says why, in one sentence.
 */
export interface SoundShelf {
  /** What is there under a number stays. */
  put(runId: string, sounds: RunSounds): Promise<void>
  read(runId: string, seq: number): Promise<Int16Array | undefined>
  /** The numbers of events whose sound is there. */
  numbers(runId: string): Promise<readonly number[]>
  /** Takes those of a run out, and gives what was there. */
  take(runId: string): Promise<RunSounds>
  size(): Promise<{ readonly bytes: number; readonly runs: number }>
  deleteAll(): Promise<void>
}

/** Records what is said to it. */
export interface NoteRecorder {
  /** `lost`: the microphone went away, in one sentence; what was recorded can still be had by `stop`. Never rejects. */
  begin(lost: (why: string) => void): Promise<{ stop(): Promise<Int16Array> } | Why>
}

/** The grades of one instructor in one run. */
export interface KeptSheet extends GradeSheet {
  /** The person's own; else brought in from a file. */
  readonly isOwn: boolean
}

/** Where grades of recorded runs lie. Whatever cannot be done is a rejection that says why, in one sentence. */
export interface GradeShelf {
  all(): Promise<readonly KeptSheet[]>
  /** In place of the own one of that run, or of the one by the same other person. */
  put(sheet: KeptSheet): Promise<void>
  /** One's own of that run, and all others'. */
  deleteOf(runId: string): Promise<void>
}

/** Plays sound that was kept. */
export interface SoundPlayer {
  /** Resolves when it has ended, or was cut off by the signal; false where the browser does not let it sound. */
  play(samples: Int16Array, signal: AbortSignal): Promise<boolean>
}

/** The room that the browser gives to this site, and whether it may take what lies there away when it runs short. */
export interface SiteStorage {
  /** In bytes, of everything that the site keeps; undefined where the browser does not say. */
  room(): Promise<{ readonly used: number; readonly most: number } | undefined>
  isKept(): Promise<boolean | undefined>
  /** Asks for it to be kept; undefined where the browser knows no such thing. */
  keep(): Promise<boolean | undefined>
}

/** Short texts by key that can be made again from the log: whatever goes wrong with them is not told. */
export interface TextCache {
  get(key: string): Promise<string | undefined>
  all(): Promise<ReadonlyMap<string, string>>
  put(texts: ReadonlyMap<string, string>): Promise<void>
}

export interface Clock {
  /** Milliseconds since 1970. */
  now(): number
  /** Calls back once after a time; returns its undoing. */
  after(ms: number, call: () => void): () => void
}

export interface PackFiles {
  /** Packs at hand, by id. */
  list(): Promise<readonly { readonly id: string; readonly name: string; readonly aircraft: string }[]>
  /** Texts by file name, and the SHA-256 over them. */
  load(id: string): Promise<{ readonly texts: Readonly<Record<string, string>>; readonly sha256: string }>
  /** Example revisions that came with a pack: name -> text; of that edition, where more than one pack has the id. */
  examples(id: string, sha256?: string): Promise<Readonly<Record<string, string>>>
  /** Departures made to be shown to a room, by name, likewise; packs of the person's own have none. */
  demonstrations(id: string, sha256?: string): Promise<Readonly<Record<string, string>>>
}

/** A pack of the person's own, right or not. */
export interface OwnPack {
  /** Given by this browser: several packs may state the same id. */
  readonly key: string
  /** Texts by path: "pack.yaml", "inputs/final.yaml". */
  readonly files: Readonly<Record<string, string>>
  /** What it is called where its pack.yaml states no name. */
  readonly label: string
  /** Milliseconds since 1970. */
  readonly changedAt: number
  /** Of a copy: the pack that came with the app, as it was then. */
  readonly from?: { readonly id: string; readonly version: string; readonly files: Readonly<Record<string, string>> }
}

/** Where packs of the person's own are kept. Whatever cannot be done is a rejection that says why, in one sentence. */
export interface PackShelf {
  all(): Promise<readonly OwnPack[]>
  /**
   * What lies under the key becomes what `change` makes of it (undefined: nothing), and no other tab can come between. It
   * may be called more than once.
   */
  change(key: string, change: (there: OwnPack | undefined) => OwnPack | undefined): Promise<void>
  /** Calls back when another tab has changed something; returns its undoing. */
  subscribe(listener: () => void): () => void
}

/** One writer for a run. */
export interface RunLock {
  /** `lost` is called when another tab takes the run over. */
  hold(runId: string, options: { readonly steal: boolean; readonly lost: () => void }): Promise<boolean>
  /** By this tab or another. */
  isHeld(runId: string): Promise<boolean>
  release(): void
}

export interface EditionState {
  /** The app works without a network from now on. */
  readonly isKept: boolean
  /** A later edition has been fetched and waits. */
  readonly hasNewer: boolean
}
/** The app's own files on this device. */
export interface Edition {
  /** Fetches them once; `tell` is called whenever something has changed. */
  keep(tell: (state: EditionState) => void): Promise<void>
  /** Goes on with the later edition, by a reload. False, and nothing done, while a run is on in any tab. */
  takeNewer(): Promise<boolean>
}

interface Why {
  readonly why: string
}
/** The server of a room. What cannot be done is a sentence that says why. */
export interface RoomServer {
  /** Undefined where this page's server has no rooms. */
  about(): Promise<AboutRooms | undefined>
  open(name: string): Promise<Ticket | Why>
  join(asked: { readonly code: string; readonly role: RoomRole; readonly name: string }): Promise<Ticket | Why>
  leave(ticket: Ticket): Promise<void>
  /** Deletes the room and all that lies in it. */
  close(ticket: Ticket): Promise<{ readonly closed: true } | Why>
  link(ticket: Ticket): RoomDocuments
}
/** `refused`: the token is not good any more. */
export type RoomLinkState = 'linked' | 'away' | 'refused'
export interface RoomDocuments {
  open(document: Omit<RoomDocument, 'room'>): RoomEntries
  state(): RoomLinkState
  subscribe(listener: (state: RoomLinkState) => void): () => void
  close(): void
}
/** What lies in a document: it only grows. What is added while the link is down goes when it is back. */
export interface RoomEntries {
  all(): {
    readonly size: number
    get(key: string): string | undefined
    has(key: string): boolean
    keys(): Iterable<string>
  }
  /** All that the server had is here. */
  isRead(): boolean
  /** Does nothing where the key is there. */
  add(key: string, value: string): void
  subscribe(listener: () => void): () => void
  /** Told to those who have the document open, and gone with this page. */
  present(what: object): void
  others(): readonly object[]
}
