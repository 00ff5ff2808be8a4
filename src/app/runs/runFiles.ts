/**
 * Runs as files: one with its pack and a note, all of them in one archive, one as a table. In a zip the logs are what is
 * read back in; a log holds its pack, whose files lie beside it for people.
 */

import type { Pack } from '../../kernel/pack/checklist.ts'
import { NOTICE, type RunEvent } from '../../kernel/run/core/events.ts'
import type { RunSummary } from '../../kernel/run/core/summary.ts'
import { debriefRows } from '../../kernel/run/debrief/debriefRows.ts'
import { csvOf } from '../../packs/csvText.ts'
import { pathFault } from '../../packs/files/paths.ts'
import { createZip, type ZipMaking } from '../../packs/files/zipMaking.ts'
import type { RunArchive } from '../../ports.ts'

export interface SavedFile {
  readonly name: string
  readonly content: string | Uint8Array
}

/** One event a line. */
export function linesOf(events: readonly unknown[]): string {
  return events.map((event) => `${JSON.stringify(event)}\n`).join('')
}

/** "2026-11-30-1405-marram", in UTC: without signs that a file system forbids. */
export function runName({ startedAt, packId = 'run' }: Pick<RunSummary, 'startedAt' | 'packId'>): string {
  const time = new Date(startedAt).toISOString().slice(0, 16).replace('T', '-').replace(':', '')
  return `${time}-${packId.toLowerCase().replace(/[^a-z0-9-]/g, '') || 'run'}`
}

const HOW_TO = [
  'log.jsonl holds the whole run, one event a line, with the pack that it was flown on. Import this file, or the log alone,',
  'on the screen "Runs" to see the debrief. The folder pack has the texts of that pack, to be read; it is not read back in.',
]

export function zippedRun(events: readonly unknown[], summary: RunSummary, now: number): SavedFile {
  const name = runName(summary)
  const folder = `otherseat-${name}`
  const zip = createZip(now)
  zip.add(
    `${folder}/README.txt`,
    textOf([`A run of ${summary.pack} in Otherseat, begun ${isoOf(summary)}.`, ...HOW_TO]),
  )
  // Before the pack: of a file that was cut, the log is what counts.
  zip.add(`${folder}/log.jsonl`, linesOf(events))
  const [first] = events as readonly RunEvent[]
  const texts = first?.type === 'runStarted' ? first.pack.texts : {}
  for (const [file, text] of Object.entries(texts)) {
    // A log from elsewhere may name its texts as it likes.
    if (pathFault(file) === undefined) zip.add(`${folder}/pack/${file}`, text)
  }
  return { name: `${folder}.zip`, content: zip.end() }
}

/** All runs of the list, one log each; `tell` is told how many are in. */
export async function zippedRuns(
  log: Pick<RunArchive, 'read'>,
  runs: readonly RunSummary[],
  now: number,
  tell: (done: number) => void,
): Promise<SavedFile> {
  const folder = `otherseat-runs-${new Date(now).toISOString().slice(0, 10)}`
  const zip = createZip(now)
  const count = runs.length === 1 ? '1 run' : `${runs.length} runs`
  zip.add(
    `${folder}/README.txt`,
    textOf([
      `${count} of Otherseat. Each log holds a whole run, one event a line, with the pack that it was flown on.`,
      'Import this file on the screen "Runs": what is there already is left as it is.',
    ]),
  )
  for (const [index, run] of runs.entries()) {
    addRun(zip, folder, run, index, await log.read(run.runId))
    tell(index + 1)
  }
  return { name: `${folder}.zip`, content: zip.end() }
}

/** Numbered, for two runs may have begun in one minute. */
function addRun(zip: ZipMaking, folder: string, run: RunSummary, index: number, events: readonly unknown[]): void {
  zip.add(`${folder}/${String(index + 1).padStart(4, '0')}-${runName(run)}.jsonl`, linesOf(events))
}

export function csvOfRun(pack: Pack, events: readonly RunEvent[], summary: RunSummary): SavedFile {
  const rows = debriefRows(pack, events).map(({ t, list, item, heard, verdict, waitMs }) => [
    ...[seconds(t), list, item, heard, verdict],
    seconds(waitMs),
  ])
  const head = ['time s', 'list', 'item', 'heard', 'verdict', 'wait s']
  return { name: `otherseat-${runName(summary)}.csv`, content: csvOf([head, ...rows]) }
}

const seconds = (ms: number) => Math.round(ms / 100) / 10

const isoOf = ({ startedAt }: RunSummary) => new Date(startedAt).toISOString()

const textOf = (lines: readonly string[]) =>
  `${NOTICE}. Not for use in flight or on a real aircraft.\n\n${lines.join('\n')}\n`
