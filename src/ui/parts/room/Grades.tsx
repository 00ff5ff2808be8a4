/** Grades in the run that is watched, at any time in it or at its end. */

import { useMemo } from 'preact/hooks'
import type { Actions } from '../../../app/actions/actions.ts'
import type { RoomState } from '../../../app/store.ts'
import { phaseOf } from '../../../app/view/view.ts'
import { gradingOf } from '../../../kernel/pack/standardGrading.ts'
import { useApp } from '../../useApp.ts'
import { GradeForm } from '../grading/GradeForm.tsx'
import { GradesGiven } from '../grading/GradesGiven.tsx'
import '../../look/grading.css'

export function Grades({ room, actions }: { readonly room: RoomState; readonly actions: Actions }) {
  const pack = useApp((state) => state.pack)
  const runId = useApp((state) => state.run?.runId)
  const phase = useApp(({ pack, run }) => (pack && run ? (pack.phases[phaseOf(pack, run.floor)]?.name ?? '') : ''))
  const isOver = useApp(({ run }) => run?.status === 'ended' || run?.floor.at === 'end')
  const parts = useMemo(() => [...new Set(pack?.phases.map(({ name }) => name))], [pack])
  if (!pack || runId === undefined) return null
  const grades = room.grades.filter((grade) => grade.runId === runId)
  return (
    <section class="stack" aria-label="Grades">
      <details>
        <summary>Grade a competency</summary>
        <GradeForm list={gradingOf(pack)} parts={parts} partNow={isOver ? '' : phase} onGrade={actions.gradeSeen} />
        <p class="soft small">A later grade of the same competency and part counts in place of an earlier one.</p>
      </details>
      <GradesGiven label="Grades of this run" grades={grades} />
    </section>
  )
}
