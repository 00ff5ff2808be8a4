/** A run to be played back from its log alone: what was said, by whom and when, with long waits cut short. */

import { capital } from '../../capital.ts'
import type { Pack } from '../../pack/checklist.ts'
import type { Role } from '../../pack/roles.ts'
import { acceptedAs } from '../core/accepted.ts'
import type { RunEvent } from '../core/events.ts'
import { injectionWords } from '../core/injections.ts'
import type { RunState } from '../core/state.ts'
import { findTurn } from '../talk/talk.ts'
import { momentsOf } from './moments.ts'

export interface Cue {
  /** Of the event that it came with. */
  readonly seq: number
  /** Ms from the start of the run. */
  readonly t: number
  /** `pilot`: shown, not spoken; `note`: what happened without words. */
  readonly by: Role | 'pilot' | 'note'
  readonly text: string
  /** Until the next one, ms; what is said in it counts. */
  readonly waitMs: number
}

/** Longer waits are cut down to this. */
export const LONGEST_WAIT_MS = 3_000

/** Of a moment that was done again, and of a run begun in the middle, what came after that. Effects follow from the log as they did then. */
export function cuesOf(pack: Pack, events: readonly RunEvent[]): Cue[] {
  const cues = momentsOf(pack, events).own.flatMap(({ event, after, effects }): Omit<Cue, 'waitMs'>[] => {
    const { seq, t } = event
    const own = ownCue(pack, event, after)
    const spoken = effects.filter((effect) => effect.type === 'speak')
    return [...(own ? [{ seq, t, ...own }] : []), ...spoken.map(({ role, text }) => ({ seq, t, by: role, text }))]
  })
  return cues.map((cue, index) => {
    const waitMs = Math.min(LONGEST_WAIT_MS, Math.max(0, (cues[index + 1]?.t ?? cue.t) - cue.t))
    return { ...cue, waitMs }
  })
}

/** What the pilot said in an event, or what happened in it without words; undefined where neither. */
export function ownCue(pack: Pack, event: RunEvent, after: RunState): Pick<Cue, 'by' | 'text'> | undefined {
  // Meant for nobody.
  if (event.type === 'overheard' && !event.meant) return undefined
  if (event.type === 'figuresRevised') {
    const { takenDown } = event
    if (takenDown !== undefined) return { by: 'note', text: `Figures from ${findTurn(pack, takenDown).turn.label}` }
    return {
      by: 'note',
      text: `${capital(event.status)} figures accepted as revision ${acceptedAs(after, event.revision)}`,
    }
  }
  if (event.type === 'injected') return { by: 'note', text: `${event.by} gave ${injectionWords(event.what)}` }
  if (event.type === 'sheetCame') return { by: 'note', text: 'A sheet came in' }
  if (event.type === 'resumed') return { by: 'note', text: 'Begun here, or gone on with after the page was left' }
  if (!('evidence' in event) || !event.evidence) return undefined
  const { by, text } = event.evidence
  return by === 'key' ? { by: 'note', text: 'A key was pressed' } : { by: 'pilot', text }
}
