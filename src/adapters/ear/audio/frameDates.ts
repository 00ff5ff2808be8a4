/**
 * When frames were captured. They follow one another without a gap, and each says only when it was there, which may
 * have been a while after: the least delayed frame of the last moments dates them all. Not of the whole flight, as
 * the clocks of sound card and machine part by tenths of a second in an hour (from memory), and sound may be lost.
 */

import { FRAME_MS } from './frame.ts'

/** Two seconds: a machine is seldom busy for so long that no frame comes through in time. */
const REMEMBERED = 66
/** A frame this far off means that the stream had stopped for a while. */
const STOPPED_MS = 500

export class FrameDates {
  /** When the frame of number 0 would have begun, by each of the last frames, ms. */
  private begins: number[] = []

  /**
   * @param seq number of the frame
   * @param endedAt when its last sample was there, at the earliest, ms
   * @returns when its first sample was captured, ms of the same clock
   */
  date(seq: number, endedAt: number): number {
    const begin = endedAt - (seq + 1) * FRAME_MS
    if (begin - Math.min(...this.begins) > STOPPED_MS) this.begins = []
    this.begins = [...this.begins.slice(1 - REMEMBERED), begin]
    return Math.min(...this.begins) + seq * FRAME_MS
  }
}
