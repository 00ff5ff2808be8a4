/** `debrief LOG`: the account of a log, as text or as data. The log holds all that it needs. */

import { parseArgs } from 'node:util'
import { isError, showProblem } from '../kernel/problem.ts'
import { onOneLine, quoted } from '../kernel/quoted.ts'
import { clockTime } from '../kernel/run/core/clockTime.ts'
import { readLogText, replay } from '../kernel/run/core/readLog.ts'
import { type Debrief, type DebriefItem, debriefOf } from '../kernel/run/debrief/debrief.ts'
import type { DebriefFlow, DebriefWatch } from '../kernel/run/debrief/debriefWatch.ts'
import { readPack } from '../packs/read.ts'
import { briefingLines, exchangeLines } from './debriefTalk.ts'
import { readTextFile } from './files.ts'
import { type CommandRun, usage } from './io.ts'
import { sha256Of } from './packDir.ts'

/** Far above the log of any run. */
const MOST_BYTES = 64_000_000

export const run: CommandRun = async (args, io) => {
  const options = read(args)
  if (!options) return usage(io, 'debrief LOG [--json]')
  const { log } = options
  const tell = (line: string) => io.errors.write(`${onOneLine(line)}\n`)
  const file = await readTextFile(log, { mostBytes: MOST_BYTES, mayBeCut: true })
  if ('wrong' in file) tell(`${log}: ${file.wrong}; name a log of a run`)
  else {
    const { told, debrief } = debriefIn(file.text, log)
    for (const line of told) tell(line)
    if (debrief) {
      io.output.write(options.json ? `${JSON.stringify(debrief)}\n` : account(debrief))
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

/** The account of a log as far as it is whole. */
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

function read(args: readonly string[]): { log: string; json: boolean } | undefined {
  try {
    const { values, positionals } = parseArgs({
      args: [...args],
      options: { json: { type: 'boolean', default: false } },
      allowPositionals: true,
    })
    const [log] = positionals
    return log !== undefined && positionals.length === 1 ? { log, json: values.json } : undefined
  } catch {
    return undefined
  }
}

function account(debrief: Debrief): string {
  const { totals } = debrief
  const lines = [
    `${debrief.pack.name} ${debrief.pack.version}, ${debrief.startedAt}, ${clockTime(debrief.durationMs)}`,
    debrief.complete ? 'All lists complete.' : 'Not all lists are complete.',
    `${totals.closed} of ${totals.items} items closed; ${totals.misses} missed answers, ${totals.sayAgains} asked again by the ear, ` +
      `${totals.given} with the value given, ${totals.byKey} by key, ${totals.passed} passed.`,
    ...(debrief.exchanges.length === 0
      ? []
      : [
          `On the radio and between the seats: ${totals.radioMisses} missed, words shown ${totals.wordsShown} times; ` +
            `${totals.topicsLeftOut} topics left out of the briefing at first.`,
        ]),
    ...(debrief.trap === undefined ? [] : [`The trap of this departure: ${debrief.trap}`]),
    ...debrief.revisions.flatMap(({ revision, label, t, reopened, notes }) => [
      `${clockTime(t)} figures, revision ${revision}: ${label}${reopened.length > 0 ? `; open again: ${reopened.join(', ')}` : ''}`,
      ...notes.map((note) => `    ${note}`),
    ]),
    ...debrief.interruptions.map(
      ({ t, what, lengthMs, at, offered }) =>
        `${clockTime(t)} ${BREAKS[what]} for ${clockTime(lengthMs)}, at ${at}${offered ? '; one item back or from the top offered' : ''}`,
    ),
    ...debrief.remarks.map(
      ({ t, text, known }) => `${clockTime(t)} remark: ${text}${known === undefined ? '' : `; known: ${known}`}`,
    ),
    ...debrief.situations.map(({ t, label, option }) => `${clockTime(t)} situation: ${label}, ${option}`),
    ...debrief.outOfOrder.map(({ t, list, before }) => `${clockTime(t)} ${list} called before ${before}`),
    ...debrief.lists.flatMap((list) => [
      '',
      `${list.name}: ${!list.called ? 'never called' : list.complete ? 'complete' : list.revoked ? 'no longer complete' : 'not complete'}${list.onPreliminary ? ' on preliminary figures' : ''}`,
      ...list.items.flatMap(itemLines),
    ]),
    ...debrief.watches.flatMap(watchLines),
    ...debrief.flows.flatMap(flowLines),
    ...debrief.exchanges.flatMap(exchangeLines),
    ...debrief.briefings.flatMap(briefingLines),
  ]
  return `${lines.map(onOneLine).join('\n')}\n`
}

const BREAKS = { standBy: 'stood by', break: 'broke off', left: 'left and resumed' } as const

function watchLines({ name, attempt, t, status, because, calls }: DebriefWatch): string[] {
  const again = attempt > 1 ? `, attempt ${attempt}` : ''
  const head = `${name}${again}, begun at ${clockTime(t)}: ${status}${because === undefined ? '' : ` (${because})`}`
  const lines = calls.map(({ label, afterMs, value, late, unheard }) => {
    const when = afterMs === undefined ? 'not heard' : `after ${(afterMs / 1_000).toFixed(1)} s`
    const notes = [late ? 'late' : '', unheard ? 'no call at its limit' : ''].filter((note) => note)
    return `  ${label}: ${when}${value === undefined ? '' : `, ${value}`}${notes.length > 0 ? ` (${notes.join(', ')})` : ''}`
  })
  return ['', head, ...lines]
}

function flowLines({ name, closed, steps }: DebriefFlow): string[] {
  const done = steps.filter((step) => step.done).length
  return ['', `${name}: ${closed ? 'gone on from' : 'not done'}, ${done} of ${steps.length} steps ticked`]
}

function itemLines(item: DebriefItem): string[] {
  const notes = [
    item.by === 'key' ? 'by key, not read back' : '',
    item.reason ? `passed: ${item.reason}` : '',
    item.given ? 'value given' : '',
    item.reopened > 0 ? `opened again ${item.reopened} times` : '',
    item.looks > 0 ? `told to look at ${item.look.join(', ')}` : '',
  ].filter((note) => note)
  const head = `  ${item.challenge}: ${item.status}${notes.length > 0 ? ` (${notes.join(', ')})` : ''}`
  const tries = item.tries.map(({ t, text, judgement, revision }) => {
    const causes = judgement.causes?.map((cause) => cause.detail).join('; ')
    return `    ${clockTime(t)} "${text}" ${judgement.verdict}${judgement.because ? ` (${judgement.because})` : ''}, on revision ${revision}${causes ? `; it fits ${causes}` : ''}`
  })
  return [head, ...tries]
}
