/** A log as JSON Lines in a file, one event a line: for the command line. */

import { appendFile, readFile, writeFile } from 'node:fs/promises'
import type { RunEvent } from '../../kernel/run/core/events.ts'
import type { RunLog, RunSummary } from '../../ports.ts'
import { newestFirst, newestUnfinished, outOfPlace, summarise } from './summary.ts'

/** Begins a new log at `file`; what was there is replaced. Rejects with the file's name where it cannot be written. */
export async function createFileLog(file: string): Promise<RunLog> {
  await clearly(file, writeFile(file, ''))
  const lengths = new Map<string, number>()

  async function all(): Promise<RunEvent[]> {
    const text = await clearly(file, readFile(file, 'utf8'))
    const lines = text.split('\n').filter((line) => line !== '')
    return lines.map((line) => JSON.parse(line) as RunEvent)
  }

  async function runs(): Promise<RunSummary[]> {
    const found = new Map<string, RunSummary>()
    for (const event of await all()) {
      const summary = summarise(found.get(event.runId), event)
      if (summary) found.set(event.runId, summary)
    }
    return newestFirst([...found.values()])
  }

  return {
    async append(event) {
      const stored = lengths.get(event.runId) ?? 0
      const wrong = outOfPlace(stored, event)
      if (wrong) throw new Error(wrong)
      await clearly(file, appendFile(file, `${JSON.stringify(event)}\n`))
      lengths.set(event.runId, stored + 1)
    },
    read: async (runId) => (await all()).filter((event) => event.runId === runId),
    unfinished: async () => newestUnfinished(await runs()),
    runs,
  }
}

async function clearly<T>(file: string, work: Promise<T>): Promise<T> {
  try {
    return await work
  } catch (error) {
    throw new Error(`The log ${file} cannot be kept: ${error instanceof Error ? error.message : error}`)
  }
}
