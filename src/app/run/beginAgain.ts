/** The log that a moment begins with when it is done again. */

import type { Pack } from '../../kernel/pack/checklist.ts'
import { followed, isLeft, missesIn } from '../../kernel/run/core/again.ts'
import { emptyRun } from '../../kernel/run/core/emptyRun.ts'
import type { RunAgain, RunEvent, RunSettings } from '../../kernel/run/core/events.ts'
import { evidenceAt } from '../../kernel/run/core/evidenceTime.ts'
import { activityAt } from '../../kernel/run/core/moving.ts'
import { step } from '../../kernel/run/core/step.ts'
import { letGoSince } from '../../kernel/run/partner/partner.ts'

/**
 * Events 0 to `seq` as a run of its own, whose last has just happened. `now`: clock time, ms since 1970; `seed`: a partner
 * who errs, and interruptions, do it otherwise than the last time. Throws where the
 * log has no such event, or does not begin with `runStarted`.
 */
export function eventsAgain(
  pack: Pack,
  events: readonly RunEvent[],
  {
    seq,
    runId,
    now,
    seed,
  }: { readonly seq: number; readonly runId: string; readonly now: number; readonly seed: number },
): RunEvent[] {
  const [first] = events
  const last = events[seq]
  if (first?.type !== 'runStarted' || !last) throw new Error(`the log has no event ${seq} to begin from`)
  const startedAt = now - last.t
  const laterMs = startedAt - first.startedAt
  const again: RunAgain = { runId: first.runId, seq, ...lastTime(pack, events, seq) }
  return events.slice(0, seq + 1).map((event): RunEvent => {
    const stamp = { runId, wall: new Date(startedAt + event.t).toISOString() }
    if (event.type === 'runStarted')
      return { ...event, ...stamp, startedAt, again, settings: otherwise(event.settings, seed) }
    const evidence =
      'evidence' in event && event.evidence ? { evidence: evidenceAt(event.evidence, (t) => t + laterMs) } : {}
    return { ...event, ...evidence, ...stamp }
  })
}

const otherwise = ({ partner, breaks, ...settings }: RunSettings, seed: number): RunSettings => ({
  ...settings,
  ...(partner && { partner: { ...partner, seed } }),
  ...(breaks && { breaks: { ...breaks, seed } }),
})

/** How it went from there in the run itself; nothing where that never came to its end. */
function lastTime(pack: Pack, events: readonly RunEvent[], seq: number): Pick<RunAgain, 'lastMisses'> {
  let state = emptyRun('')
  let misses = 0
  let activity: string | undefined
  for (const event of events) {
    const before = state
    state = step(pack, before, event).state
    if (event.seq === seq) activity = activityAt(pack, state.floor)?.id
    if (event.seq <= seq) continue
    misses += missesIn(before, state, event)
    activity = followed(before, state, event, activity)
    if (isLeft(pack, state, activity)) return { lastMisses: misses + letGoSince(state, seq) }
  }
  return {}
}
