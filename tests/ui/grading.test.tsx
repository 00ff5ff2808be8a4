/** Grading as an instructor meets it: the form, what backs a grade, one's own grades of a recorded run, and the agreement. */

import { screen, waitFor, within } from '@testing-library/preact'
import { beforeAll, describe, expect, it } from 'vitest'
import { sheetText } from '../../src/app/grading/gradeSheet.ts'
import type { RunEvent } from '../../src/kernel/run/core/events.ts'
import type { KeptSheet } from '../../src/ports.ts'
import type { RoomGrade } from '../../src/room/entries.ts'
import { asRun, flownRun, keptIn } from '../app/runs/flownRuns.ts'
import { createFakeGradeShelf } from '../fakes/gradeShelf.ts'
import { createFakeLog } from '../fakes/log.ts'
import { stage } from './stage.tsx'

let flown: RunEvent[]
beforeAll(async () => {
  flown = await flownRun()
})

/** On the list of runs, the form open. */
async function grading() {
  const [log, gradeShelf] = [createFakeLog(), createFakeGradeShelf()]
  await keptIn(log, asRun(flown, 'january', 5))
  const on = stage({ screen: 'runs' }, { log, gradeShelf })
  await on.user.click(await screen.findByRole('button', { name: /^Grade Marram/ }))
  await screen.findByRole('heading', { level: 1, name: 'Grade a recorded run' })
  const give = async (competency: string, grade: number) => {
    await on.user.selectOptions(screen.getByRole('combobox', { name: /^Competency/ }), competency)
    await on.user.click(screen.getByRole('radio', { name: new RegExp(`^${grade}`) }))
    await on.user.click(screen.getByRole('button', { name: 'Give this grade' }))
  }
  return { ...on, give, gradeShelf }
}

const given = () => within(screen.getByRole('list', { name: 'Your grades of this run' })).getAllByRole('listitem')

describe('a grade', () => {
  it('is given with the behaviours that were ticked, each once, and asks for a step first', async () => {
    const { user, give } = await grading()
    expect(screen.getByRole('button', { name: 'Give this grade' })).toHaveProperty('disabled', true)
    const tick = (name: RegExp) => user.click(screen.getByRole('button', { name }))
    await user.selectOptions(screen.getByRole('combobox', { name: /^Competency/ }), 'Communication')
    await tick(/^Seen: Reads back all/)
    await tick(/^Missing: Asks again/)
    await tick(/^Seen: Speaks when/)
    await tick(/^Missing: Speaks when/)
    await tick(/^Seen: Says what/)
    await tick(/^Seen: Says what/)
    await give('Communication', 2)
    // Choosing it again began anew.
    expect(given()[0]?.textContent).toMatch(
      /^Communication 2, below standard: it held with help or luck in the whole run/,
    )
    expect(screen.getByText('Communication: 2 is given.').getAttribute('role')).toBe('status')
  })

  it('has its ticks beside it', async () => {
    const { user } = await grading()
    await user.click(screen.getByRole('button', { name: /^Seen: Takes values/ }))
    await user.click(screen.getByRole('button', { name: /^Missing: Gives each/ }))
    await user.click(screen.getByRole('radio', { name: /^4/ }))
    await user.selectOptions(screen.getByRole('combobox', { name: /^In/ }), 'Before start')
    await user.click(screen.getByRole('button', { name: 'Give this grade' }))
    expect(given()[0]?.textContent).toMatch(
      /in Before start.*Seen: Takes values from the paper in force.*Missing: Gives each answer in full/,
    )
    expect(screen.getByRole('radio', { name: /^4/ })).toHaveProperty('checked', false)
  })
})

it('one’s own grades are finished with a name; then another’s come in, and how far both agree stands in one sentence', async () => {
  const { user, give, gradeShelf, actions, store } = await grading()
  await give('Communication', 3)
  await give('Situation awareness', 2)
  await user.type(screen.getByRole('textbox', { name: 'Your name' }), 'Wren')
  await user.click(screen.getByRole('button', { name: 'Finish grading' }))
  await user.click(screen.getByRole('button', { name: 'Finish it now' }))
  await screen.findByRole('heading', { name: 'Your grades, finished' })
  expect(screen.queryByRole('button', { name: 'Give this grade' })).toBeNull()
  const [own] = [...gradeShelf.kept.values()] as [KeptSheet]
  const { isOwn: _isOwn, ...sheet } = own
  const rook = sheetText({
    ...sheet,
    by: 'Rook',
    grades: sheet.grades.map((one) => ({ ...one, by: 'Rook', grade: 3 })),
  })
  await user.upload(screen.getByLabelText(/Choose another instructor/), new File([rook], 'rook.json'))
  const both = await screen.findByRole('region', { name: 'You and Rook' })
  expect(both.textContent).toMatch(/1 of 2 grades are the same \(50 %.*2 pairs are too few to rely on it/)
  const rows = within(both).getAllByRole('row')
  expect(rows.map((row) => row.textContent)).toHaveLength(4)
  expect(both.textContent).toMatch(/Where you are apart.*Situation awareness in the whole run: you 2, Rook 3/)
  expect(await actions.saveGrades()).toBeDefined()
  await waitFor(() => expect(store.getState().grading?.told).toBe('The grades of Rook came in.'))
})

it('what the instructor gave stands in the debrief once it is shown, and not before', async () => {
  const log = createFakeLog()
  await keptIn(log, asRun(flown, 'january', 5))
  const grade: RoomGrade = {
    ...{ id: 'g', runId: 'january', seat: 'a', by: 'Rook', given: '2026-01-05T09:00:00Z', part: '' },
    ...{ competency: 'COM', name: 'Communication', grade: 4, step: 'good', seen: ['Reads back'], notSeen: [] },
  }
  let shown: readonly RoomGrade[] = []
  const roomKept = {
    ...{ ticket: () => undefined, keepTicket() {}, marks: () => [], keepMarks() {}, keepGrades() {} },
    grades: () => shown,
  }
  const { actions, user } = stage({ screen: 'runs' }, { log, roomKept })
  await actions.openRun('january')
  await screen.findByRole('heading', { level: 1, name: 'Not all lists are complete' })
  expect(screen.queryByText('Marked by the instructor')).toBeNull()
  shown = [grade]
  await user.click(screen.getByRole('button', { name: 'Runs' }))
  await actions.openRun('january')
  const list = await screen.findByRole('list', { name: 'Grades by the instructor' })
  expect(list.textContent).toBe('Communication 4, good in the whole run Seen: Reads back')
  // By whoever grades the run alone it is not seen.
  await user.click(screen.getByRole('button', { name: 'Runs' }))
  await user.click(await screen.findByRole('button', { name: /^Grade Marram/ }))
  await user.click(await screen.findByRole('button', { name: /^Its debrief/ }))
  await screen.findByText(/is not shown while you grade this run/)
  expect(screen.queryByRole('list', { name: 'Grades by the instructor' })).toBeNull()
})
