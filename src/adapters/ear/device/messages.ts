/** What page, workers and audio thread say to one another. */

import type { Grammar } from '../../../kernel/hearing/expansion.ts'
import type { Hearable, Vocabulary } from '../../../kernel/hearing/hearable.ts'
import type { EarEvent, EarGate, ListenOrder } from '../../../ports.ts'
import type { Decoded, FrontEnd, ModelFiles } from '../recogniser/decoder.ts'
import type { Scale } from '../recogniser/warp.ts'
import type { Weighed } from '../rescorer/hypothesis.ts'
import type { KnownVoice } from './storedSpeaker.ts'

/** Audio thread -> worker: 30 ms at 16 kHz. A gap in `seq` is sound that was lost. */
export interface CapturedFrame {
  readonly seq: number
  /** When its last sample was there, ms since 1970. */
  readonly endedAt: number
  readonly pcm: Float32Array
}

/** Page -> either worker. */
export type ToWorker =
  | {
      readonly type: 'load'
      readonly frontEnd: FrontEnd
      readonly files: ModelFiles
      /** Address of the noise suppressor's code. */
      readonly denoiser: string
      /** What was known of the speaker before: in the sound check, or when an earlier worker died. */
      readonly known?: KnownVoice
    }
  | {
      readonly type: 'learn'
      readonly vocabulary: Vocabulary
      /** Dictionary lines for the vocabulary's words. */
      readonly dictionary: string
    }
  /** Where frames come from. */
  | { readonly type: 'frames'; readonly port: MessagePort; readonly clockOffsetMs: number }
  /** The first worker's line to the weigher, which comes when that is loaded. */
  | { readonly type: 'weigher'; readonly port: MessagePort }
  /** The line between the two workers. */
  | { readonly type: 'peer'; readonly port: MessagePort }
  | {
      readonly type: 'listen'
      readonly order: ListenOrder
      /** What was captured before this clock time is the app's own voice. */
      readonly opensAt: number
    }
  | { readonly type: 'shut' }
  | { readonly type: 'gate'; readonly gate: EarGate }

/** Worker -> page. */
export type FromWorker =
  | { readonly type: 'loaded' }
  | { readonly type: 'learned'; readonly missing: readonly string[] }
  | { readonly type: 'broken'; readonly message: string }
  | { readonly type: 'event'; readonly event: EarEvent }
  /** What is known of the speaker by now, as this front end hears. */
  | { readonly type: 'known'; readonly frontEnd: FrontEnd; readonly known: KnownVoice }
  /** Nothing will come while it looks at what was said: a long read-back takes its time. */
  | { readonly type: 'busy' }

/** First worker -> second. */
export type ToPeer =
  | { readonly type: 'expect'; readonly hearable: Hearable }
  /** An utterance that is looked at while it comes: what there is of it, and each further piece. */
  | { readonly type: 'begin' | 'push'; readonly pcm: Float32Array }
  | { readonly type: 'end'; readonly id: number }
  | { readonly type: 'look' | 'furtherLook'; readonly id: number; readonly pcm: Float32Array }
  /** What it heard last. */
  | { readonly type: 'understood' }
/** Second worker -> first. */
export type FromPeer =
  | {
      readonly type: 'looked'
      readonly id: number
      /** None where an utterance could not be looked at while it came. */
      readonly decoded: Decoded | undefined
    }
  /** The filters that suit the voice. */
  | { readonly type: 'suit'; readonly scale: Scale }

/** Page -> weigher. */
export type ToWeigher =
  | { readonly type: 'load'; readonly encoder: ArrayBuffer; readonly decoder: ArrayBuffer }
  | { readonly type: 'line'; readonly port: MessagePort }
/** Weigher -> page. */
export type FromWeigher = { readonly type: 'loaded' } | { readonly type: 'broken'; readonly message: string }

/** First worker -> weigher: a sound to take in, then what to weigh against it, or the grammar by which to hear it. */
export type WeighingOrder =
  | { readonly type: 'take'; readonly id: number; readonly pcm: Float32Array }
  | { readonly type: 'weigh'; readonly id: number; readonly texts: readonly string[] }
  | { readonly type: 'hear'; readonly id: number; readonly grammar: Grammar; readonly beside: readonly string[] }
  | { readonly type: 'hearAnything'; readonly id: number }
/** Weigher -> first worker; none where it could not. */
export interface WeighingAnswer {
  readonly id: number
  readonly sayings: readonly Weighed[] | undefined
}
