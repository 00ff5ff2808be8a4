/**
 * The facts of all runs that the log keeps. Each run is folded once, when it is over, and what came of it is kept beside the
 * log as one short text; a run that is not over is folded each time.
 */

import { FACTS_EDITION, type RunFacts } from '../../kernel/training/facts.ts'
import { factsOf } from '../../kernel/training/factsOf.ts'
import type { RunArchive, TextCache } from '../../ports.ts'
import { readStoredRun } from '../run/storedRun.ts'

export interface AllFacts {
  readonly facts: readonly RunFacts[]
  /** Runs of which nothing can be made: their logs cannot be read. */
  readonly unreadable: number
}

const keyOf = (runId: string) => `run ${runId}`

/** `kept`: all that the cache holds. */
export async function readFacts(
  log: Pick<RunArchive, 'runs' | 'read'>,
  cache: Pick<TextCache, 'put'>,
  kept: ReadonlyMap<string, string>,
): Promise<AllFacts> {
  const facts: RunFacts[] = []
  const fresh = new Map<string, string>()
  let unreadable = 0
  for (const { runId, ended } of await log.runs()) {
    const known = factsIn(kept.get(keyOf(runId)))
    const found = known ?? (await fold(log, runId))
    if (!found) unreadable++
    else facts.push(found)
    if (found && !known && ended) fresh.set(keyOf(runId), JSON.stringify(found))
  }
  if (fresh.size > 0) await cache.put(fresh)
  return { facts, unreadable }
}

/** Undefined where nothing is kept of it, or by another edition. */
function factsIn(text: string | undefined): RunFacts | undefined {
  if (text === undefined) return undefined
  try {
    const facts = JSON.parse(text) as RunFacts
    return facts.edition === FACTS_EDITION ? facts : undefined
  } catch {
    return undefined
  }
}

async function fold(log: Pick<RunArchive, 'read'>, runId: string): Promise<RunFacts | undefined> {
  const run = await readStoredRun(log, runId)
  return 'why' in run ? undefined : factsOf(run.pack, run.events)
}
