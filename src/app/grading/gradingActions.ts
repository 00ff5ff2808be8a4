/**
 * A recorded run graded by oneself. What another instructor gave is taken in only once one's own grading is finished, and from
 * then on one's own grades stand: else the two would not be independent, and their agreement would say nothing.
 */

import { gradingOf } from '../../kernel/pack/standardGrading.ts'
import { debriefOf } from '../../kernel/run/debrief/debrief.ts'
import type { OfferedFile } from '../../packs/files/offered.ts'
import { isRefused } from '../../packs/files/offered.ts'
import type { Clock, GradeShelf, KeptSheet, RunArchive } from '../../ports.ts'
import type { RunController } from '../run/controller.ts'
import type { SavedFile } from '../runs/runFiles.ts'
import type { Store } from '../store.ts'
import { comparisonsOf } from './comparisons.ts'
import { type GradeGiven, gradeFrom } from './gradeGiven.ts'
import type { GradingState } from './gradingState.ts'

export interface GradingActions {
  /** Any run that this browser keeps. */
  openGrading(runId: string): Promise<void>
  nameGrader(by: string): Promise<void>
  gradeRun(given: GradeGiven): Promise<void>
  takeBackGrade(id: string): Promise<void>
  /** From then on they stand, and others' may be brought in. */
  finishGrading(): Promise<void>
  /** One's own, for the other instructor; undefined while they are not finished. */
  saveGrades(): Promise<SavedFile | undefined>
  importGrades(files: readonly OfferedFile[]): Promise<void>
  /** One's own of this run, and those that were brought in. */
  deleteGrades(): Promise<void>
}

interface Parts {
  readonly store: Store
  readonly log: Pick<RunArchive, 'read' | 'runs'>
  readonly clock: Clock
  readonly gradeShelf: GradeShelf
  readonly newId: () => string
}

export function gradingActions(
  { store, log, clock, gradeShelf, newId }: Parts,
  controller: Pick<RunController, 'session'>,
): GradingActions {
  const now = () => new Date(clock.now()).toISOString()

  function show(change: Partial<GradingState>): void {
    store.setState(({ grading }) => (grading ? { grading: { ...grading, ...change } } : {}))
  }

  /** Shown at once; where it cannot be kept, that is told. */
  async function keep(change: Partial<KeptSheet>): Promise<void> {
    const own = store.getState().grading?.own
    if (!own || own.finishedAt !== undefined) return
    const next = { ...own, ...change }
    show({ own: next, wrong: '', told: '' })
    try {
      await gradeShelf.put(next)
    } catch (error) {
      show({ wrong: error instanceof Error ? error.message : String(error) })
    }
  }

  async function valuesOf(runId: string): Promise<readonly unknown[]> {
    const session = controller.session()
    return session?.state().runId === runId ? session.events() : log.read(runId)
  }

  return {
    async openGrading(runId) {
      const { createRunReader } = await import('../runs/runRead.ts')
      const run = await createRunReader().read(await valuesOf(runId))
      if ('why' in run) {
        const wrong = [`The run cannot be graded: ${run.why}.`]
        return store.setState(({ runs }) => ({ screen: 'runs', runs: { ...runs, wrong, told: [] } }))
      }
      const { pack, events } = run
      // As in its debrief: what is not to be told in the middle of a run is not told here either.
      const mayGoOn = (await log.runs()).some((one) => one.runId === runId && !one.ended)
      const debrief = debriefOf(pack, events, mayGoOn)
      const startedAt = Date.parse(debrief.startedAt)
      const list = gradingOf(pack)
      let wrong = ''
      const sheets = await gradeShelf.all().catch((error: unknown) => {
        wrong = error instanceof Error ? error.message : String(error)
        return []
      })
      const isMine = (sheet: KeptSheet) => sheet.isOwn && sheet.runId === runId
      const by = sheets.findLast(({ isOwn }) => isOwn)?.by ?? ''
      const fresh: KeptSheet = { runId, pack: pack.name, startedAt, by, list: list.source, grades: [], isOwn: true }
      store.setState({
        screen: 'grading',
        grading: {
          ...{ runId, pack: pack.name, startedAt, list, wrong, told: '' },
          // What is done again from here would be of the run debriefed last.
          timeline: debrief.timeline.map(({ from: _from, ...entry }) => entry),
          parts: [...new Set(pack.phases.map(({ name }) => name))],
          own: sheets.find(isMine) ?? fresh,
          comparisons: comparisonsOf(sheets, runId),
        },
      })
    },
    nameGrader: (by) => keep({ by }),
    async gradeRun(given) {
      const { grading } = store.getState()
      if (!grading) return
      const { own, list, runId } = grading
      const grade = gradeFrom(list, given, { id: newId(), runId, by: own.by, given: now() })
      if (grade) await keep({ grades: [...own.grades, grade] })
    },
    async takeBackGrade(id) {
      const { grades = [] } = store.getState().grading?.own ?? {}
      await keep({ grades: grades.filter((grade) => grade.id !== id) })
    },
    async finishGrading() {
      const { own } = store.getState().grading ?? {}
      const by = own?.by.trim() ?? ''
      if (!own) return
      if (by === '')
        return show({ wrong: 'Your name is missing: the other instructor has to know whose grades these are.' })
      if (own.grades.length === 0) return show({ wrong: 'There is no grade yet.' })
      await keep({ by, finishedAt: now(), grades: own.grades.map((grade) => ({ ...grade, by })) })
    },
    async saveGrades() {
      const { own, startedAt } = store.getState().grading ?? {}
      if (!own || own.finishedAt === undefined || startedAt === undefined) return undefined
      const [{ runName }, { sheetText }] = await Promise.all([import('../runs/runFiles.ts'), import('./gradeSheet.ts')])
      const { isOwn: _isOwn, ...sheet } = own
      const name = `${runName({ startedAt, packId: own.pack })}-grades-${runName({ startedAt, packId: own.by }).slice(16)}`
      return { name: `otherseat-${name}.json`, content: sheetText(sheet) }
    },
    async deleteGrades() {
      const { grading } = store.getState()
      if (!grading) return
      try {
        await gradeShelf.deleteOf(grading.runId)
        const { finishedAt: _finishedAt, ...own } = grading.own
        show({ own: { ...own, grades: [] }, comparisons: [], wrong: '', told: 'The grades are deleted.' })
      } catch (error) {
        show({ wrong: error instanceof Error ? error.message : String(error) })
      }
    },
    async importGrades(files) {
      const { grading } = store.getState()
      if (!grading || files.length === 0) return
      if (grading.own.finishedAt === undefined)
        return show({ wrong: 'Finish your own grading first: what another gave is not to be seen before.', told: '' })
      const { sheetIn } = await import('./gradeSheet.ts')
      const wrong: string[] = []
      const names: string[] = []
      for (const file of files) {
        const sheet = await sheetIn(file)
        const why = isRefused(sheet) ? sheet.wrong : whyNot(sheet, grading)
        if (isRefused(sheet) || why !== '') {
          wrong.push(`“${file.path.split('/').at(-1)}” ${why}.`)
          continue
        }
        try {
          await gradeShelf.put({ ...sheet, isOwn: false })
          names.push(sheet.by)
        } catch (error) {
          wrong.push(error instanceof Error ? error.message : String(error))
        }
      }
      const told = names.length === 0 ? '' : `The grades of ${names.join(' and ')} came in.`
      show({ wrong: wrong.join(' '), told, comparisons: comparisonsOf(await gradeShelf.all(), grading.runId) })
    },
  }
}

/** Why another's sheet is not compared with one's own; goes on behind the file's name. Empty where it is. */
function whyNot(sheet: Omit<KeptSheet, 'isOwn'>, { runId, own }: GradingState): string {
  if (sheet.runId !== runId) {
    const when = new Date(sheet.startedAt).toISOString().slice(0, 16).replace('T', ' ')
    return `has grades of another run, ${sheet.pack} begun ${when} UTC: open that one here first`
  }
  if (sheet.finishedAt === undefined) return 'is not finished: have it saved once it is'
  const isSame = (one: string, other: string) => one.trim().toLowerCase() === other.trim().toLowerCase()
  if (isSame(sheet.by, own.by)) return `is by ${own.by}, as your own is: two instructors need two names`
  if (sheet.list !== own.list) return 'was graded by another list: only grades by the same list can be compared'
  return ''
}
