/** Finds a run that was left in the middle. In a file of its own, since the first screen waits for it. */

import type { RunArchive } from '../../ports.ts'
import type { AppState, Store } from '../store.ts'

/** Once a run has ended in this tab: another one that was left in the middle is offered at once. */
export async function offerUnfinished(
  log: RunArchive,
  store: Pick<Store, 'setState'>,
  ended: string | undefined,
): Promise<void> {
  const { unfinished } = (await findUnfinished(log, undefined)) ?? {}
  store.setState({ unfinished: unfinished?.runId === ended ? undefined : unfinished, needsGesture: false })
}

/** After a reload a run goes on at any key; on a later visit the start screen offers it. `openHere`: run of this tab. */
export async function findUnfinished(
  log: RunArchive,
  openHere: string | undefined,
): Promise<Pick<AppState, 'unfinished' | 'needsGesture'> | undefined> {
  const runId = await log.unfinished()
  if (runId === undefined) return undefined
  const unfinished = (await log.runs()).find((run) => run.runId === runId)
  return { unfinished, needsGesture: openHere === runId }
}
