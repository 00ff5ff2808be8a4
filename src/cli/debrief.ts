/** `debrief LOG`: the account of a log, as text or as data. The log holds all that it needs. */

import { readFile } from 'node:fs/promises'
import { parseArgs } from 'node:util'
import { showProblem } from '../kernel/problem.ts'
import { clockTime } from '../kernel/run/core/clockTime.ts'
import type { RunEvent } from '../kernel/run/core/events.ts'
import { type Debrief, type DebriefItem, debriefOf } from '../kernel/run/debrief/debrief.ts'
import type { DebriefFlow, DebriefWatch } from '../kernel/run/debrief/debriefWatch.ts'
import { readPack } from '../packs/read.ts'
import { briefingLines, exchangeLines } from './debriefTalk.ts'
import { type CommandRun, usage } from './io.ts'

export const run: CommandRun = async (args, io) => {
  const options = read(args)
  if (!options) return usage(io, 'debrief LOG [--json]')
  const fail = (line: string) => {
    io.errors.write(`${line}\n`)
    return 1 as const
  }
  let text: string
  try {
    text = await readFile(options.log, 'utf8')
  } catch (error) {
    return fail(`${error instanceof Error ? error.message : error}: name a log that can be read`)
  }
  const { events, wrong } = eventsIn(text, options.log)
  if (wrong) return fail(wrong)
  const [first] = events
  if (first?.type !== 'runStarted')
    return fail(`${options.log}:1:1: not the start of a run; a log begins with runStarted`)
  const { pack, problems } = readPack(first.pack.texts, first.pack.sha256)
  if (!pack) return fail(problems.map(showProblem).join('\n'))
  const debrief = debriefOf(pack, events)
  io.output.write(options.json ? `${JSON.stringify(debrief)}\n` : account(debrief))
  return 0
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

/** Events of a log in JSON Lines; a gap in the numbers is an error, not a guess. */
function eventsIn(text: string, file: string): { events: RunEvent[]; wrong?: string } {
  const events: RunEvent[] = []
  for (const [index, line] of text.split('\n').entries()) {
    if (line.trim() === '') continue
    let event: RunEvent
    try {
      event = JSON.parse(line)
    } catch {
      return { events, wrong: `${file}:${index + 1}:1: not JSON; one event a line would be right` }
    }
    if (event?.seq !== events.length) {
      return {
        events,
        wrong: `${file}:${index + 1}:1: event ${event?.seq}; event ${events.length} would be right here`,
      }
    }
    events.push(event)
  }
  return { events }
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
  return `${lines.join('\n')}\n`
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
