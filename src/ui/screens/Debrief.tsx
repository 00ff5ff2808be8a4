/** The debrief of a run, from its log: what was said, what was missed and why, what was given, and when. */

import type { ComponentChildren } from 'preact'
import { useEffect } from 'preact/hooks'
import { hasRunOn } from '../../app/selectors.ts'
import { lengthWords } from '../../kernel/run/core/clockTime.ts'
import { NOTICE } from '../../kernel/run/core/events.ts'
import { type Debrief, type DebriefAgain, headlineOf } from '../../kernel/run/debrief/debrief.ts'
import { Breaks, Catches, notesOf, PapersRead, papersRead, Revisions, Totals } from '../parts/debrief/Accounts.tsx'
import { BriefingSection } from '../parts/debrief/BriefingSection.tsx'
import { DeviationsSection } from '../parts/debrief/DeviationsSection.tsx'
import { ExchangeSection } from '../parts/debrief/ExchangeSection.tsx'
import { Fold } from '../parts/debrief/Fold.tsx'
import { ForemostSection } from '../parts/debrief/ForemostSection.tsx'
import { InjectedSection } from '../parts/debrief/InjectedSection.tsx'
import { ListSection } from '../parts/debrief/ListSection.tsx'
import { LooksSection, looksHead } from '../parts/debrief/LooksSection.tsx'
import { PartnerSection, partnerHead } from '../parts/debrief/PartnerSection.tsx'
import { Replay } from '../parts/debrief/Replay.tsx'
import { RoomMarks } from '../parts/debrief/RoomMarks.tsx'
import { SaveRun } from '../parts/debrief/SaveRun.tsx'
import { TimelinePicture } from '../parts/debrief/TimelinePicture.tsx'
import { TimelineTable } from '../parts/debrief/TimelineTable.tsx'
import { FlowSections, WatchSection } from '../parts/debrief/WatchSection.tsx'
import { setPage } from '../parts/papers/pageSize.ts'
import { EndRun } from '../parts/shell/EndRun.tsx'
import { SoundWrong } from '../parts/shell/SoundWrong.tsx'
import { useActions, useApp } from '../useApp.ts'

/** Shown unfolded, in the order of the screen itself. */
const onPageOne = 'on page one'
/** Told in another part. */
const elsewhere = 'elsewhere'

interface Folded {
  readonly heading: string
  /** Where there is nothing of it, it is left out. */
  readonly count: (debrief: Debrief) => number | string | undefined
  readonly show: (debrief: Debrief) => ComponentChildren
  readonly isPrinted?: boolean
}

/** "5, 2 missed": the same count as in the summary. */
const withMissed = (all: number, missed: number) => (all === 0 || missed === 0 ? all : `${all}, ${missed} missed`)

/** Where each part of a debrief is shown; what is folded, in this order. One that is added is missing here until that is decided. */
const PARTS: { readonly [Part in keyof Debrief]-?: typeof onPageOne | typeof elsewhere | Folded } = {
  runId: onPageOne,
  pack: onPageOne,
  startedAt: onPageOne,
  durationMs: onPageOne,
  again: onPageOne,
  begunAt: onPageOne,
  demonstrated: onPageOne,
  complete: onPageOne,
  leftOut: onPageOne,
  next: onPageOne,
  trap: onPageOne,
  foremost: onPageOne,
  wentWell: onPageOne,
  timeline: {
    heading: 'The timeline as a table',
    count: ({ timeline }) => timeline.length,
    show: ({ timeline }) => <TimelineTable entries={timeline} />,
    isPrinted: true,
  },
  // Among the deviations, as are `outOfOrder` and `notEnded`.
  tooEarly: elsewhere,
  totals: {
    heading: 'Summary',
    count: ({ totals }) => `${totals.missed} missed`,
    show: (debrief) => <Totals debrief={debrief} />,
  },
  deviations: {
    heading: 'Deviations by kind',
    count: ({ deviations }) => deviations.length,
    show: ({ deviations }) => <DeviationsSection deviations={deviations} />,
  },
  looks: {
    heading: 'Did you look?',
    count: ({ looks }) => looksHead(looks),
    show: ({ looks }) => <LooksSection looks={looks} />,
  },
  voided: elsewhere,
  partner: {
    heading: 'Your partner',
    count: ({ partner }) => partner && partnerHead(partner),
    show: ({ partner }) => partner && <PartnerSection partner={partner} />,
    isPrinted: true,
  },
  lists: {
    heading: 'Lists',
    count: ({ lists, totals }) => withMissed(lists.length, totals.misses),
    show: ({ lists }) => lists.map((list) => <ListSection key={list.id} list={list} />),
  },
  watches: {
    heading: 'Engine starts',
    count: ({ watches, totals }) => withMissed(watches.length, totals.startDeviations),
    show: ({ watches }) => watches.map((watch) => <WatchSection key={`${watch.id} ${watch.attempt}`} watch={watch} />),
  },
  flows: {
    heading: 'Flows',
    count: ({ flows }) => flows.length,
    show: ({ flows }) => <FlowSections flows={flows} />,
  },
  exchanges: {
    heading: 'Radio, ground crew and orders',
    count: ({ exchanges, totals }) => withMissed(exchanges.length, totals.radioMisses),
    show: ({ exchanges }) => exchanges.map((exchange) => <ExchangeSection key={exchange.id} exchange={exchange} />),
  },
  briefings: {
    heading: 'Briefings',
    count: ({ briefings, totals }) => withMissed(briefings.length, totals.briefingMisses),
    show: ({ briefings }) => briefings.map((briefing) => <BriefingSection key={briefing.id} briefing={briefing} />),
  },
  revisions: {
    heading: 'Figures',
    count: ({ revisions }) => revisions.length,
    show: (debrief) => <Revisions debrief={debrief} />,
  },
  catches: {
    heading: 'Who noticed what had changed',
    count: ({ catches }) => catches.length,
    show: ({ catches }) => <Catches catches={catches} />,
  },
  papers: {
    heading: 'Papers',
    count: ({ papers, pad }) => papersRead(papers).length + (pad.text.trim() === '' ? 0 : 1),
    show: ({ papers, pad }) => <PapersRead papers={papers} pad={pad} />,
  },
  pad: elsewhere,
  injected: {
    heading: 'What the instructor had happen',
    count: ({ injected }) => injected.length,
    show: ({ injected }) => <InjectedSection injected={injected} />,
    isPrinted: true,
  },
  interruptions: {
    heading: 'Stops, interruptions, remarks and changes',
    count: (debrief) => notesOf(debrief).length,
    show: (debrief) => <Breaks debrief={debrief} />,
  },
  remarks: elsewhere,
  situations: elsewhere,
  outOfOrder: elsewhere,
  notEnded: elsewhere,
  stops: elsewhere,
}

const MARGIN_MM = 12

export function DebriefScreen() {
  const debrief = useApp((state) => state.debrief)
  const actions = useActions()
  useEffect(() => setPage('A4', MARGIN_MM, `${NOTICE}. Not for use in flight or on a real aircraft.`), [])
  useEffect(() => unfoldedInPrint(), [])
  useEffect(() => () => actions.endReplay(), [actions])
  if (!debrief) {
    return (
      <main class="page narrow stack">
        <h1 tabIndex={-1}>No debrief yet</h1>
        <p>It is made from the log of a run.</p>
      </main>
    )
  }
  const folds = Object.entries(PARTS).flatMap(([part, fold]) => (typeof fold === 'string' ? [] : [{ part, ...fold }]))
  return (
    <main class="page debrief stack">
      <Head debrief={debrief} />
      <Replay />
      <SoundWrong />
      {debrief.trap !== undefined && (
        <p class="notice">
          <strong>The trap of this departure</strong> {debrief.trap.told}. {debrief.trap.how}
        </p>
      )}
      <ForemostSection foremost={debrief.foremost} wentWell={debrief.wentWell} />
      <RoomMarks runId={debrief.runId} />
      <Timeline debrief={debrief} />
      <div>
        {folds.map(({ part, heading, count, show, isPrinted = false }) => {
          const counted = count(debrief)
          return (
            counted !== 0 &&
            counted !== undefined && (
              <Fold key={part} heading={heading} count={counted} isPrinted={isPrinted}>
                {show(debrief)}
              </Fold>
            )
          )
        })}
      </div>
      <SaveRun runId={debrief.runId} />
    </main>
  )
}

function Head({ debrief }: { readonly debrief: Debrief }) {
  const actions = useActions()
  const isOn = useApp(hasRunOn)
  const isThisOn = useApp((state) => hasRunOn(state) && state.run?.runId === debrief.runId)
  const isAtEnd = useApp(({ run }) => run?.floor.at === 'end')
  const hasReplay = useApp(({ replay }) => replay !== undefined)
  const { runId, pack, startedAt, durationMs, again, begunAt, demonstrated } = debrief
  return (
    <div class="debrief-head">
      <div>
        <h1 tabIndex={-1}>{again ? `Again: ${again.name}` : headlineOf(debrief)}</h1>
        <p class="soft">
          {pack.name}, begun {new Date(startedAt).toLocaleString('en-GB', { dateStyle: 'long', timeStyle: 'short' })},
          lasted {lengthWords(durationMs)}. {NOTICE}.
        </p>
        {again && <AgainAccount again={again} />}
        {demonstrated && <p>Shown to a room: values stood beside answers, and training leaves this run out.</p>}
        {begunAt && <p>Begun at {begunAt.name}: what comes before it counts as done, and is not in this account.</p>}
      </div>
      <div class="row no-print">
        {isThisOn && <EndRun onEnded={() => actions.openRun(runId)} />}
        {(!isOn || isAtEnd) && !hasReplay && (
          <button type="button" onClick={() => void actions.replay()}>
            Replay
          </button>
        )}
        <button type="button" onClick={() => globalThis.print()}>
          Print
        </button>
      </div>
    </div>
  )
}

/** Which moment it was, and how it went beside the last time. */
function AgainAccount({ again: { runId, misses, lastMisses, isOver } }: { readonly again: DebriefAgain }) {
  const actions = useActions()
  const count = (missed: number) => (missed === 0 ? 'nothing missed' : `${missed} missed`)
  return (
    <p>
      A moment of an earlier run, done again: only what came after it counts.{' '}
      <strong>
        This time {count(misses)}
        {!isOver && ' so far'}
        {lastMisses !== undefined && `, the last time ${count(lastMisses)}`}.
      </strong>{' '}
      <button type="button" class="plain no-print" onClick={() => void actions.openRun(runId)}>
        The debrief of that run
      </button>
    </p>
  )
}

function Timeline({ debrief: { timeline } }: { readonly debrief: Debrief }) {
  const now = useApp(({ replay }) => replay?.cues[replay.at]?.t)
  if (timeline.length === 0) return null
  return (
    <section aria-labelledby="timeline">
      <h2 id="timeline">Timeline</h2>
      <TimelinePicture entries={timeline} now={now} />
    </section>
  )
}

/** What is printed is unfolded while it is; the person's own folds are as they were afterwards. */
function unfoldedInPrint(): () => void {
  let unfolded: HTMLDetailsElement[] = []
  const before = () => {
    unfolded = [...document.querySelectorAll<HTMLDetailsElement>('details[data-printed]:not([open])')]
    for (const details of unfolded) details.open = true
  }
  const after = () => {
    for (const details of unfolded) details.open = false
  }
  addEventListener('beforeprint', before)
  addEventListener('afterprint', after)
  return () => {
    removeEventListener('beforeprint', before)
    removeEventListener('afterprint', after)
  }
}
