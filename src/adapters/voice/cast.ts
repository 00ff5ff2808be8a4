/** Which of the browser's voices speaks for whom: each another one, and where there are too few another pitch and pace. */

import { ROLES } from '../../kernel/pack/roles.ts'
import type { VoicedFor } from '../../ports.ts'

export interface Part {
  readonly voice: SpeechSynthesisVoice
  /** As a browser takes it: 1 is the voice's own. */
  readonly pitch: number
  /** Times the rate that is set. */
  readonly rate: number
}

/** A run's own roles come first in the cast. */
const CAST: readonly VoicedFor[] = [...ROLES, 'pilot']

/** For a voice that speaks for more than one of them; common practice, no source. */
const PITCHES: Readonly<Record<VoicedFor, number>> = {
  otherseat: 1,
  controller: 0.75,
  broadcast: 0.5,
  groundCrew: 1.4,
  pilot: 0.6,
}
const RATES: Readonly<Record<VoicedFor, number>> = {
  otherseat: 1,
  controller: 1.1,
  broadcast: 0.95,
  groundCrew: 1.05,
  pilot: 1,
}

/** The voice set is Otherseat's; undefined where there is no voice at all. */
export function castFor(voices: readonly SpeechSynthesisVoice[], name: string, who: VoicedFor): Part | undefined {
  const own = voices.find((voice) => voice.name === name) ?? voices.find((voice) => voice.default) ?? voices[0]
  if (!own) return undefined
  const cast = [own, ...others(voices, own)]
  const place = CAST.indexOf(who)
  const voice = cast[place % cast.length] ?? own
  const isTaken = place >= cast.length
  return isTaken ? { voice, pitch: PITCHES[who], rate: RATES[who] } : { voice, pitch: 1, rate: 1 }
}

/** One of each other region first: a system's spare voices of one region may be jokes, or one speaker in two sizes. */
function others(voices: readonly SpeechSynthesisVoice[], own: SpeechSynthesisVoice): SpeechSynthesisVoice[] {
  const rest = voices.filter((voice) => voice !== own)
  const firsts = rest.filter(
    ({ lang }, at) => lang !== own.lang && rest.findIndex((other) => other.lang === lang) === at,
  )
  return [...firsts, ...rest.filter((voice) => !firsts.includes(voice))]
}
