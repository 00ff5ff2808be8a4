/** What a run makes of sound that answers nothing. */

import type { RunEvent } from '../../src/kernel/run/core/events.ts'
import type { Sound } from './room.ts'
import type { Seat } from './seat.ts'

/**
 * `verdicts`: something was taken for an answer, a command, a call; `sayAgains` and `prompts`: spoken; `tones`: sounded;
 * `overheard`: logged and no more.
 */
export const REACTIONS = ['verdicts', 'sayAgains', 'prompts', 'tones', 'overheard'] as const
export type Reaction = (typeof REACTIONS)[number]

export type Reactions = readonly { readonly kind: Reaction; readonly during: string; readonly text: string }[]

/** Nobody did or said any of it but the room. */
const NO_VERDICT: ReadonlySet<RunEvent['type']> = new Set(['overheard', 'voided', 'silent', 'timeUp', 'watchDue'])

/** What is spoken upon these is about what was heard. */
const ANSWERED: ReadonlySet<RunEvent['type']> = new Set(['answered', 'transmitted', 'voided'])

export async function reactionsTo(seat: Seat, sounds: Iterable<Sound>): Promise<Reactions> {
  const found: { kind: Reaction; during: string; text: string }[] = []
  let [events, spoken, tones] = [seat.events().length, seat.spoken.length, seat.tones.length]
  let during = ''
  for (const { what, pcm } of sounds) {
    if (what !== 'quiet') during = what
    await seat.play(pcm)
    const happened = seat.events().slice(events)
    for (const event of happened) {
      const text = 'evidence' in event ? `${event.type}: ${event.evidence.text}` : event.type
      if (event.type === 'overheard') found.push({ kind: 'overheard', during, text })
      else if (isVerdict(event)) found.push({ kind: 'verdicts', during, text })
    }
    const isAnswered = happened.some(({ type }) => ANSWERED.has(type))
    for (const { text } of seat.spoken.slice(spoken)) {
      found.push({ kind: isAnswered ? 'sayAgains' : 'prompts', during, text })
    }
    for (const name of seat.tones.slice(tones)) found.push({ kind: 'tones', during, text: name })
    events = seat.events().length
    spoken = seat.spoken.length
    tones = seat.tones.length
  }
  return found
}

function isVerdict(event: RunEvent): boolean {
  if (event.type === 'answered' || event.type === 'transmitted') return event.judgement.verdict !== 'sayAgain'
  return !NO_VERDICT.has(event.type)
}

export const counted = (reactions: Reactions, kind: Reaction) =>
  reactions.filter((reaction) => reaction.kind === kind).length
