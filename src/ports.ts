/** The ports: everything that the app asks of the world, on one page. Adapters implement them. */

import type { Hearable, Vocabulary } from './kernel/hearing/hearable.ts'
import type { Alternative } from './kernel/response/model.ts'
import type { Role, RunEvent, ToneName } from './kernel/run/events.ts'

export interface HeardWord {
  readonly text: string
  /** Milliseconds from the start of the utterance. */
  readonly beginMs: number
  readonly endMs: number
}

/** One utterance. */
export interface Heard {
  /** The listening order that it belongs to. */
  readonly order: number
  readonly text: string
  readonly words?: readonly HeardWord[]
  readonly score?: number
  readonly alternatives?: readonly Alternative[]
  /** Why the ear itself does not stand by what it heard; such an utterance is never judged correct. */
  readonly doubt?: 'unsure' | 'faint' | 'clipped' | 'onsetCut' | 'otherSpeech'
  /** Clock time of its first voiced sample, or of the first key. */
  readonly beganAt: number
  readonly endedAt: number
  readonly by: 'voice' | 'typed'
}

export type EarState = 'off' | 'loading' | 'shut' | 'guard' | 'open' | 'hearing' | 'failed'

export type EarEvent =
  | { readonly type: 'state'; readonly state: EarState }
  | { readonly type: 'loading'; readonly fraction: number }
  | { readonly type: 'speechBegan'; readonly order: number; readonly at: number }
  /** Words so far: shown, never judged, never logged. */
  | { readonly type: 'soFar'; readonly order: number; readonly text: string }
  | { readonly type: 'heard'; readonly heard: Heard }
  /** dBFS, about ten times a second. */
  | { readonly type: 'level'; readonly level: number; readonly noise: number; readonly clipping: boolean }
  | { readonly type: 'failed'; readonly failure: EarFailure }

export interface EarFailure {
  readonly code: 'refused' | 'noMicrophone' | 'lost' | 'worker' | 'model' | 'audio' | 'unsupported'
  /** For the pilot: what happened and what to do. */
  readonly message: string
}

/** The order to listen carries no value. */
export interface ListenOrder {
  readonly order: number
  readonly hearable: Hearable
}

export interface Ear {
  /** Asks for the microphone and loads the recogniser; resolves when it could listen, or has failed (by event). */
  open(vocabulary: Vocabulary): Promise<void>
  listen(order: ListenOrder): void
  shut(): void
  close(): Promise<void>
  subscribe(hear: (event: EarEvent) => void): () => void
}

export interface Voice {
  /** Name for the settings screen and the log. */
  readonly name: string
  /** Resolves when the sound has ended. Never rejects: a failure is an outcome. */
  speak(text: string, role: Role): Promise<'spoken' | 'failed' | 'cancelled'>
  tone(name: ToneName): Promise<void>
  cancel(): void
}

/** Append-only. */
export interface RunLog {
  /** Resolves once stored; rejects where it cannot be. */
  append(event: RunEvent): Promise<void>
  /** All events of a run, in order. */
  read(runId: string): Promise<RunEvent[]>
  /** The newest run without an end, if any. */
  unfinished(): Promise<string | undefined>
  runs(): Promise<RunSummary[]>
}
export interface RunSummary {
  readonly runId: string
  readonly pack: string
  readonly startedAt: number
  readonly ended: boolean
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
  /** Example revisions that came with a pack: name -> text. */
  examples(id: string): Promise<Readonly<Record<string, string>>>
}

/** One writer for a run. */
export interface RunLock {
  /** `lost` is called when another tab takes the run over. */
  hold(runId: string, options: { readonly steal: boolean; readonly lost: () => void }): Promise<boolean>
  release(): void
}
