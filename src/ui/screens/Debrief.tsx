/** The debrief of a run, from its log: what was said, what was missed and why, what was given, and when. */

import type { ComponentChildren } from 'preact'
import { clockTime } from '../../kernel/run/core/clockTime.ts'
import { NOTICE } from '../../kernel/run/core/events.ts'
import type { Debrief } from '../../kernel/run/debrief/debrief.ts'
import { BriefingSection } from '../parts/debrief/BriefingSection.tsx'
import { ExchangeSection } from '../parts/debrief/ExchangeSection.tsx'
import { ForemostSection } from '../parts/debrief/ForemostSection.tsx'
import { ListSection } from '../parts/debrief/ListSection.tsx'
import { PartnerSection } from '../parts/debrief/PartnerSection.tsx'
import { FlowSections, WatchSection } from '../parts/debrief/WatchSection.tsx'
import { saveFile } from '../parts/shell/saveFile.ts'
import { useActions, useApp } from '../useApp.ts'

/** In the head of the screen. */
const above = () => null
/** Told in another part. */
const elsewhere = () => null

/** What is shown of each part of a debrief, in this order. A part that is added to it is missing here until that is decided. */
const SECTIONS: { readonly [Part in keyof Debrief]-?: (debrief: Debrief) => ComponentChildren } = {
  runId: above,
  pack: above,
  startedAt: above,
  durationMs: above,
  complete: above,
  trap: ({ trap }) =>
    trap && (
      <p class="notice">
        <strong>The trap of this departure</strong> {trap}
      </p>
    ),
  foremost: ({ foremost, wentWell }) => <ForemostSection foremost={foremost} wentWell={wentWell} />,
  wentWell: elsewhere,
  tooEarly: ({ tooEarly }) => <OutOfSequence tooEarly={tooEarly} />,
  totals: (debrief) => <Totals debrief={debrief} />,
  voided: elsewhere,
  lists: ({ lists }) => lists.map((list) => <ListSection key={list.id} list={list} />),
  watches: ({ watches }) => watches.map((watch) => <WatchSection key={`${watch.id} ${watch.attempt}`} watch={watch} />),
  flows: ({ flows }) => <FlowSections flows={flows} />,
  exchanges: ({ exchanges }) => exchanges.map((exchange) => <ExchangeSection key={exchange.id} exchange={exchange} />),
  briefings: ({ briefings }) => briefings.map((briefing) => <BriefingSection key={briefing.id} briefing={briefing} />),
  revisions: (debrief) => <Revisions debrief={debrief} />,
  catches: ({ catches }) => <Catches catches={catches} />,
  partner: ({ partner }) => partner && <PartnerSection partner={partner} />,
  papers: ({ papers, pad }) => <PapersRead papers={papers} pad={pad} />,
  pad: elsewhere,
  interruptions: (debrief) => <Breaks debrief={debrief} />,
  remarks: elsewhere,
  situations: elsewhere,
  outOfOrder: elsewhere,
  notEnded: elsewhere,
  stops: elsewhere,
}

/** The rest is folded away beneath them. */
const FIRST_PAGE: readonly (keyof Debrief)[] = ['trap', 'foremost', 'partner', 'tooEarly', 'totals']
const isFirst = (part: string) => FIRST_PAGE.some((one) => one === part)

export function DebriefScreen() {
  const debrief = useApp((state) => state.debrief)
  const actions = useActions()
  if (!debrief) {
    return (
      <main class="page narrow stack">
        <h1 tabIndex={-1}>No debrief yet</h1>
        <p>It is made from the log of a run.</p>
      </main>
    )
  }
  const sections = Object.entries(SECTIONS)
  const save = async () => saveFile(`${debrief.runId}.jsonl`, await actions.exportLog(debrief.runId))
  return (
    <main class="page narrow stack wide">
      <div class="stack">
        <h1 tabIndex={-1}>{debrief.complete ? 'All lists complete' : 'Not all lists are complete'}</h1>
        <p class="soft">
          {debrief.pack.name}, begun{' '}
          {new Date(debrief.startedAt).toLocaleString('en-GB', { dateStyle: 'long', timeStyle: 'short' })}, lasted{' '}
          {clockTime(debrief.durationMs)}. {NOTICE}.
        </p>
        <div>
          <button type="button" class="first" onClick={() => void save()}>
            Save the log
          </button>
        </div>
      </div>
      {sections.filter(([part]) => isFirst(part)).map(([, section]) => section(debrief))}
      <details class="account">
        <summary>
          <h2>The whole account</h2>
        </summary>
        <div class="stack wide">
          {sections.filter(([part]) => !isFirst(part)).map(([, section]) => section(debrief))}
        </div>
      </details>
    </main>
  )
}

/** Before all numbers: each is a caution that was broken. */
function OutOfSequence({ tooEarly }: Pick<Debrief, 'tooEarly'>) {
  if (tooEarly.length === 0) return null
  return (
    <section aria-labelledby="sequence">
      <h2 id="sequence">Called done too early</h2>
      <ol class="values">
        {tooEarly.map(({ t, text, what, caution }) => (
          <li key={t}>
            {clockTime(t)} {what}
            {text !== '' && `: “${text}”`}
            <div>First: {caution}.</div>
          </li>
        ))}
      </ol>
    </section>
  )
}

function Totals({ debrief }: { readonly debrief: Debrief }) {
  const { items, closed, misses, sayAgains, given, byKey, passed, looks, radioMisses, wordsShown, topicsLeftOut } =
    debrief.totals
  const { startDeviations } = debrief.totals
  const hasTalk = debrief.exchanges.length > 0
  const rows: readonly (readonly [string, string])[] = [
    ['Items answered or passed', `${closed} of ${items}`],
    ['Misses', String(misses)],
    ['Say agains (not misses)', String(sayAgains)],
    ['Values given', String(given)],
    ['Sent to an instrument after a miss', String(looks)],
    ['Closed by key, not read back', String(byKey)],
    ['Passed with a reason', String(passed)],
    ...(hasTalk
      ? ([
          ['Calls, read-backs and orders missed', String(radioMisses)],
          ['Station words shown', String(wordsShown)],
          ['Briefing topics left out at first', String(topicsLeftOut)],
        ] as const)
      : []),
    ...(debrief.watches.length > 0
      ? ([['Engine start calls too soon, out of limits, late or missing', String(startDeviations)]] as const)
      : []),
    ['Answers void: figures changed, or too late', String(debrief.voided)],
  ]
  return (
    <section aria-labelledby="totals">
      <h2 id="totals">Summary</h2>
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

function Revisions({ debrief }: { readonly debrief: Debrief }) {
  return (
    <section aria-labelledby="revisions">
      <h2 id="revisions">Figures</h2>
      <ol class="values">
        {debrief.revisions.map(({ revision, status, label, t, takenOver, reopened, notes }) => (
          <li key={revision}>
            {clockTime(t)} revision {revision}, {label === status ? status : `${status}, ${label}`}
            {takenOver && ', taken over, not typed'}
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

/** Reading is no mark: it stands here so that the pilot knows what was read, and which edition. */
function PapersRead({ papers, pad }: Pick<Debrief, 'papers' | 'pad'>) {
  const told = papers.filter(({ t, looks }) => t !== undefined || looks > 0)
  if (told.length === 0) return null
  return (
    <section aria-labelledby="papers-read">
      <h2 id="papers-read">Papers</h2>
      <ol class="values">
        {told.map(({ title, edition, t, looks, putAwayAt }) => (
          <li key={`${title} ${edition}`} class="head-line">
            <span>
              <span class="cap">{title}</span>
              {edition !== undefined && t !== undefined && `, edition ${edition}, in at ${clockTime(t)}`}
              {putAwayAt !== undefined && `, put away at ${clockTime(putAwayAt)}`}
            </span>
            <span class="shown">{looks === 1 ? 'read once' : `read ${looks} times`}</span>
          </li>
        ))}
      </ol>
      {pad.text.trim() !== '' && <pre class="pad-text">{pad.text.trim()}</pre>}
    </section>
  )
}

const CAUGHT = { pilot: 'you noticed', otherseat: 'Otherseat noticed', nobody: 'nobody noticed' } as const

function Catches({ catches }: Pick<Debrief, 'catches'>) {
  if (catches.length === 0) return null
  return (
    <section aria-labelledby="catches">
      <h2 id="catches">Who noticed what had changed</h2>
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

function Breaks({ debrief }: { readonly debrief: Debrief }) {
  const { interruptions, remarks, situations, outOfOrder, notEnded, stops } = debrief
  const notes = [
    ...remarks.map(({ t, text, known }) => ({
      t,
      text: `remark: ${text}${known === undefined ? '' : ` (known: ${known})`}`,
    })),
    ...interruptions.map(({ t, what, lengthMs, at }) => ({
      t,
      text: `${BREAKS[what]} at ${at}, ${clockTime(lengthMs)}`,
    })),
    ...situations.map(({ t, label, option }) => ({ t, text: `${label}: ${option}` })),
    ...outOfOrder.map(({ t, list, before }) => ({ t, text: `${list} called before ${before}` })),
    ...notEnded,
    ...stops.map(({ t, text, at }) => ({ t, text: `stopped at ${at}${text === '' ? '' : `: “${text}”`}` })),
  ].toSorted((one, other) => one.t - other.t)
  if (notes.length === 0) return null
  return (
    <section aria-labelledby="breaks">
      <h2 id="breaks">Stops, interruptions, remarks and changes</h2>
      <ol class="values">
        {notes.map(({ t, text }) => (
          <li key={`${t} ${text}`}>
            {clockTime(t)} {text}
          </li>
        ))}
      </ol>
    </section>
  )
}
