/** A recorded run, graded by oneself; and once that is finished, how far another instructor agrees. */

import type { GradingState } from '../../app/grading/gradingState.ts'
import { TimelineTable } from '../parts/debrief/TimelineTable.tsx'
import { AgreementSection } from '../parts/grading/AgreementSection.tsx'
import { GradeForm } from '../parts/grading/GradeForm.tsx'
import { GradesGiven } from '../parts/grading/GradesGiven.tsx'
import { OthersGrades } from '../parts/grading/OthersGrades.tsx'
import { AskFirst } from '../parts/shell/AskFirst.tsx'
import { saveFile } from '../parts/shell/saveFile.ts'
import { useActions, useApp } from '../useApp.ts'
import '../look/grading.css'

export function Grading() {
  const grading = useApp((state) => state.grading)
  const actions = useActions()
  if (!grading) {
    return (
      <main class="page narrow stack">
        <h1 tabIndex={-1}>No run to grade</h1>
        <p>Choose one on the screen “Runs”.</p>
      </main>
    )
  }
  const { runId, pack, startedAt, timeline, own, comparisons, wrong, told } = grading
  const isFinished = own.finishedAt !== undefined
  return (
    <main class="page grading">
      <div class="grading-head">
        <h1 tabIndex={-1}>Grade a recorded run</h1>
        <p class="soft">
          {pack}, begun {new Date(startedAt).toLocaleString('en-GB', { dateStyle: 'long', timeStyle: 'short' })}.
        </p>
      </div>
      <section class="stack" aria-labelledby="grading-run">
        <h2 id="grading-run">The run</h2>
        <p>
          <button type="button" class="plain" onClick={() => void actions.openRun(runId)}>
            Its debrief, with what can be played
          </button>
        </p>
        {/* biome-ignore lint/a11y/noNoninteractiveTabindex: it scrolls, also by keys */}
        <section class="grading-run" aria-label="Timeline" tabIndex={0}>
          <TimelineTable entries={timeline} />
        </section>
      </section>
      <div class="stack wide">
        {isFinished ? <Finished grading={grading} /> : <Open grading={grading} />}
        {wrong && <p role="alert">{wrong}</p>}
        <p role="status">{told}</p>
      </div>
      <div class="stack wide grading-both">
        {comparisons.map((comparison) => (
          <AgreementSection key={comparison.by} comparison={comparison} />
        ))}
      </div>
    </main>
  )
}

function Open({ grading: { list, parts, own } }: { readonly grading: GradingState }) {
  const actions = useActions()
  return (
    <section class="stack" aria-labelledby="grading-own">
      <h2 id="grading-own">Your grades</h2>
      <p class="soft small">Kept on this device. Nothing of what another instructor gave is shown before you finish.</p>
      <label>
        Your name
        <input
          value={own.by}
          maxLength={40}
          autoComplete="off"
          onInput={({ currentTarget }) => void actions.nameGrader(currentTarget.value)}
        />
      </label>
      <GradeForm list={list} parts={parts} partNow="" onGrade={(given) => void actions.gradeRun(given)} />
      <GradesGiven
        label="Your grades of this run"
        grades={own.grades}
        onTakeBack={(id) => void actions.takeBackGrade(id)}
      />
      {own.grades.length > 0 && (
        <div>
          <AskFirst
            label="Finish grading"
            warning="Your grades then stand as they are."
            yes="Finish it now"
            onYes={actions.finishGrading}
          />
        </div>
      )}
    </section>
  )
}

function Finished({ grading: { own } }: { readonly grading: GradingState }) {
  const actions = useActions()
  const save = async () => {
    const file = await actions.saveGrades()
    if (file) saveFile(file.name, file.content)
  }
  return (
    <section class="stack" aria-labelledby="grading-own">
      <h2 id="grading-own">Your grades, finished</h2>
      <GradesGiven label="Your grades of this run" grades={own.grades} />
      <div>
        <button type="button" class="first" onClick={() => void save()}>
          Save your grades for the other instructor
        </button>
      </div>
      <OthersGrades />
      <div>
        <AskFirst
          label="Delete the grades of this run"
          warning="Yours and those brought in: they do not come back. The run stays."
          yes="Delete them now"
          onYes={actions.deleteGrades}
        />
      </div>
    </section>
  )
}
