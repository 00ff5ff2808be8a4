/** The run of a trainee, live: where it is, what was asked, what was heard and why the verdict, what would be right, and the papers. */

import { useMemo } from 'preact/hooks'
import { valuesAsked } from '../../../app/room/deskView.ts'
import { demonstrationView } from '../../../app/view/demonstrationView.ts'
import { viewOf } from '../../../app/view/view.ts'
import { useApp } from '../../useApp.ts'
import { Answer } from '../demonstration/Answer.tsx'
import { InForce } from '../demonstration/InForce.tsx'
import { PaperSheet } from '../papers/PaperSheet.tsx'
import { usePapers } from '../papers/usePapers.ts'
import { BriefingPanel } from '../run/BriefingPanel.tsx'
import { earWords } from '../run/EarStrip.tsx'
import { ItemList } from '../run/ItemList.tsx'
import { ListOverview } from '../run/ListOverview.tsx'
import { WatchClock, WatchPanel } from '../run/WatchPanel.tsx'

export function WatchedRun({ name }: { readonly name: string }) {
  const pack = useApp((state) => state.pack)
  const run = useApp((state) => state.run)
  const answered = useApp((state) => state.answered)
  const revisions = useApp((state) => state.revisions)
  const blocked = useApp((state) => state.blocked)
  const view = useMemo(() => (pack && run && run.status !== 'none' ? viewOf(pack, run) : undefined), [pack, run])
  const shown = useMemo(
    () => (pack && run && answered ? demonstrationView(pack, answered, { run, revisions }) : undefined),
    [pack, run, answered, revisions],
  )
  if (!pack || !run || !view) {
    return (
      <section class="stack" aria-label={`Run of ${name}`}>
        <p>{blocked ? `The run of ${name} cannot be shown: ${blocked.message}.` : `${name} has begun no run yet.`}</p>
      </section>
    )
  }
  const { headline, phase, listName, hint, watch, briefing } = view
  return (
    <>
      <section class="stack wide seen-now" aria-label={`Run of ${name}`}>
        <div>
          <p class="soft">
            {name}: {phase}
            {listName && listName.toLowerCase() !== phase.toLowerCase() && `, ${listName}`}
          </p>
          <p class="seen-headline cap">
            {run.status === 'ended' ? 'The run has ended' : headline} {watch && <WatchClock watch={watch} />}
          </p>
          <p class="soft">{run.status === 'ended' ? '' : hint}</p>
          <Asked />
          <Ear />
        </div>
        {shown ? <Answer shown={shown} isTold /> : <p class="soft">What is said appears here, word by word.</p>}
        {run.notUnderstood !== undefined && (
          <p>
            <strong>Not understood:</strong> “{run.notUnderstood}”
          </p>
        )}
        {watch && <WatchPanel watch={watch} />}
        {briefing && <BriefingPanel briefing={briefing} />}
      </section>
      <section class="stack wide seen-more" aria-label="Place, values and papers">
        {shown && shown.inForce.length > 0 && (
          <details>
            <summary>Values of this answer, with their reasons</summary>
            <InForce pack={pack} values={shown.inForce} />
          </details>
        )}
        <div class="seen-place">
          <ItemList name={view.listName} entries={view.entries} />
          <ListOverview lists={view.lists} />
        </div>
        <SeenPapers />
      </section>
    </>
  )
}

/** Never on the trainee's screen. */
function Asked() {
  const pack = useApp((state) => state.pack)
  const run = useApp((state) => state.run)
  const asked = useMemo(() => (pack && run ? valuesAsked(pack, run) : []), [pack, run])
  if (asked.length === 0) return null
  return (
    <p>
      Right would be{' '}
      {asked.map(({ label, value }, index) => (
        <span key={label}>
          {index > 0 && ', '}
          <span class="soft">{label}</span> <strong class="value">{value}</strong>
        </span>
      ))}
    </p>
  )
}

function Ear() {
  const text = useApp(earWords)
  const isAway = useApp((state) => state.writer === 'elsewhere')
  return (
    <p class="soft small">
      {isAway ? 'The trainee’s page is not linked now' : `The trainee’s ear: ${text.toLowerCase()}`}
    </p>
  )
}

function SeenPapers() {
  const { pile } = usePapers()
  if (pile.length === 0) return null
  return (
    <section class="stack" aria-label="Papers on the table">
      <h2>Papers</h2>
      {pile.map((view) => (
        <details key={view.id}>
          <summary class="cap">
            {view.paper.title} {view.which}
          </summary>
          <PaperSheet view={view} />
        </details>
      ))}
    </section>
  )
}
