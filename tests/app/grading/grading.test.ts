/** A recorded run graded by two, each alone: what is kept, what is shown when, and what a file may hold. */

import { beforeAll, describe, expect, it } from 'vitest'
import { sheetText } from '../../../src/app/grading/gradeSheet.ts'
import { gradingActions } from '../../../src/app/grading/gradingActions.ts'
import { createVirtualClock } from '../../../src/app/rehearsal/virtualClock.ts'
import { createAppStore } from '../../../src/app/store.ts'
import type { RunEvent } from '../../../src/kernel/run/core/events.ts'
import type { Grade, GradeSheet } from '../../../src/kernel/training/grades.ts'
import { createZip } from '../../../src/packs/files/zipMaking.ts'
import { createFakeGradeShelf } from '../../fakes/gradeShelf.ts'
import { createFakeLog } from '../../fakes/log.ts'
import { offeredOf } from '../../fakes/smallPack.ts'
import { asRun, flownRun, keptIn } from '../runs/flownRuns.ts'

let flown: RunEvent[]
beforeAll(async () => {
  flown = await flownRun()
})

/** On the device of one instructor, with two runs. */
async function instructor(shelf = createFakeGradeShelf()) {
  const [log, store, clock] = [createFakeLog(), createAppStore(), createVirtualClock()]
  await keptIn(log, asRun(flown, 'january', 5), asRun(flown, 'june', 6))
  let ids = 0
  const parts = { store, log, clock, gradeShelf: shelf, newId: () => `id${++ids}` }
  const actions = gradingActions(parts, { session: () => undefined })
  const give = async (competency: string, grade: Grade['grade'], part = '') => {
    clock.advance(1_000)
    await actions.gradeRun({ competency, grade, seen: [], notSeen: [], part })
  }
  const state = () => {
    const { grading } = store.getState()
    if (!grading) throw new Error('nothing is graded')
    return grading
  }
  const graded = async (runId: string, by: string, grades: Readonly<Record<string, Grade['grade']>>) => {
    await actions.openGrading(runId)
    await actions.nameGrader(by)
    for (const [competency, grade] of Object.entries(grades)) await give(competency, grade)
    await actions.finishGrading()
    return String((await actions.saveGrades())?.content)
  }
  const bring = (text: string, name = 'rook.json') => actions.importGrades(offeredOf({ [name]: text }))
  return { store, shelf, actions, give, state, graded, bring }
}

describe('a recorded run', () => {
  it('opens with its timeline, the phases and the list to grade by', async () => {
    const { actions, state, store } = await instructor()
    await actions.openGrading('january')
    expect(store.getState().screen).toBe('grading')
    expect(state().parts).toContain('Before start')
    expect(state().list.competencies.map(({ id }) => id)).toContain('COM')
    expect(state().timeline.length).toBeGreaterThan(0)
  })

  it('that cannot be read is told of among the runs', async () => {
    const { actions, store } = await instructor()
    await actions.openGrading('nobody')
    expect(store.getState()).toMatchObject({ screen: 'runs', grading: undefined })
    expect(store.getState().runs.wrong).toEqual(['The run cannot be graded: its log is empty.'])
  })

  it('is graded over a reload, the last grade of the same counts, and one is taken back', async () => {
    const first = await instructor()
    await first.actions.openGrading('january')
    await first.actions.nameGrader('Wren')
    await first.give('COM', 2)
    await first.give('SAW', 4, 'Before start')
    const again = await instructor(first.shelf)
    await again.actions.openGrading('january')
    expect(again.state().own).toEqual(first.state().own)
    await again.actions.takeBackGrade(again.state().own.grades[0]?.id ?? '')
    expect(again.state().own.grades.map(({ competency, by }) => [competency, by])).toEqual([['SAW', 'Wren']])
  })

  it('is not finished without a name or a grade, and stands once it is', async () => {
    const { actions, state, give } = await instructor()
    await actions.openGrading('january')
    await actions.finishGrading()
    expect(state().wrong).toMatch(/name is missing/)
    await actions.nameGrader(' Wren ')
    await actions.finishGrading()
    expect(state().wrong).toMatch(/no grade yet/)
    await give('COM', 2)
    expect(await actions.saveGrades()).toBeUndefined()
    await actions.finishGrading()
    await give('COM', 5)
    expect(state().own).toMatchObject({ by: 'Wren', grades: [{ grade: 2, by: 'Wren' }] })
    expect((await actions.saveGrades())?.name).toMatch(/^otherseat-2026-01-05-\d{4}-.+-grades-wren\.json$/)
  })
})

describe('the other instructor’s grades', () => {
  const WREN = { COM: 3, SAW: 3, WLM: 2 } as const

  it('are not taken in before one’s own are finished', async () => {
    const other = await (await instructor()).graded('january', 'Rook', { COM: 3 })
    const { actions, state, bring, shelf } = await instructor()
    await actions.openGrading('january')
    await bring(other)
    expect(state().wrong).toMatch(/Finish your own grading first/)
    expect(shelf.kept.size).toBe(0)
    expect(state().comparisons).toEqual([])
  })

  it('are compared with one’s own, in this run and in all that both have graded', async () => {
    const rook = await instructor()
    const january = await rook.graded('january', 'Rook', { COM: 3, SAW: 2, PRO: 1 })
    const june = await rook.graded('june', 'Rook', { COM: 4, SAW: 4 })
    const wren = await instructor()
    await wren.graded('june', 'Wren', { COM: 4, SAW: 4 })
    await wren.bring(june)
    await wren.graded('january', 'Wren', WREN)
    await wren.bring(january)
    const [comparison, ...more] = wren.state().comparisons
    expect(more).toEqual([])
    expect(wren.state().told).toBe('The grades of Rook came in.')
    expect(comparison).toMatchObject({ by: 'Rook', runs: 2, here: { ownOnly: 1, otherOnly: 1 } })
    expect(comparison?.here.all).toMatchObject({ n: 2, same: { value: 0.5 } })
    expect(comparison?.everywhere?.all).toMatchObject({ n: 4, same: { value: 0.75 } })
    // Once more after a reload, and the same file again changes nothing.
    const again = await instructor(wren.shelf)
    await again.actions.openGrading('january')
    expect(again.state().comparisons).toEqual(wren.state().comparisons)
    await again.bring(january)
    expect(again.state().comparisons).toEqual(wren.state().comparisons)
  })

  it('come out of the zip of a room as well', async () => {
    const other = await (await instructor()).graded('january', 'Rook', { COM: 3 })
    const zip = createZip(0)
    zip.add('marked/log.jsonl', '')
    zip.add('marked/grades.json', other)
    const { graded, actions, state } = await instructor()
    await graded('january', 'Wren', WREN)
    await actions.importGrades(offeredOf({ 'marked.zip': zip.end() }))
    expect(state().comparisons.map(({ by }) => by)).toEqual(['Rook'])
  })

  it('are deleted with one’s own, of that run alone', async () => {
    const rook = await (await instructor()).graded('january', 'Rook', { COM: 3 })
    const { graded, bring, actions, state, shelf } = await instructor()
    await graded('june', 'Wren', WREN)
    await graded('january', 'Wren', WREN)
    await bring(rook)
    await actions.deleteGrades()
    expect([...shelf.kept.values()].map(({ runId }) => runId)).toEqual(['june'])
    expect(state()).toMatchObject({ own: { by: 'Wren', grades: [] }, comparisons: [] })
    expect(state().own.finishedAt).toBeUndefined()
  })

  it('are refused with the reason where they cannot be compared', async () => {
    const { graded, state, bring, actions } = await instructor()
    const own = await graded('january', 'Wren', WREN)
    const sheet = JSON.parse(own) as GradeSheet & { form: string; v: number }
    const changed = (change: object) => sheetText({ ...sheet, by: 'Rook', ...change })
    const empty = createZip(0)
    empty.add('marked/log.jsonl', '')
    const cases: readonly (readonly [text: string, why: RegExp])[] = [
      [own, /is by Wren, as your own is/],
      ['{"grades": []}', /is no file of grades/],
      ['not JSON', /is no file of grades/],
      [JSON.stringify({ ...sheet, v: 2 }), /is of form 2, and this edition reads form 1/],
      [changed({ finishedAt: undefined }), /is not finished/],
      [changed({ list: 'another list' }), /was graded by another list/],
      [
        changed({ runId: 'june', grades: sheet.grades.map((grade) => ({ ...grade, runId: 'june' })) }),
        /has grades of another run, .* begun 2026-01-05 09:00 UTC/,
      ],
      [changed({ runId: 'june' }), /has a grade of another run than its own/],
      [
        changed({ grades: sheet.grades.map((grade) => ({ ...grade, grade: 7 })) }),
        /^“rook\.json” is damaged: grades\.0\.grade is 7, not 1, 2, 3, 4, 5\.$/,
      ],
    ]
    for (const [text, why] of cases) {
      await bring(text)
      expect(state().wrong).toMatch(why)
    }
    await actions.importGrades(offeredOf({ 'marked.zip': empty.end() }))
    expect(state().wrong).toMatch(/has no grades\.json in it/)
    expect(state().comparisons).toEqual([])
  })
})
