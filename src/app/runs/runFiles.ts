/**
 * Runs as files: one with its pack and a note, all of them in one archive, one as a table. In a zip the logs are what is
 * read back in; a log holds its pack, whose files lie beside it for people.
 */

import { MOST_ARCHIVE_BYTES, MOST_ARCHIVE_FILES } from '../../kernel/bounds.ts'
import type { Pack } from '../../kernel/pack/checklist.ts'
import { NOTICE, type RunEvent } from '../../kernel/run/core/events.ts'
import type { RunSummary } from '../../kernel/run/core/summary.ts'
import { debriefRows } from '../../kernel/run/debrief/debriefRows.ts'
import { csvOf } from '../../packs/csvText.ts'
import { pathFault } from '../../packs/files/paths.ts'
import { createZip, type ZipMaking } from '../../packs/files/zipMaking.ts'
import type { RunArchive, RunSounds } from '../../ports.ts'
import { wavOf } from '../sound/wav.ts'
import { stopsPath } from '../stage/keptStops.ts'
import { soundPath } from './soundFiles.ts'

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
const HOW_TO_HEAR = 'The folder sound has what you said, each under the number of its event in the log.'

/** What is kept of a run besides its log. */
export interface Beside {
  readonly sounds?: RunSounds | undefined
  /** Where it stops when it is shown, as it is kept. */
  readonly stops?: string | undefined
}

export function zippedRun(
  events: readonly unknown[],
  summary: RunSummary,
  now: number,
  { sounds = new Map(), stops }: Beside = {},
): SavedFile {
  const name = runName(summary)
  const folder = `otherseat-${name}`
  const zip = createZip(now)
  zip.add(
    `${folder}/README.txt`,
    textOf([
      ...[`A run of ${summary.pack} in Otherseat, begun ${isoOf(summary)}.`, ...HOW_TO],
      ...(sounds.size > 0 ? [HOW_TO_HEAR] : []),
    ]),
  )
  // Before the rest: of a file that was cut, the log is what counts.
  const log = `${folder}/log.jsonl`
  zip.add(log, linesOf(events))
  const [first] = events as readonly RunEvent[]
  const texts = first?.type === 'runStarted' ? first.pack.texts : {}
  for (const [file, text] of Object.entries(texts)) {
    // A log from elsewhere may name its texts as it likes.
    if (pathFault(file) === undefined) zip.add(`${folder}/pack/${file}`, text)
  }
  if (stops !== undefined) zip.add(stopsPath(log), stops)
  addSounds(zip, log, sounds)
  return { name: `${folder}.zip`, content: zip.end() }
}

export interface ManyRuns {
  readonly log: Pick<RunArchive, 'read'>
  /** Undefined where they cannot be read. */
  readonly soundsOf: (runId: string) => Promise<RunSounds | undefined>
  /** Undefined where it has none. */
  readonly stopsOf: (runId: string) => Promise<string | undefined>
  /** Of how many runs the logs are in. */
  readonly tell: (done: number) => void
}

/** `silent`: runs whose sound is not in it, since it could not be read or the archive is full. */
export interface SavedRuns extends SavedFile {
  readonly silent: number
}

/** All runs of the list, one log each. The sounds come behind all logs, which count for more where the file is cut. */
export async function zippedRuns(
  { log, soundsOf, stopsOf, tell }: ManyRuns,
  runs: readonly RunSummary[],
  now: number,
): Promise<SavedRuns> {
  const folder = `otherseat-runs-${new Date(now).toISOString().slice(0, 10)}`
  const zip = createZip(now)
  const count = runs.length === 1 ? '1 run' : `${runs.length} runs`
  zip.add(
    `${folder}/README.txt`,
    textOf([
      `${count} of Otherseat. Each log holds a whole run, one event a line, with the pack that it was flown on.`,
      'Import this file on the screen "Runs": what is there already is left as it is.',
      'Where sound was kept, the folder with the name of a log has what was said, under the number of its event.',
    ]),
  )
  // Numbered, for two runs may have begun in one minute.
  const logOf = (run: RunSummary, index: number) =>
    `${folder}/${String(index + 1).padStart(4, '0')}-${runName(run)}.jsonl`
  for (const [index, run] of runs.entries()) {
    zip.add(logOf(run, index), linesOf(await log.read(run.runId)))
    tell(index + 1)
    const stops = await stopsOf(run.runId)
    if (stops !== undefined) zip.add(stopsPath(logOf(run, index)), stops)
  }
  let silent = 0
  for (const [index, run] of runs.entries()) {
    const sounds = await soundsOf(run.runId)
    if (!sounds || !hasRoom(zip, sounds)) silent += 1
    else addSounds(zip, logOf(run, index), sounds)
  }
  return { name: `${folder}.zip`, content: zip.end(), silent }
}

/** Bytes of a file's name and heads in a zip, with room to spare. */
const AROUND_A_FILE = 500

/** What is saved has to be read again: an archive that is larger would be refused. */
function hasRoom(zip: ZipMaking, sounds: RunSounds): boolean {
  if (sounds.size === 0) return true
  const { files, bytes } = zip.size()
  const more = [...sounds.values()].reduce((sum, { byteLength }) => sum + byteLength, 0)
  const all = files + sounds.size
  return all <= MOST_ARCHIVE_FILES && bytes + more + all * AROUND_A_FILE <= MOST_ARCHIVE_BYTES
}

function addSounds(zip: ZipMaking, log: string, sounds: RunSounds): void {
  for (const seq of [...sounds.keys()].toSorted((one, other) => one - other)) {
    zip.add(soundPath(log, seq), wavOf(sounds.get(seq) ?? new Int16Array()))
  }
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
