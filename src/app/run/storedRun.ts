/** A run as far as it has come: from nothing, or from its log, with the pack that the log holds. */

import type { Pack } from '../../kernel/pack/checklist.ts'
import { isError } from '../../kernel/problem.ts'
import { showProblem } from '../../kernel/problemLine.ts'
import { emptyRun } from '../../kernel/run/core/emptyRun.ts'
import type { RunEvent } from '../../kernel/run/core/events.ts'
import { type LogProblem, readEvents, replay } from '../../kernel/run/core/readLog.ts'
import type { RunState } from '../../kernel/run/core/state.ts'
import type { RunLog } from '../../ports.ts'
import { type Revision, revisionsAfter } from './revision.ts'

export interface RunSoFar {
  readonly pack: Pack
  readonly state: RunState
  readonly events: readonly RunEvent[]
  readonly revisions: readonly Revision[]
  /** How many of the events the log holds; all where it is not said. */
  readonly stored?: number
}

export function newRun(pack: Pack, runId: string): RunSoFar {
  return { pack, state: emptyRun(runId), events: [], revisions: [] }
}

/** To the end of the events, or to the first that cannot be replayed on this pack. */
export function replayed(pack: Pack, events: readonly RunEvent[]): RunSoFar & { readonly problem?: LogProblem } {
  let revisions: readonly Revision[] = []
  const run = replay(pack, events, (step) => {
    revisions = revisionsAfter(pack, revisions, step)
  })
  return { pack, revisions, ...run }
}

/**
 * A run from the log, on its own pack as its log holds it: an edition that came since cannot change it. Where it cannot
 * be gone on with, one line says why.
 */
export async function readStoredRun(
  log: Pick<RunLog, 'read'>,
  runId: string,
): Promise<RunSoFar | { readonly why: string }> {
  const { events, problem } = readEvents(await log.read(runId))
  if (problem) return { why: problem.message }
  const [first] = events
  if (first?.type !== 'runStarted') return { why: 'its log is empty' }
  const pack = await packOf(first)
  if ('why' in pack) return pack
  const run = replayed(pack, events)
  return run.problem ? { why: run.problem.message } : run
}

/** The pack that a run was begun with, as its log holds it. */
export async function packOf({ pack: { texts, sha256 } }: RunEvent<'runStarted'>): Promise<Pack | { why: string }> {
  // Reading YAML is a good part of the app, and the first screen needs none of it.
  const { readPack } = await import('../../packs/read.ts')
  const { pack, problems } = readPack(texts, sha256)
  const error = problems.find(isError)
  return pack ?? { why: `its pack cannot be read: ${error ? showProblem(error) : 'it is empty'}` }
}
