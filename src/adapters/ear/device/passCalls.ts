/** What page, passes and audio thread ask of one another. Calls go by comlink; frames go as they are, with their buffers. */

import type { ProxyMarked, Remote } from 'comlink'
import type { Vocabulary } from '../../../kernel/hearing/hearable.ts'
import type { EarEvent, EarGate, ListenRequest } from '../../../ports.ts'
import type { ModelFiles } from '../recogniser/decoder.ts'
import type { FrontEnd } from '../recogniser/frontEnds.ts'
import type { WarpFactor } from '../recogniser/warp.ts'
import type { Recogniser } from '../utterance/recogniser.ts'
import type { StoredProfile } from './storedProfiles.ts'

/** What a pass asks of the page. */
export interface PageCalls {
  event(event: EarEvent): void
  /** Nothing will come while it decodes: a long read-back takes its time. */
  busy(): void
  /** What is known of the speaker by now; the page outlives the threads. */
  profile(frontEnd: FrontEnd, profile: StoredProfile): void
  /** The thread is of no use any more. */
  broken(message: string): void
}
export type Page = Remote<PageCalls & ProxyMarked>

/** What either thread needs to begin with. */
export interface PassModel {
  readonly files: ModelFiles
  /** Address of the noise suppressor's code. */
  readonly denoiser: string
  /** What was known of the speaker before: in the sound check, or when an earlier thread died. */
  readonly profile?: StoredProfile
}

export interface FirstPassWorker {
  load(model: PassModel, second: MessagePort, page: Page): Promise<FirstPassCalls & ProxyMarked>
}

/** What the page asks of the ear once its threads are loaded. */
export interface FirstPassCalls {
  /** Both passes take on a vocabulary. `dictionary`: lines with the pronunciations of its words. */
  learn(vocabulary: Vocabulary, dictionary: string): void
  /** Where frames come from. */
  hearFrames(frames: MessagePort, clockOffsetMs: number): void
  /** The second model's port, which comes when that is loaded. */
  connectRescorer(rescorer: MessagePort): void
  /** What was captured before the clock time `opensAt` is the app's own voice. */
  listen(request: ListenRequest, opensAt: number): void
  shut(): void
  gate(gate: EarGate): void
}

export interface SecondPassWorker {
  /** Answers `SecondPassCalls` on the port `first`. */
  load(model: PassModel, first: MessagePort, page: Page): Promise<void>
}

/** What the first pass asks of the second. */
export interface SecondPassCalls extends Recogniser {
  learn(vocabulary: Vocabulary, dictionary: string): void
  /** The warp that suits the voice, by what is known. */
  warp(): WarpFactor
  /** What was said last was understood: estimates the warp anew while nobody speaks, and resolves to it. */
  estimateWarp(): Promise<WarpFactor>
}
