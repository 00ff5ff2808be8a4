/** What the ear hears in: frames of this many samples at 16 kHz, and of this length. */
export const FRAME = 480
export const FRAME_MS = 30

/** What the audio thread sends to the first pass. A gap in `seq` is sound that was lost. */
export interface CapturedFrame {
  readonly seq: number
  /** When its last sample was there, ms since 1970. */
  readonly endedAt: number
  readonly pcm: Float32Array
}
