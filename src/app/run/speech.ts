/** Whether the voice is speaking, and whether an answer began before its challenge had ended. */

import type { Clock } from '../../ports.ts'

export interface Speech {
  /** A text begins; the empty one ends it, at a clock time where that is known. */
  said(text: string, endedAt?: number): void
  /** The pilot cut it off: whatever is answered to it is early. */
  cut(): void
  isOn(): boolean
  /** `beganAt`: clock time of the first voiced sample. */
  isEarly(beganAt: number): boolean
  /** Clock time at which it ended last; undefined while it is on, after it was cut off, and before there was any. */
  endedAt(): number | undefined
}

export function createSpeech(clock: Clock): Speech {
  let isOn = false
  let wasCut = false
  let until: number | undefined
  return {
    said(text, endedAt) {
      if (text) wasCut = false
      else if (isOn) until = endedAt ?? clock.now()
      isOn = text !== ''
    },
    cut() {
      wasCut = true
    },
    isOn: () => isOn,
    isEarly: (beganAt) => isOn || wasCut || (until !== undefined && beganAt < until),
    endedAt: () => (isOn || wasCut ? undefined : until),
  }
}
