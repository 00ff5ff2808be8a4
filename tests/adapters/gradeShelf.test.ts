import 'fake-indexeddb/auto'
import { expect, test } from 'vitest'
import { createGradeShelf } from '../../src/adapters/gradeShelf.ts'
import type { KeptSheet } from '../../src/ports.ts'

const sheet = (runId: string, by: string, isOwn: boolean): KeptSheet => ({
  ...{ runId, pack: 'Marram', startedAt: 0, by, list: '', grades: [], isOwn },
})

test('one’s own grades lie beside those of others, over a reload, whatever one’s name becomes', async () => {
  const shelf = createGradeShelf('grades')
  await shelf.put(sheet('run', 'Wren', true))
  await shelf.put(sheet('run', 'Rook', false))
  await shelf.put(sheet('run', 'Rook', true))
  await shelf.put(sheet('other', 'Rook', false))
  const all = async () => (await createGradeShelf('grades').all()).map((one) => [one.runId, one.by, one.isOwn])
  expect(await all()).toEqual([
    ['other', 'Rook', false],
    ['run', 'Rook', true],
    ['run', 'Rook', false],
  ])
  await shelf.deleteOf('run')
  expect(await all()).toEqual([['other', 'Rook', false]])
})
