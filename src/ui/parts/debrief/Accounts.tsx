/** Small parts of the debrief, each a list or a table of what one part of it holds. */

import { capital } from '../../../kernel/capital.ts'
import { clockTime } from '../../../kernel/run/core/clockTime.ts'
import type { Debrief } from '../../../kernel/run/debrief/debrief.ts'
import { changeWords } from '../../../kernel/run/debrief/debriefFigures.ts'
import { looksWords } from '../../../kernel/run/debrief/debriefPapers.ts'
import { MISSED_MEANS, missedLine } from '../../../kernel/run/debrief/totals.ts'

export function Totals({ debrief }: { readonly debrief: Debrief }) {
  const { items, closed, sayAgains, given, byKey, passed, looks, wordsShown, topicsLeftOut } = debrief.totals
  const { notApplicable } = debrief.totals
  const hasTalk = debrief.exchanges.length > 0
  const rows: readonly (readonly [string, string])[] = [
    ['Items answered or passed', `${closed} of ${items}`],
    ['Say agains (not misses)', String(sayAgains)],
    ['Values given', String(given)],
    ['Sent to an instrument after a miss', String(looks)],
    ['Closed by key, not read back', String(byKey)],
    ['Passed with a reason', String(passed)],
    ...(notApplicable > 0 ? ([['Not applicable', String(notApplicable)]] as const) : []),
    ...(hasTalk
      ? ([
          ['Station words shown', String(wordsShown)],
          ['Briefing topics left out at first', String(topicsLeftOut)],
        ] as const)
      : []),
    ['Answers void: figures changed, or too late', String(debrief.voided)],
  ]
  return (
    <section aria-label="Summary">
      <p>
        <strong>{capital(missedLine(debrief.totals))}.</strong> <span class="soft">{MISSED_MEANS}</span>
      </p>
      <dl class="values">
        {rows.map(([term, count]) => (
          <div key={term} class="head-line">
            <dt>{term}</dt>
            <dd class="shown">{count}</dd>
          </div>
        ))}
      </dl>
    </section>
  )
}

export function Revisions({ debrief }: { readonly debrief: Debrief }) {
  return (
    <section aria-label="Figures">
      <ol class="values">
        {debrief.revisions.map(({ revision, status, label, t, takenOver, givenBy, reopened, changed, notes }) => (
          <li key={`${t} ${givenBy}`}>
            {clockTime(t)}{' '}
            {givenBy === undefined
              ? `revision ${revision}, ${label === status ? status : `${status}, ${label}`}`
              : `from ${givenBy}`}
            {takenOver && ', taken over, not typed'}
            {changed.length > 0 && <div>changed: {changeWords(changed)}</div>}
            {reopened.length > 0 && <div>opened again: {reopened.join(', ')}</div>}
            {notes.map((note) => (
              <div key={note}>{note}</div>
            ))}
          </li>
        ))}
      </ol>
    </section>
  )
}

export const papersRead = (papers: Debrief['papers']) => papers.filter(({ t, looks }) => t !== undefined || looks > 0)

/** Reading is no mark: it stands here so that the pilot knows what was read, and which edition. */
export function PapersRead({ papers, pad }: Pick<Debrief, 'papers' | 'pad'>) {
  return (
    <section aria-label="Papers">
      <ol class="values">
        {papersRead(papers).map(({ title, edition, t, looks, putAwayAt }) => (
          <li key={`${title} ${edition}`} class="head-line">
            <span>
              <span class="cap">{title}</span>
              {edition !== undefined && t !== undefined && `, edition ${edition}, in at ${clockTime(t)}`}
              {putAwayAt !== undefined && `, put away at ${clockTime(putAwayAt)}`}
            </span>
            <span class="shown">{looksWords(looks)}</span>
          </li>
        ))}
      </ol>
      {pad.text.trim() !== '' && <pre class="pad-text">{pad.text.trim()}</pre>}
    </section>
  )
}

const CAUGHT = { pilot: 'you noticed', otherseat: 'Otherseat noticed', nobody: 'nobody noticed' } as const

export function Catches({ catches }: Pick<Debrief, 'catches'>) {
  return (
    <section aria-label="Who noticed what had changed">
      <ol class="values">
        {catches.map(({ challenge, changedAt, by, t }) => (
          <li key={`${challenge} ${changedAt} ${t}`}>
            <span class="shown">{challenge}</span>: changed at {clockTime(changedAt)}, {CAUGHT[by]}
            {t !== undefined && ` at ${clockTime(t)}`}
          </li>
        ))}
      </ol>
    </section>
  )
}

const BREAKS = { standBy: 'stood by', break: 'broke off', left: 'left the page and came back' } as const

/** A stop that was a break as well is told once, with how long it took. */
export function notesOf({ interruptions, remarks, situations, stops }: Debrief) {
  const isOfStop = (t: number) => stops.some((stop) => stop.t === t)
  const lengthAt = (at: number) => interruptions.find(({ t }) => t === at)?.lengthMs
  return [
    ...remarks.map(({ t, text, known }) => ({
      t,
      text: `remark: ${text}${known === undefined ? '' : ` (known: ${known})`}`,
    })),
    ...interruptions
      .filter(({ t }) => !isOfStop(t))
      .map(({ t, what, lengthMs, at }) => ({
        t,
        text: `${BREAKS[what]} at ${at}, ${clockTime(lengthMs)}`,
      })),
    ...situations.map(({ t, label, option }) => ({ t, text: `${label}: ${option}` })),
    ...stops.map(({ t, text, at }) => {
      const lengthMs = lengthAt(t)
      const length = lengthMs === undefined ? '' : `, ${clockTime(lengthMs)}`
      return { t, text: `stopped at ${at}${length}${text === '' ? '' : `: “${text}”`}` }
    }),
  ].toSorted((one, other) => one.t - other.t)
}

export function Breaks({ debrief }: { readonly debrief: Debrief }) {
  return (
    <section aria-label="Stops, interruptions, remarks and changes">
      <ol class="values">
        {notesOf(debrief).map(({ t, text }) => (
          <li key={`${t} ${text}`}>
            {clockTime(t)} {text}
          </li>
        ))}
      </ol>
    </section>
  )
}
