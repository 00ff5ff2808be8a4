/** Which of the browser's voices speaks for whom: each role another one, and where there are too few another pitch and pace. */

import { ROLES, type Role } from '../../kernel/pack/roles.ts'

export interface Part {
  readonly voice: SpeechSynthesisVoice
  /** As a browser takes it: 1 is the voice's own. */
  readonly pitch: number
  /** Times the rate that is set. */
  readonly rate: number
}

/** For a voice that speaks for more than one role; common practice, no source. */
const PITCHES: Readonly<Record<Role, number>> = { otherseat: 1, controller: 0.75, broadcast: 0.5, groundCrew: 1.4 }
const RATES: Readonly<Record<Role, number>> = { otherseat: 1, controller: 1.1, broadcast: 0.95, groundCrew: 1.05 }

/** The voice set is Otherseat's; undefined where there is no voice at all. */
export function castFor(voices: readonly SpeechSynthesisVoice[], name: string, role: Role): Part | undefined {
  const own = voices.find((voice) => voice.name === name) ?? voices.find((voice) => voice.default) ?? voices[0]
  if (!own) return undefined
  const cast = [own, ...others(voices, own)]
  const place = ROLES.indexOf(role)
  const voice = cast[place % cast.length] ?? own
  const isTaken = place >= cast.length
  return isTaken ? { voice, pitch: PITCHES[role], rate: RATES[role] } : { voice, pitch: 1, rate: 1 }
}

/** One of each other region first: a system's spare voices of one region may be jokes, or one speaker in two sizes. */
function others(voices: readonly SpeechSynthesisVoice[], own: SpeechSynthesisVoice): SpeechSynthesisVoice[] {
  const rest = voices.filter((voice) => voice !== own)
  const firsts = rest.filter(
    ({ lang }, at) => lang !== own.lang && rest.findIndex((other) => other.lang === lang) === at,
  )
  return [...firsts, ...rest.filter((voice) => !firsts.includes(voice))]
}
