/** Where runs stop when they are shown, kept as text by the run. */

import { listOf, number, object, text } from '../../kernel/shape.ts'
import type { TextCache } from '../../ports.ts'
import { besideLog } from '../runs/besideLog.ts'
import type { Stop } from './prepared.ts'

const stops = listOf(object<Stop>({ seq: number, words: text }))

export const stopsText = (all: readonly Stop[]): string => JSON.stringify(all)

/** Of a run in a zip. */
export const stopsPath = (log: string): string => `${besideLog(log)}stops.json`

/** None where nothing is kept, or what is kept is none. */
export async function readStops(kept: Pick<TextCache, 'get'>, runId: string): Promise<readonly Stop[]> {
  return stopsIn((await kept.get(runId)) ?? '[]') ?? []
}

/** Undefined where the text is no list of stops. */
export function stopsIn(content: string): readonly Stop[] | undefined {
  try {
    const read: unknown = JSON.parse(content)
    return stops(read) === undefined ? (read as readonly Stop[]) : undefined
  } catch {
    return undefined
  }
}
