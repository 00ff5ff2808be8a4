/** A log as JSON Lines in a file, one event a line: for the command line. */

import { appendFile, open, readFile, stat, writeFile } from 'node:fs/promises'
import type { RunEvent } from '../../kernel/run/core/events.ts'
import type { RunLog } from '../../ports.ts'
import { outOfPlace } from './summary.ts'

/**
 * Begins a new log at `file`, in place of an earlier log. Rejects with the file's name where it cannot be written, or
 * where it holds anything but a log.
 */
export async function createFileLog(file: string): Promise<RunLog> {
  if (!(await mayBeReplaced(file))) {
    throw new Error(`${file} holds something else than a log and is left as it is; name a new file for the log`)
  }
  await clearly(file, writeFile(file, ''))
  const lengths = new Map<string, number>()

  return {
    async append(event) {
      const stored = lengths.get(event.runId) ?? 0
      const wrong = outOfPlace(stored, event)
      if (wrong) throw new Error(wrong)
      await clearly(file, appendFile(file, `${JSON.stringify(event)}\n`))
      lengths.set(event.runId, stored + 1)
    },
    async read(runId) {
      const text = await clearly(file, readFile(file, 'utf8'))
      const lines = text.split('\n').filter((line) => line !== '')
      return lines.map((line): RunEvent => JSON.parse(line)).filter((event) => event.runId === runId)
    },
  }
}

/** As `dispatch` writes the first event of a run. */
const FIRST_LINE = /^\{"v":\d+,"seq":0,"runId":"/

/** Nothing, an empty file, a device or a pipe, or a log of an earlier run. */
async function mayBeReplaced(file: string): Promise<boolean> {
  const found = await stat(file).catch(() => undefined)
  if (!found?.isFile() || found.size === 0) return true
  const opened = await clearly(file, open(file))
  try {
    const { buffer, bytesRead } = await opened.read(Buffer.alloc(64), 0, 64, 0)
    return FIRST_LINE.test(buffer.toString('utf8', 0, bytesRead))
  } finally {
    await opened.close()
  }
}

async function clearly<T>(file: string, work: Promise<T>): Promise<T> {
  try {
    return await work
  } catch (error) {
    throw new Error(`The log ${file} cannot be kept: ${error instanceof Error ? error.message : error}`)
  }
}
