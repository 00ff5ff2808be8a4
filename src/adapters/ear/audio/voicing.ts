/** Which frames are voiced, and how loud room and speech are. Pure; one for each stream. */

import { dBFS, rms } from './level.ts'

export interface Voicing {
  readonly isVoiced: boolean
  /** Speech, but far fainter than the pilot's at the microphone. */
  readonly isOthers: boolean
  /** dBFS of this frame, of the same with the noise taken off, and of the room without speech. */
  readonly level: number
  readonly cleanLevel: number
  readonly noise: number
  readonly isClipping: boolean
}

/** The suppressor must think it speech, and it must stand out of what is left of the room. */
const SPEECH = 0.6
/** While speech is on, less is enough, so that weak syllables do not end it. */
const STILL_SPEECH = 0.35
const ABOVE_ROOM_DB = 9
const FAINTEST_DBFS = -60
/** Others in the room are this much fainter than the pilot at the microphone; the weak sounds of an answer are not. */
const OTHERS_DB = 15
/** The loudest level is forgotten at this rate a second, so that a pilot who has moved away is soon heard again. */
const FORGOTTEN_DB = 3
const FRAMES_A_SECOND = 100 / 3

export class VoicingMeter {
  private noise = -60
  private cleanNoise = -70
  /** Level of the pilot at the microphone, slowly forgotten. */
  private loudest = -90
  private wasVoiced = false

  /**
   * `raw` as it came, `clean` with the noise taken off, `speech` the suppressor's probability. `isListenedTo`: it is not
   * the app's own voice from the loudspeaker, compared with which a pilot may be far fainter.
   */
  measure(raw: Float32Array, clean: Float32Array, speech: number, isListenedTo = true): Voicing {
    const level = dBFS(rms(raw))
    const cleanLevel = dBFS(rms(clean))
    const isSpeech =
      speech > (this.wasVoiced ? STILL_SPEECH : SPEECH) &&
      cleanLevel > Math.max(FAINTEST_DBFS, this.cleanNoise + ABOVE_ROOM_DB)
    const isVoiced = isSpeech && cleanLevel > this.loudest - OTHERS_DB
    this.loudest = Math.max(this.loudest - FORGOTTEN_DB / FRAMES_A_SECOND, isVoiced && isListenedTo ? cleanLevel : -90)
    if (!isVoiced && speech < STILL_SPEECH) {
      this.noise += follow(level - this.noise)
      this.cleanNoise += follow(cleanLevel - this.cleanNoise)
    }
    this.wasVoiced = isVoiced
    return {
      isVoiced,
      isOthers: isSpeech && !isVoiced,
      level,
      cleanLevel,
      noise: this.noise,
      isClipping: raw.some((sample) => Math.abs(sample) >= 0.999),
    }
  }
}

/** The room is followed down at once and up slowly. */
const follow = (difference: number) => difference * (difference < 0 ? 0.2 : 0.03)
