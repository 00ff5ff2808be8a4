/**
 * `debrief LOG`: the debrief of a logged run, as text or as data. The log holds all that it needs. `debrief --schema` prints
 * the JSON Schema of a line of a log.
 */

import { parseArgs } from 'node:util'
import { isError } from '../kernel/problem.ts'
import { showProblem } from '../kernel/problemLine.ts'
import { onOneLine, quoted } from '../kernel/quoted.ts'
import { logSchema } from '../kernel/run/core/logSchema.ts'
import { readLogText, replay } from '../kernel/run/core/readLog.ts'
import { type Debrief, debriefOf } from '../kernel/run/debrief/debrief.ts'
import { readPack } from '../packs/read.ts'
import { debriefLines } from './debriefText.ts'
import { readTextFile } from './files.ts'
import { type CommandRun, usage } from './io.ts'
import { sha256Of } from './packDir.ts'

/** Far above the log of any run. */
const MOST_BYTES = 64_000_000

export const run: CommandRun = async (args, io) => {
  const options = read(args)
  if (!options) return usage(io, 'debrief LOG [--json] | debrief --schema')
  if ('schema' in options) {
    io.output.write(`${JSON.stringify(logSchema(), null, 2)}\n`)
    return 0
  }
  const { log } = options
  const tell = (line: string) => io.errors.write(`${onOneLine(line)}\n`)
  const file = await readTextFile(log, { mostBytes: MOST_BYTES, mayBeCut: true })
  if ('wrong' in file) tell(`${log}: ${file.wrong}; name a log of a run`)
  else {
    const { told, debrief } = debriefIn(file.text, log)
    for (const line of told) tell(line)
    if (debrief) {
      io.output.write(options.json ? `${JSON.stringify(debrief)}\n` : textOf(debrief))
      return 0
    }
  }
  return 1
}

interface DebriefRead {
  /** What of the log could not be read, by its lines. */
  readonly told: readonly string[]
  /** Of what could be read; undefined where nothing could. */
  readonly debrief?: Debrief
}

/** The debrief of a log as far as it is whole. */
function debriefIn(text: string, file: string): DebriefRead {
  const { events, problem, isCut } = readLogText(text)
  const lines = linesOf(text)
  const stopped = (line: number, message: string) => `${file}:${line}:1: ${message}${NOTHING_AFTER}`
  const [first] = events
  if (first?.type !== 'runStarted') {
    return {
      told: [`${file}:${problem?.line ?? 1}:1: ${problem?.message ?? 'no whole event; a log begins with runStarted'}`],
    }
  }
  const started = `${file}:${lines[0] ?? 1}:1: event 0`
  const digest = sha256Of(first.pack.texts)
  if (digest !== first.pack.sha256) {
    return {
      told: [`${started}: the pack's texts have the SHA-256 ${digest}, and the log says ${quoted(first.pack.sha256)}`],
    }
  }
  const { pack, problems } = readPack(first.pack.texts, first.pack.sha256)
  if (!pack) return { told: problems.filter(isError).map((one) => `${started}: its pack: ${showProblem(one)}`) }
  const run = replay(pack, events)
  const told = run.problem
    ? [stopped(lines[run.events.length] ?? run.problem.line, run.problem.message)]
    : [
        ...(problem ? [stopped(problem.line, problem.message)] : []),
        ...(isCut
          ? [`${file}:${lines.at(-1)}:1: the log is cut in the middle of a line; it is read to the last whole one`]
          : []),
      ]
  return { told, ...(run.events.length > 0 && { debrief: debriefOf(pack, run.events) }) }
}

const NOTHING_AFTER = '; nothing from here on is told'

/** Numbers of the lines that are not blank. */
function linesOf(text: string): number[] {
  return text.split('\n').flatMap((line, index) => (line.trim() === '' ? [] : [index + 1]))
}

function read(args: readonly string[]): { log: string; json: boolean } | { schema: true } | undefined {
  try {
    const { values, positionals } = parseArgs({
      args: [...args],
      options: { json: { type: 'boolean', default: false }, schema: { type: 'boolean', default: false } },
      allowPositionals: true,
    })
    const [log] = positionals
    if (values.schema) return log === undefined && !values.json ? { schema: true } : undefined
    return log !== undefined && positionals.length === 1 ? { log, json: values.json } : undefined
  } catch {
    return undefined
  }
}

const textOf = (debrief: Debrief) => `${debriefLines(debrief).map(onOneLine).join('\n')}\n`
