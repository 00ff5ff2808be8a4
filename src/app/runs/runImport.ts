/**
 * Runs brought in from files: archives, single runs, logs. Nothing is written over: a run that is here already stays as it
 * is, or gets the events that follow; another run under its id is kept beside it. Sounds come in with the run that they lie
 * beside. What is whole is kept, and what is not is told in one line each.
 */

import {
  LONGEST_RUN_ID,
  MOST_ARCHIVE_BYTES,
  MOST_ARCHIVE_FILES,
  MOST_LOG_BYTES,
  MOST_RUNS,
  MOST_SOUND_BYTES,
  MOST_UNPACKED_BYTES,
} from '../../kernel/bounds.ts'
import { quoted } from '../../kernel/quoted.ts'
import type { RunEvent } from '../../kernel/run/core/events.ts'
import { readEvents, readLogText } from '../../kernel/run/core/readLog.ts'
import { packSha256 } from '../../packs/digest.ts'
import { isRefused, type OfferedFile, type Refused } from '../../packs/files/offered.ts'
import { pathFault } from '../../packs/files/paths.ts'
import { filesInCutZip, filesInZip, looksLikeZip, type ZipBounds } from '../../packs/files/zip.ts'
import type { RunArchive, RunLock, SoundShelf, TextCache } from '../../ports.ts'
import { stopsIn, stopsPath, stopsText } from '../stage/keptStops.ts'
import { besideId } from './besideRun.ts'
import { linesOf } from './runFiles.ts'
import type { RunReader } from './runRead.ts'
import { isSoundFile, readSounds, soundsBeside } from './soundFiles.ts'

export interface ImportParts {
  readonly log: Pick<RunArchive, 'read' | 'put'>
  readonly sounds: Pick<SoundShelf, 'put' | 'numbers'>
  readonly stops: Pick<TextCache, 'get' | 'put'>
  readonly lock: Pick<RunLock, 'isHeld'>
  readonly reader: RunReader
  /** How many of how many are read. */
  readonly tell: (done: number, of: number) => void
}

export interface Imported {
  readonly told: readonly string[]
  readonly wrong: readonly string[]
}

const OF_RUNS: ZipBounds = {
  mostBytes: MOST_ARCHIVE_BYTES,
  mostFiles: MOST_ARCHIVE_FILES,
  what: 'one with runs',
  instead: 'save the runs in several archives',
}

/** For a person first; what is wrong in it stands behind. */
const NO_RUN = 'is no run of Otherseat: choose the .zip or the .jsonl that was saved'

const TOO_MUCH = { wrong: 'is left out: the archive unpacks to more than is read' }

/** More lines than these nobody reads. */
const MOST_WRONG = 50

/** What became of a log. */
type Fate = 'new' | 'there' | 'longer'

export async function importRuns(parts: ImportParts, offered: readonly OfferedFile[]): Promise<Imported> {
  const wrong: string[] = []
  const fates: Fate[] = []
  const { runs, rest } = await runsIn(offered, wrong)
  let unpacked = 0
  let heard = 0
  for (const [index, { log, sounds, stops }] of runs.entries()) {
    parts.tell(index, runs.length)
    unpacked += log.size
    const fate = unpacked > MOST_UNPACKED_BYTES ? TOO_MUCH : await taken(parts, log, log === rest).catch(notKept)
    if ('wrong' in fate) {
      wrong.push(`${nameOf(log.path)} ${fate.wrong}.`)
      continue
    }
    fates.push(fate.fate)
    if (fate.note !== '') wrong.push(`${nameOf(log.path)} ${fate.note}.`)
    unpacked += sounds.reduce((sum, { size }) => sum + size, 0)
    const sounded =
      unpacked > MOST_UNPACKED_BYTES ? TOO_MUCH : await takenSounds(parts, fate.events, sounds).catch(notKept)
    if (sounded.wrong !== '') wrong.push(`The sound of ${nameOf(log.path)} ${sounded.wrong}.`)
    if ('count' in sounded) heard += sounded.count
    const stopped = stops && (await takenStops(parts, fate.events, stops).catch(notKept)).wrong
    if (stopped) wrong.push(`Where ${nameOf(log.path)} stops when it is shown ${stopped}.`)
  }
  const more = wrong.length - MOST_WRONG
  return {
    told: [...words(fates), ...(heard > 0 ? [soundWords(heard)] : [])],
    wrong: more > 0 ? [...wrong.slice(0, MOST_WRONG), `${more} more files have something wrong.`] : wrong,
  }
}

/** A log, and what lies beside it in its zip. */
interface OfferedRun {
  readonly log: OfferedFile
  readonly sounds: readonly OfferedFile[]
  readonly stops?: OfferedFile | undefined
}

/** The runs among what came, `rest` being a log that is known to be cut. */
async function runsIn(
  offered: readonly OfferedFile[],
  wrong: string[],
): Promise<{ readonly runs: readonly OfferedRun[]; readonly rest?: OfferedFile }> {
  const runs: OfferedRun[] = []
  let rest: OfferedFile | undefined
  for (const file of offered) {
    if (!/\.zip$/i.test(file.path)) {
      runs.push({ log: file, sounds: [] })
      continue
    }
    const found = await unzipped(file)
    if (isRefused(found)) {
      wrong.push(`${nameOf(file.path)}: ${found.wrong}`)
      continue
    }
    wrong.push(...found.faults.map((line) => `${nameOf(file.path)}: ${line}`))
    runs.push(...found.runs)
    rest = found.rest ?? rest
  }
  return { runs, ...(rest && { rest }) }
}

interface Unzipped {
  readonly runs: readonly OfferedRun[]
  readonly rest?: OfferedFile
  /** In one sentence each. */
  readonly faults: readonly string[]
}

async function unzipped(zip: OfferedFile): Promise<Unzipped | Refused> {
  if (zip.size > MOST_ARCHIVE_BYTES) return filesTooLarge(zip.size)
  const bytes = await zip.bytes()
  if (isRefused(bytes)) return bytes
  if (!looksLikeZip(bytes)) return { wrong: 'It is no zip, whatever its name says.' }
  const files = filesInZip(bytes, OF_RUNS)
  if (!isRefused(files)) return chosen(files)
  if (!files.isCut) return files
  const { files: whole, cut } = filesInCutZip(bytes, MOST_ARCHIVE_FILES)
  const { runs, faults } = chosen(cut ? [...whole, cut] : whole)
  const rest = cut && runs.some(({ log }) => log === cut) ? { rest: cut } : {}
  return { runs, ...rest, faults: ['The zip is cut short; what is whole of it was read.', ...faults] }
}

/** Logs and sounds by their names; those that want to be elsewhere mean no good, and are told. */
function chosen(files: readonly OfferedFile[]): Unzipped {
  const good = files.filter(({ path }) => pathFault(path) === undefined)
  const faults = files.map(({ path }) => pathFault(path)).filter((fault) => fault !== undefined)
  const logs = good.filter(({ path }) => /\.jsonl$/i.test(path))
  if (logs.length + faults.length === 0) return { runs: [], faults: ['There is no log of a run in it.'] }
  const beside = soundsBeside(good.filter(({ path }) => isSoundFile(path)))
  const many = logs.length > MOST_RUNS ? [`Of its ${logs.length} logs the first ${MOST_RUNS} were read.`] : []
  const stopsOf = new Map(good.map((file) => [file.path, file]))
  const runs = logs
    .slice(0, MOST_RUNS)
    .map((log) => ({ log, sounds: beside(log.path), stops: stopsOf.get(stopsPath(log.path)) }))
  return { runs, faults: [...faults, ...many] }
}

const filesTooLarge = (size: number): Refused => ({
  wrong: `It has ${Math.round(size / 1_000_000)} MB; at most ${MOST_ARCHIVE_BYTES / 1_000_000} MB are read.`,
})

/** `events`: as they are kept now, under the id that they are kept by. */
type Taken =
  | { readonly fate: Fate; readonly note: string; readonly events: readonly RunEvent[] }
  | { readonly wrong: string }

/** `isCut`: it is known to be. Told behind the file's name. */
async function taken(parts: ImportParts, file: OfferedFile, isCut: boolean): Promise<Taken> {
  if (file.size > MOST_LOG_BYTES)
    return { wrong: `is too large for a log: at most ${MOST_LOG_BYTES / 1_000_000} MB are read` }
  const bytes = await file.bytes()
  if (isRefused(bytes)) return { wrong: `cannot be read: ${withoutStop(bytes.wrong)}` }
  const text = textOf(bytes, isCut)
  if (text === undefined) return { wrong: `${NO_RUN} (it is no UTF-8 text)` }
  const read = readLogText(text)
  const [first] = read.events
  const why = read.problem && `line ${read.problem.line}: ${read.problem.message}`
  if (first?.type !== 'runStarted') return { wrong: `${NO_RUN} (${why ?? 'it has no whole event'})` }
  if (first.runId === '' || first.runId.length > LONGEST_RUN_ID) {
    return { wrong: `has a run id of ${first.runId.length} letters; 1 to ${LONGEST_RUN_ID} would be right` }
  }
  if ((await packSha256(first.pack.texts)) !== first.pack.sha256) {
    return { wrong: 'was changed: its pack is not the one that its SHA-256 stands for' }
  }
  const notes = [
    why && `is read up to ${why}; what follows is left out`,
    !why && (read.isCut || isCut) && `is cut; it is read up to its last whole line, event ${read.events.length - 1}`,
  ]
  return stored(parts, read.events, notes.find((note) => typeof note === 'string') ?? '')
}

async function stored(parts: ImportParts, events: readonly RunEvent[], note: string): Promise<Taken> {
  const { log, lock } = parts
  const runId = events[0]?.runId ?? ''
  const values = await log.read(runId)
  const there = readEvents(values).events
  const same = firstDifference(there, events)
  if (same === events.length) return { fate: 'there', note, events }
  // What this edition cannot read may be anything, and nothing follows it.
  const goesOn = same === values.length
  if (goesOn && same > 0 && (await lock.isHeld(runId))) {
    return { wrong: 'has more of a run that is on now: end that run, then import the file again' }
  }
  if (goesOn) return kept(parts, events, same > 0 ? 'longer' : 'new', note)
  const others = await beside(runId, events)
  const otherId = others[0]?.runId ?? ''
  if (firstDifference(readEvents(await log.read(otherId)).events, others) === others.length) {
    return { fate: 'there', note: '', events: others }
  }
  const told = `differs at event ${same} from the run that is here under its id; it is kept beside it, with another id`
  return kept(parts, others, 'new', note === '' ? told : `${told}, and ${note}`)
}

/** The same under an id that follows from what is in it: brought in once more it is known again. */
async function beside(runId: string, events: readonly RunEvent[]): Promise<RunEvent[]> {
  const digest = await packSha256({ log: linesOf(events) })
  return events.map((event) => ({ ...event, runId: besideId(runId, digest) }))
}

async function kept(
  { log, reader }: ImportParts,
  events: readonly RunEvent[],
  fate: Fate,
  note: string,
): Promise<Taken> {
  const summary = await reader.summaryOf(events)
  if (!summary) return { wrong: 'is no log of a run' }
  // Left in the middle elsewhere, it is to be read here, and not to be gone on with.
  await log.put({ summary: { ...summary, ended: true }, events })
  const { wrong } = summary.account ?? {}
  const told = note === '' && wrong !== undefined ? `is kept, and not told to its end: ${wrong}` : note
  return { fate, note: told, events }
}

/** What is whole of them, and not here, is kept with the run; what is not whole is told in one line, behind the name of the log. */
async function takenSounds(
  parts: ImportParts,
  events: readonly RunEvent[],
  files: readonly OfferedFile[],
): Promise<{ readonly count: number; readonly wrong: string }> {
  const { sounds, lost, why } = await readSounds(events, files, MOST_SOUND_BYTES)
  const runId = events[0]?.runId ?? ''
  const there = new Set(sounds.size === 0 ? [] : await parts.sounds.numbers(runId))
  const fresh = new Map([...sounds].filter(([seq]) => !there.has(seq)))
  if (fresh.size > 0) await parts.sounds.put(runId, fresh)
  return {
    count: fresh.size,
    wrong: lost === 0 ? '' : `is not whole, ${lost} of ${files.length} are left out: ${why}`,
  }
}

/** Stops of the person's own stay as they are. */
async function takenStops(
  { stops }: ImportParts,
  events: readonly RunEvent[],
  file: OfferedFile,
): Promise<{ readonly wrong: string }> {
  const bytes = file.size > MOST_STOPS_BYTES ? { wrong: '' } : await file.bytes()
  const read = isRefused(bytes) ? undefined : stopsIn(textOf(bytes, false) ?? '')
  if (!read) return { wrong: 'is left out: its stops.json is no list of stops' }
  const runId = events[0]?.runId ?? ''
  if ((await stops.get(runId)) !== undefined) return { wrong: '' }
  await stops.put(new Map([[runId, stopsText(read.filter(({ seq }) => events[seq] !== undefined))]]))
  return { wrong: '' }
}

const MOST_STOPS_BYTES = 200_000

const notKept = (error: unknown) => ({
  wrong: `could not be kept: ${withoutStop(error instanceof Error ? error.message : String(error))}`,
})

/** The number of the first event that is not the same, or of those that are in both. */
function firstDifference(one: readonly RunEvent[], other: readonly RunEvent[]): number {
  const most = Math.min(one.length, other.length)
  for (let at = 0; at < most; at++) if (JSON.stringify(one[at]) !== JSON.stringify(other[at])) return at
  return most
}

/** Of a file that was cut, the last letter may be half. */
function textOf(bytes: Uint8Array, isCut: boolean): string | undefined {
  try {
    return new TextDecoder('utf-8', { fatal: true }).decode(bytes, { stream: isCut })
  } catch {
    return undefined
  }
}

function words(fates: readonly Fate[]): string[] {
  const lines: readonly (readonly [Fate, string, string])[] = [
    ['new', '1 run came in.', 'runs came in.'],
    ['longer', '1 run goes further now than it did here.', 'runs go further now than they did here.'],
    ['there', '1 run was here already.', 'runs were here already.'],
  ]
  return lines.flatMap(([fate, one, many]) => {
    const count = fates.filter((each) => each === fate).length
    return count === 0 ? [] : [count === 1 ? one : `${count} ${many}`]
  })
}

const soundWords = (count: number) => (count === 1 ? '1 sound came in.' : `${count} sounds came in.`)

/** Folders say little of a log. */
const nameOf = (path: string) => quoted(path.replace(/^.*\//, '') || path)

const withoutStop = (words: string) => words.replace(/\.$/, '')
