/** Figures: a revision is entered on one side; on the other stands what comes of it, what it changes, and why. */

import { useMemo } from 'preact/hooks'
import { type DraftView, draftView } from '../../app/figures/draftView.ts'
import { hasEntryErrors, isEntryMissing } from '../../app/selectors.ts'
import type { Pack } from '../../kernel/pack/checklist.ts'
import { Changes } from '../parts/figures/Changes.tsx'
import { ComputedValues } from '../parts/figures/ComputedValues.tsx'
import { Envelopes } from '../parts/figures/Envelopes.tsx'
import { FieldGroups } from '../parts/figures/FieldGroups.tsx'
import { LastMinute } from '../parts/figures/LastMinute.tsx'
import { Limits } from '../parts/figures/Limits.tsx'
import { LoadSheet } from '../parts/figures/LoadSheet.tsx'
import { Loads } from '../parts/figures/Loads.tsx'
import { RevisionStatus } from '../parts/figures/RevisionStatus.tsx'
import { RevisionsKept } from '../parts/figures/RevisionsKept.tsx'
import { Situations } from '../parts/figures/Situations.tsx'
import { Sources } from '../parts/figures/Sources.tsx'
import { TablesUsed } from '../parts/figures/TablesUsed.tsx'
import { Warnings } from '../parts/figures/Warnings.tsx'
import { Problems } from '../parts/shell/Problems.tsx'
import { BeginAt } from '../parts/start/BeginAt.tsx'
import { useActions, useApp } from '../useApp.ts'

export function Figures() {
  const pack = useApp((state) => state.pack)
  const actions = useActions()
  if (pack) return <FiguresOf pack={pack} />
  return (
    <main class="page narrow stack">
      <h1 tabIndex={-1}>Figures</h1>
      <p>Figures belong to a pack. Choose one first.</p>
      <div>
        <button type="button" class="first" onClick={() => actions.show('start')}>
          Choose a pack
        </button>
      </div>
    </main>
  )
}

function FiguresOf({ pack }: { readonly pack: Pack }) {
  const draft = useApp((state) => state.draft)
  const preview = useApp((state) => state.preview)
  const revisions = useApp((state) => state.revisions)
  const run = useApp((state) => state.run)
  const problems = useApp((state) => state.problems)
  const settings = useApp((state) => state.settings)
  const dealt = useApp((state) => state.dealt)
  const sheets = useApp((state) => state.sheets)
  const view = useMemo(
    () => draftView(pack, { draft, preview, revisions, run, settings, dealt, sheets }),
    [pack, draft, preview, revisions, run, settings, dealt, sheets],
  )
  const isRunning = run?.status === 'running'
  return (
    <main class="page stack wide">
      <div class="stack">
        <h1 tabIndex={-1}>Figures of this departure</h1>
        <p class="soft">
          {pack.aircraft}. {revisionWords(view.revision)}
          {view.isDrawn && ' What is computed stays hidden: work trim and speeds out from the papers.'}
          {isRunning && ' During a run, values to be read back are hidden, and the workings that lead to them.'}
        </p>
      </div>
      <div class="columns">
        <div class="stack wide">
          <RevisionStatus draft={draft} />
          <LoadSheet />
          <Problems title="Load sheet not read" problems={problems} />
          <FieldGroups pack={pack} draft={draft} groups={view.groups} />
          <Loads draft={draft} loads={view.loads} />
          <LastMinute draft={draft} loads={view.loads} />
          <Situations draft={draft} situations={view.situations} isRunning={isRunning} />
        </div>
        <div class="stack wide">
          <Warnings view={view} />
          <Changes view={view} />
          <RevisionsKept revisions={revisions} />
          <Problems title="To fix or check" problems={view.problems} />
          <ComputedValues pack={pack} view={view} />
          <Sources pack={pack} draft={draft} figures={view.sourced} />
          <Limits view={view} />
          <Envelopes pack={pack} preview={preview} inForce={revisions.at(-1)?.set} hidden={view.hidden} />
          <TablesUsed pack={pack} view={view} />
        </div>
      </div>
      <EnterBar view={view} />
    </main>
  )
}

function revisionWords(revision: number): string {
  if (revision === 0) return 'No revision is in force yet.'
  if (revision === 1) return 'Revision 1 is in force.'
  return `Revision ${revision} is in force: figures get the next number each time they are accepted or changed. Papers count editions of their own.`
}

function EnterBar({ view: { revision, sourced } }: { readonly view: DraftView }) {
  const reasonless = sourced.filter(({ state }) => state === 'reasonless').map(({ label }) => label)
  const actions = useActions()
  const isChanged = useApp((state) => state.past.length > 0)
  const isEmpty = useApp(isEntryMissing)
  const isWrong = useApp(hasEntryErrors)
  const why = isEmpty ? 'Type a figure or take a load sheet first.' : isWrong ? 'Correct the marked fields first.' : ''
  return (
    <div class="bar row">
      <button
        type="button"
        class="first"
        disabled={why !== ''}
        aria-describedby={why ? 'not-yet' : undefined}
        onClick={() => void actions.enterRevision()}
      >
        Accept figures as revision {revision + 1}
      </button>
      {why && (
        <span id="not-yet" class="soft">
          {why}
        </span>
      )}
      {reasonless.length > 0 && (
        <span role="status" class="wrong-entry">
          Chosen without a reason, so not settled: {reasonless.join(', ')}.
        </span>
      )}
      {revision === 0 && <BeginAt />}
      {revision > 0 && (
        <button type="button" onClick={() => actions.show('run')}>
          Go to the run
        </button>
      )}
      <button type="button" disabled={!isChanged} onClick={() => actions.undo()}>
        Undo
      </button>
    </div>
  )
}
