/** The debrief of a run as lines of text. */

import { capital } from '../kernel/capital.ts'
import { passedWords } from '../kernel/response/commands.ts'
import { clockTime, lengthWords } from '../kernel/run/core/clockTime.ts'
import { NOTICE } from '../kernel/run/core/events.ts'
import { injectedLine } from '../kernel/run/core/injections.ts'
import { type Debrief, type DebriefAgain, headlineOf } from '../kernel/run/debrief/debrief.ts'
import { changeWords } from '../kernel/run/debrief/debriefFigures.ts'
import type { DebriefItem, DebriefList } from '../kernel/run/debrief/debriefList.ts'
import { type DebriefPaper, looksWords } from '../kernel/run/debrief/debriefPapers.ts'
import {
  breakWords,
  type DebriefFault,
  type DebriefPartner,
  rolesWords,
  sensitivityWords,
} from '../kernel/run/debrief/debriefPartner.ts'
import { type DebriefFlow, type DebriefWatch, deviationsOf, seconds } from '../kernel/run/debrief/debriefWatch.ts'
import type { Foremost } from '../kernel/run/debrief/foremost.ts'
import { missedLine } from '../kernel/run/debrief/totals.ts'
import { deviationLines, lookLines } from './debriefDeviations.ts'
import { briefingLines, exchangeLines } from './debriefTalk.ts'

const CAUGHT = { pilot: 'noticed by the pilot', otherseat: 'noticed by Otherseat', nobody: 'not noticed' } as const
const BREAKS = { standBy: 'stood by', break: 'broke off', left: 'left and resumed' } as const

const inJsonOnly = (): readonly string[] => []

/** What is printed of each part of a debrief, in this order. A part that is added to it is missing here until that is decided. */
const SECTIONS: { readonly [Part in keyof Debrief]-?: (debrief: Debrief) => readonly string[] } = {
  runId: inJsonOnly,
  durationMs: inJsonOnly,
  pack: ({ pack, startedAt, durationMs }) => [
    `${pack.name} ${pack.version}, ${startedAt}, lasted ${lengthWords(durationMs)}`,
  ],
  startedAt: inJsonOnly,
  complete: (debrief) => [`${headlineOf(debrief)}.`],
  leftOut: inJsonOnly,
  next: inJsonOnly,
  foremost: ({ foremost }) => (foremost.length === 0 ? [] : ['', 'To take away:', ...foremost.map(foremostLine), '']),
  demonstrated: ({ demonstrated }) => (demonstrated ? ['Shown to a room; training leaves it out.'] : []),
  begunAt: ({ begunAt }) => (begunAt ? [`Begun at ${begunAt.name}: nothing before it counts.`] : []),
  again: ({ again }) => (again ? [againLine(again)] : []),
  timeline: inJsonOnly,
  wentWell: ({ wentWell }) => (wentWell === '' ? [] : [wentWell]),
  totals: totalLines,
  // Each stands among the deviations.
  tooEarly: inJsonOnly,
  outOfOrder: inJsonOnly,
  notEnded: inJsonOnly,
  trap: ({ trap }) => (trap === undefined ? [] : [`The trap of this departure: ${trap.told}. ${trap.how}`]),
  revisions: ({ revisions }) =>
    revisions.flatMap(({ revision, label, t, takenOver, givenBy, reopened, changed, notes }) => [
      `${clockTime(t)} figures${givenBy === undefined ? `, revision ${revision}: ${label}` : ` from ${givenBy}`}${takenOver ? ', taken over' : ''}${reopened.length > 0 ? `; open again: ${reopened.join(', ')}` : ''}`,
      ...(changed.length > 0 ? [`    changed: ${changeWords(changed)}`] : []),
      ...notes.map((note) => `    ${note}`),
    ]),
  catches: ({ catches }) =>
    catches.map(
      ({ challenge, changedAt, by, t }) =>
        `${clockTime(changedAt)} changed: ${challenge}; ${CAUGHT[by]}${t === undefined ? '' : ` at ${clockTime(t)}`}`,
    ),
  partner: ({ partner }) => (partner === undefined ? [] : partnerLines(partner)),
  papers: ({ papers }) => papers.flatMap(paperLines),
  pad: ({ pad }) => (pad.text.trim() === '' ? [] : ['', 'On the scratch pad:', ...pad.text.trim().split('\n')]),
  injected: ({ injected }) => injected.map((one) => `${clockTime(one.t)} ${injectedLine(one)}`),
  // A stop stands with the stops.
  interruptions: ({ interruptions, stops }) =>
    interruptions
      .filter(({ t }) => !stops.some((stop) => stop.t === t))
      .map(
        ({ t, what, lengthMs, at, offered }) =>
          `${clockTime(t)} ${BREAKS[what]} for ${clockTime(lengthMs)}, at ${at}${offered ? '; one item back or from the top offered' : ''}`,
      ),
  remarks: ({ remarks }) =>
    remarks.map(
      ({ t, text, known }) => `${clockTime(t)} remark: ${text}${known === undefined ? '' : `; known: ${known}`}`,
    ),
  situations: ({ situations }) =>
    situations.map(({ t, label, option }) => `${clockTime(t)} situation: ${label}, ${option}`),
  stops: ({ stops }) =>
    stops.map(({ t, text, at }) => `${clockTime(t)} stopped by the pilot at ${at}${text === '' ? '' : `: "${text}"`}`),
  voided: inJsonOnly,
  lists: ({ lists }) => lists.flatMap(listLines),
  watches: ({ watches }) => watches.flatMap(watchLines),
  flows: ({ flows }) => flows.flatMap(flowLines),
  exchanges: ({ exchanges }) => exchanges.flatMap(exchangeLines),
  briefings: ({ briefings }) => briefings.flatMap(briefingLines),
  deviations: ({ deviations }) => deviationLines(deviations),
  looks: ({ looks }) => lookLines(looks),
}

/** Without line ends. */
export function debriefLines(debrief: Debrief): string[] {
  return [`${NOTICE}.`, ...Object.values(SECTIONS).flatMap((section) => section(debrief))]
}

function againLine({ runId, name, misses, lastMisses, isOver }: DebriefAgain): string {
  const last = lastMisses === undefined ? '' : `, ${lastMisses} the last time`
  return `${name} again, from run ${runId}: ${misses} missed${isOver ? '' : ' so far'}${last}.`
}

function foremostLine({ about, t, said, why, more }: Foremost): string {
  const when = t === undefined ? '' : `${clockTime(t)} `
  const words = said === undefined ? '' : ` ("${said}")`
  return `    ${when}${about}${words}: ${why}${more === 0 ? '' : ` ${more} more of the kind.`}`
}

function totalLines({ totals, exchanges }: Debrief): string[] {
  return [
    `${capital(missedLine(totals))}.`,
    `${totals.closed} of ${totals.items} items closed; ${totals.sayAgains} asked again by the ear, ` +
      `${totals.given} with the value given, ${totals.byKey} by key, ${totals.passed} passed${totals.notApplicable > 0 ? `, ${totals.notApplicable} not applicable` : ''}.`,
    ...(exchanges.length === 0
      ? []
      : [
          `Words of stations shown ${totals.wordsShown} times; ${totals.topicsLeftOut} topics left out of the briefing at first.`,
        ]),
  ]
}

/** Of those that were read or put away, and of every edition that came in. */
function paperLines({ title, edition, t, looks, putAwayAt }: DebriefPaper): string[] {
  if (t === undefined && looks === 0) return []
  const came = t === undefined ? title : `${clockTime(t)} ${title}, edition ${edition}`
  return [`${came}: ${looksWords(looks)}${putAwayAt === undefined ? '' : `, put away at ${clockTime(putAwayAt)}`}`]
}

function partnerLines(partner: DebriefPartner): string[] {
  const { rate, faults, falseObjections, breaks } = partner
  return [
    '',
    `${rolesWords(partner, 'The pilot')}${rate === undefined ? '' : ` Otherseat was to err in ${Math.round(rate * 100)} % of its chances.`}`,
    ...(rate === undefined ? [] : [sensitivityWords(partner)]),
    ...faults.map(faultLine),
    ...falseObjections.map(({ t, text, about }) => `  ${clockTime(t)} objected to what was right, ${about}: "${text}"`),
    ...breaks.map((one) => `  ${clockTime(one.t)} interrupted by ${breakWords(one)}`),
  ]
}

function faultLine({ t, grade, told, caught, caughtAt, text }: DebriefFault): string {
  const when = caughtAt === undefined ? '' : ` at ${clockTime(caughtAt)}${text ? ` ("${text}")` : ''}`
  return `  ${clockTime(t)} ${caught ? 'caught' : 'missed'}, ${grade}: ${told}${when}`
}

function listLines({ name, called, complete, revoked, onPreliminary, items }: DebriefList): string[] {
  const state = !called ? 'never called' : complete ? 'complete' : revoked ? 'no longer complete' : 'not complete'
  return ['', `${name}: ${state}${onPreliminary ? ' on preliminary figures' : ''}`, ...items.flatMap(itemLines)]
}

function watchLines({ name, attempt, t, status, because, stoppedAfterMs, calls }: DebriefWatch): string[] {
  const again = attempt > 1 ? `, attempt ${attempt}` : ''
  const head = `${name}${again}, begun at ${clockTime(t)}: ${status}${stoppedAfterMs === undefined ? '' : ` after ${seconds(stoppedAfterMs)}`}${because === undefined ? '' : ` (${because})`}`
  const lines = calls.map((call) => {
    const { label, afterMs, value } = call
    const when = afterMs === undefined ? 'not heard' : `after ${seconds(afterMs)}`
    const notes = deviationsOf(call)
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
    item.reason ? passedWords(item.reason) : '',
    item.given ? 'value given' : '',
    ...item.readings,
    item.reopened > 0 ? `opened again ${item.reopened} times` : '',
    item.looks > 0 ? `told to look at ${item.look.join(', ')}` : '',
  ].filter((note) => note)
  const head = `  ${item.challenge}: ${item.status}${notes.length > 0 ? ` (${notes.join(', ')})` : ''}`
  const tries = item.tries.map(({ t, text, judgement, revision, tooEarly }) => {
    const causes = judgement.causes?.map((cause) => cause.detail).join('; ')
    return `    ${clockTime(t)} "${text}" ${tooEarly === undefined ? judgement.verdict : `too early (${tooEarly})`}${judgement.because ? ` (${judgement.because})` : ''}, on revision ${revision}${causes ? `; it fits ${causes}` : ''}`
  })
  return [head, ...tries]
}
