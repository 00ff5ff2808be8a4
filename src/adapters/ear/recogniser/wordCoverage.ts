/** How much of the speech in a sound its words leave uncovered: a word found in the middle of other speech is no answer. Pure. */

import type { HeardWord } from '../../../kernel/hearing/heard.ts'
import { FRAME, FRAME_MS } from '../audio/frame.ts'
import { rms } from '../audio/level.ts'

/** Frames this far below the loudest ones are pauses, breath and leftover noise. Chosen on the tuning set, as is the next. */
const QUIETER_DB = 15
/** Words begin earlier and end later than the recogniser says. */
const AROUND_MS = 120

/** Share of the loud frames that no word covers, 0 to 1; `pcm` is 16 kHz mono, the words are timed from its beginning. */
export function uncoveredShare(pcm: Float32Array, words: readonly HeardWord[]): number {
  const levels: number[] = []
  for (let at = 0; at + FRAME <= pcm.length; at += FRAME) levels.push(rms(pcm.subarray(at, at + FRAME)))
  // The quietest of the loudest tenth, so that a click does not set the level.
  const loud = [...levels].sort((one, other) => other - one)[Math.floor(levels.length / 10)] ?? 0
  const least = loud / 10 ** (QUIETER_DB / 20)
  let all = 0
  let uncovered = 0
  for (const [index, level] of levels.entries()) {
    if (level < least || level === 0) continue
    all++
    const at = (index + 0.5) * FRAME_MS
    if (!words.some(({ beginMs, endMs }) => at > beginMs - AROUND_MS && at < endMs + AROUND_MS)) uncovered++
  }
  return all > 0 ? uncovered / all : 0
}
