/** What a run on the stage consists of, one thing after another: waits, words, verdicts, and the places where it may stop. */

import type { Pack } from '../../kernel/pack/checklist.ts'
import { canWait, isForRoom, isMissed } from '../../kernel/run/core/forRoom.ts'
import type { RunState } from '../../kernel/run/core/state.ts'
import type { FoldedMoment } from '../../kernel/run/debrief/moments.ts'
import { momentsOf } from '../../kernel/run/debrief/moments.ts'
import { LONGEST_WAIT_MS, ownCue } from '../../kernel/run/debrief/replay.ts'
import { runningWatch } from '../../kernel/run/watch/watchTiming.ts'
import type { VoicedFor } from '../../ports.ts'
import { answerAfter, type ShownMoment } from '../run/lastAnswer.ts'
import { type Revision, revisionsAfter } from '../run/revision.ts'
import type { Prepared } from './prepared.ts'

export type Beat =
  | { readonly type: 'wait'; readonly ms: number }
  | { readonly type: 'says'; readonly who: VoicedFor; readonly text: string }
  /** The words stand alone: the room may be asked before the verdict. */
  | { readonly type: 'asks'; readonly before: Scene; readonly text: string; readonly by: 'voice' | 'typed' | 'key' }
  | { readonly type: 'shows'; readonly scene: Scene }
  | { readonly type: 'stops'; readonly at: StopsAt; readonly words: string }

/** `marked`: somebody wants it; the others are for who asked for them. */
export type StopsAt = 'marked' | 'misses' | 'answers'

/** What stands on the screen after an event. */
export interface Scene {
  readonly run: RunState
  /** Of the event, ms from the start of the run. */
  readonly t: number
  readonly answered: ShownMoment | undefined
  readonly revisions: readonly Revision[]
  /** What happened without words. */
  readonly note: string
}

/** As a replay has it: what was frozen is taken out, and of a run begun in the middle what came before is there at once. */
export function beatsOf({ pack, events, stops }: Prepared): Beat[] {
  const { taken, own } = momentsOf(pack, events)
  const words = new Map(stops.map((stop) => [stop.seq, stop.words]))
  let scene: Scene = { run: emptyOf(own[0] ?? taken[0]), t: 0, answered: undefined, revisions: [], note: '' }
  for (const moment of taken) scene = after(pack, scene, moment)
  return own.flatMap((moment, index) => {
    const before = scene
    scene = after(pack, before, moment)
    return beatsAt(moment, { before, scene, waitMs: waitBefore(own, index), words: words.get(moment.event.seq) })
  })
}

/** About what a voice takes for a word; common practice, no source. */
export const MS_PER_WORD = 350

/** In a start, time is what is looked at. */
const LONGEST_IN_A_START_MS = 15_000

/** What is left of the time since the event before, without what is spoken in it; long waits are cut short. */
function waitBefore(own: readonly FoldedMoment[], index: number): number {
  const [last, moment] = [own[index - 1], own[index]]
  if (!last || !moment) return 0
  const said = 'evidence' in moment.event ? (moment.event.evidence?.text ?? '') : ''
  const spoken = [said, ...last.effects.map((effect) => (effect.type === 'speak' ? effect.text : ''))]
  const spokenMs = spoken.join(' ').trim().split(/\s+/).length * MS_PER_WORD
  const longestMs = runningWatch(last.pack, last.after) ? LONGEST_IN_A_START_MS : LONGEST_WAIT_MS
  return Math.min(longestMs, Math.max(0, moment.event.t - last.event.t - spokenMs))
}

function emptyOf(first: FoldedMoment | undefined): RunState {
  if (!first) throw new Error('a run without an event cannot be shown')
  return first.before
}

function after(pack: Pack, before: Scene, { event, after: run, before: state }: FoldedMoment): Scene {
  const replayed = { before: state, event, state: run }
  const cue = ownCue(pack, event, run)
  return {
    ...{ run, t: event.t },
    answered: answerAfter(pack, before.answered, replayed),
    revisions: revisionsAfter(pack, before.revisions, replayed),
    note: cue?.by === 'note' && event.type !== 'resumed' ? cue.text : '',
  }
}

interface Around {
  readonly before: Scene
  readonly scene: Scene
  readonly waitMs: number
  /** Where it is marked. */
  readonly words: string | undefined
}

/** Where an answer is looked at, what it brings is said once it goes on; where anything else is, it has been said by then. */
function beatsAt({ pack, event, before: state, after: run, effects }: FoldedMoment, around: Around): Beat[] {
  const { before, scene, waitMs, words } = around
  const own = ownCue(pack, event, run)
  const said = own?.by === 'pilot' ? own.text : undefined
  const evidence = 'evidence' in event ? event.evidence : undefined
  const looked = isForRoom(event) && canWait(event.type)
  const stop: Beat[] =
    words !== undefined
      ? [{ type: 'stops', at: 'marked', words }]
      : looked
        ? [{ type: 'stops', at: isMissed(state, run, event) ? 'misses' : 'answers', words: '' }]
        : []
  const replies = effects.flatMap((effect): Beat[] =>
    effect.type === 'speak' ? [{ type: 'says', who: effect.role, text: effect.text }] : [],
  )
  return [
    ...(waitMs > 0 ? [{ type: 'wait', ms: waitMs } as const] : []),
    ...(said !== undefined ? [{ type: 'says', who: 'pilot', text: said } as const] : []),
    ...(looked && said !== undefined && evidence && evidence.by !== 'file'
      ? [{ type: 'asks', before, text: said, by: evidence.by } as const]
      : []),
    { type: 'shows', scene },
    ...(looked ? [...stop, ...replies] : [...replies, ...stop]),
  ]
}
