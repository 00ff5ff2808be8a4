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
}

export function createSpeech(clock: Clock): Speech {
  let isOn = false
  let wasCut = false
  let until = 0
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
    isEarly: (beganAt) => isOn || wasCut || beganAt < until,
  }
}
