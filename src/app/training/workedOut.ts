/**
 * What all runs come to: how the pilot comes on, the deck, and the read-backs that were drilled alone. It is kept whole beside
 * the log, so that while no run has come, gone or been flown further, the facts of hundreds need not be read again.
 */

import { FACTS_EDITION, type RunFacts } from '../../kernel/training/facts.ts'
import { type Progress, progressOf } from '../../kernel/training/progress.ts'
import type { RunArchive, TextCache } from '../../ports.ts'
import { isBeside } from '../runs/besideRun.ts'
import { DECK_EDITION, deckOf, EMPTY_DECK } from './deck.ts'
import { readFacts } from './runFacts.ts'
import type { Deck } from './training.ts'

export interface WorkedOut {
  readonly progress: Progress
  readonly deck: Deck
  /** Facts of blocks of read-backs, and of nothing else. */
  readonly dials: readonly RunFacts[]
  /** Runs of which nothing can be made. */
  readonly unreadable: number
}
interface Kept extends WorkedOut {
  readonly edition: string
  /** All of the log, as it gives them. */
  readonly runs: readonly string[]
}

const WHOLE = 'whole'
const EDITION = `${FACTS_EDITION} ${DECK_EDITION}`

export async function workOut(log: Pick<RunArchive, 'runs' | 'read'>, cache: TextCache): Promise<WorkedOut> {
  const runs = await log.runs()
  const was = keptIn(await cache.get(WHOLE))
  // There would be more of a run that is not over.
  const isWhole = runs.every(({ ended }) => ended)
  const isSame = was?.runs.length === runs.length && runs.every(({ runId }, at) => was.runs[at] === runId)
  if (was && isWhole && isSame) return was
  const read = await readFacts(log, cache, await cache.all())
  // Another version of a run says nothing that has happened besides.
  const facts = read.facts.filter(({ runId }) => !isBeside(runId))
  const { unreadable } = read
  const ended = new Set(runs.filter((run) => run.ended).map(({ runId }) => runId))
  const deck = deckOf(
    facts.filter(({ runId }) => ended.has(runId)),
    was?.deck ?? EMPTY_DECK,
  )
  const made = { progress: progressOf(facts), deck, dials: facts.filter(({ dial }) => dial !== undefined), unreadable }
  const kept: Kept = { edition: EDITION, runs: isWhole ? runs.map(({ runId }) => runId) : [], ...made }
  await cache.put(new Map([[WHOLE, JSON.stringify(kept)]]))
  return made
}

/** Undefined where it cannot be read, or is another edition's. */
function keptIn(text: string | undefined): Kept | undefined {
  try {
    const kept = JSON.parse(text ?? '') as Kept
    return kept.edition === EDITION ? kept : undefined
  } catch {
    return undefined
  }
}
