/** A table from a spreadsheet becomes one of a pack; what it does not say is asked, and no cell is made up. */

import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { parse, parseDocument } from 'yaml'
import { draftPack } from '../../src/packs/paper/draftPack.ts'
import { draftTable } from '../../src/packs/paper/draftTable.ts'
import { withPastedTable } from '../../src/packs/paper/tablesFile.ts'
import { tablesIn } from '../../src/packs/paper/tablesIn.ts'
import { readPack } from '../../src/packs/read.ts'
import { cases } from '../cases.ts'

const rows = (...lines: string[]) => lines.join('\n')
const tableOf = (text: string) => {
  const draft = draftTable(text)
  return draft && parse(draft.yaml).tables[draft.name]
}
const PACK = {
  'pack.yaml': 'id: paper\nname: a\nversion: "1"\naircraft: a\noperator: a\ncaution: a\nunits: {weight: kg, arm: m}\n',
  'figures.yaml': 'figures: {}\n',
  'procedures.yaml':
    'phases: [{phase: a, name: a, activities: [{list: a, name: a, entries: [{item: a, challenge: a, response: set}]}]}]\n',
}
const problemsOf = (yaml: string) => readPack({ ...PACK, 'tables.yaml': yaml }, '').problems

describe('a pasted table', () => {
  it('has its axes in the first row and column, with their units', () => {
    const text = rows('Lift off speed (kt)', 'Weight (lb) \\ Flap\tUP\t9', '3500\t69\t67', '3900\t71\t68')
    expect(tableOf(text)).toEqual({
      label: 'Lift off speed',
      unit: 'kt',
      axes: [
        { name: 'weight', label: 'Weight', unit: 'lb', at: [3500, 3900] },
        { name: 'flap', label: 'Flap', choices: ['UP', '9'] },
      ],
      cells: [
        [69, 67],
        [71, 68],
      ],
    })
    expect(problemsOf(draftTable(text)?.yaml ?? '')).toEqual([])
  })

  it('is of what its corner says where the rows say what they are, or have another unit', () => {
    const own = tableOf(rows('Rotate speed (KT)\tFlap 0\tFlap 10', '1800 lb\t50\t48', '2100 lb\t54\t51'))
    expect(own).toMatchObject({ label: 'Rotate speed', unit: 'kt', axes: [{ unit: 'lb', at: [1800, 2100] }, {}] })
    const named = tableOf(rows('Approach speed (KT)\t1800\t2100', 'flap 0\t60\t65', 'flap 10\t55\t60'))
    expect(named).toMatchObject({ label: 'Approach speed', unit: 'kt', axes: [{ name: 'flap' }, {}] })
  })

  it('of two columns, or of two rows, has one axis', () => {
    expect(tableOf(rows('CG,Trim', '20,5', '25,4'))).toMatchObject({
      axes: [{ name: 'cg', at: [20, 25] }],
      cells: [5, 4],
    })
    expect(tableOf(rows('CG\t20\t25', 'Trim\t5\t4'))).toMatchObject({
      label: 'Trim',
      axes: [{ name: 'cg', at: [20, 25] }],
      cells: [5, 4],
    })
  })

  it('is turned round where an axis falls, cells and all, and that is asked', () => {
    const text = rows('W;1;2', '20;5;6', '10;7;8')
    expect(tableOf(text)).toMatchObject({
      axes: [{ at: [10, 20] }, { at: [1, 2] }],
      cells: [
        [7, 8],
        [5, 6],
      ],
    })
    expect(draftTable(text)?.questions.some(({ text: told }) => /turned round/.test(told))).toBe(true)
  })

  it.each([
    ['decimal commas', rows('CG;Trim', '20,5;5,5', '25;4'), [5.5, 4], false],
    ['decimal commas beside points for thousands', rows('W;T', '1.000;5,5', '2.000;4'), [5.5, 4], false],
    ['commas for thousands beside decimal points', rows('W\tT', '1,000\t5.5', '2,000\t4'), [5.5, 4], false],
    ['commas that may be either', rows('W\tT', '1\t1,250', '2\t1,100'), [1250, 1100], true],
    ['points that may be either', rows('W\tT', '1\t1.250', '2\t1.100'), [1.25, 1.1], true],
  ])('%s are read, and asked about where the table does not settle it', (_, text, cells, asked) => {
    expect(tableOf(text)?.cells).toEqual(cells)
    expect(draftTable(text)?.questions.some(({ text: told }) => /thousands/.test(told))).toBe(asked)
  })

  it('with both decimal commas and points leaves those with commas open', () => {
    expect(tableOf(rows('W\tT', '1\t4,5', '2\t3.5'))?.cells).toEqual([null, 3.5])
  })

  it('leaves empty, ragged and wordy cells open; check says so at the marked place', () => {
    const text = rows('W;1;2', '10;5;', '20;6', '30;n/a;9')
    const draft = draftTable(text)
    expect(tableOf(text)?.cells).toEqual([
      [5, null],
      [6, null],
      [null, 9],
    ])
    const told = draft?.questions.filter(({ text }) => /empty|no number/.test(text)).map(({ line }) => line)
    expect(told).toEqual([2, 3, 4])
    const lines = (draft?.yaml ?? '').split('\n')
    for (const { place } of problemsOf(draft?.yaml ?? '')) expect(lines[(place?.line ?? 0) - 2]).toContain('# ? line')
    expect(problemsOf(draft?.yaml ?? '')).toHaveLength(3)
  })

  it('takes the word that all heads begin with for the axis', () => {
    const text = rows('Flap\tCG 20 %MAC\tCG 25 %MAC', '0\t6.2\t5.4', '10\t5.6\t4.8')
    expect(tableOf(text)).toMatchObject({
      axes: [
        { name: 'flap', at: [0, 10] },
        { name: 'cg', label: 'CG', unit: 'percentMac', at: [20, 25] },
      ],
    })
  })

  it('is none where there is no row and column', () => {
    expect(draftTable('words')).toBeUndefined()
    expect(draftTable('')).toBeUndefined()
  })
})

describe('tables in a text', () => {
  const CARD = rows('BEFORE START', '', 'Beacon\tON', 'Flaps\t10', 'Torque\t1865', 'Prop\t1750', '')

  it('are found behind a checklist, whose own rows are none', () => {
    expect(tablesIn(CARD)).toEqual([])
    const table = rows('Flap,CG 20,CG 25', '0,6.2,5.4', '10,5.6,4.8')
    expect(tablesIn(`${CARD}\n${table}\n`)).toEqual([{ line: 8, last: 10, text: table }])
  })

  it('leave no item, and are asked about', () => {
    const draft = draftPack(`${CARD}\nFlap\tCG 20\tCG 25\n0\t6.2\t5.4\n10\t5.6\t4.8\n`)
    expect(draft.lists.flatMap(({ items }) => items)).toHaveLength(4)
    expect(draft.questions.some(({ line, text }) => line === 8 && /a table of numbers/.test(text))).toBe(true)
  })
})

it('any text is no table, or one that is YAML', () => {
  const cell = fc.oneof(
    fc.constantFrom('', '1', '2,5', '1.000', '10', '-3', 'null', '"', '# x', '~', 'a: b', '1e9', '999999999999999'),
    fc.string({ unit: 'binary', maxLength: 8 }),
  )
  const text = fc
    .tuple(fc.constantFrom('\t', ';', ','), fc.array(fc.array(cell, { maxLength: 5 }), { maxLength: 6 }))
    .map(([sign, lines]) => lines.map((line) => line.join(sign)).join('\n'))
  fc.assert(
    fc.property(fc.oneof(text, fc.string({ unit: 'binary', maxLength: 200 })), (pasted) => {
      const draft = draftTable(pasted)
      if (draft) expect(parseDocument(draft.yaml).errors).toEqual([])
      for (const { line } of draft?.questions ?? []) expect(line).toBeGreaterThan(0)
    }),
    { numRuns: cases(400) },
  )
})

it('of 100,000 rows is read as far as a table may go, and that is told', () => {
  const draft = draftTable(`W\tT\n${Array.from({ length: 100_000 }, (_, index) => `${index}\t1`).join('\n')}`)
  expect(draft?.questions.some(({ text }) => /more rows|longer than a pack/.test(text))).toBe(true)
  expect(problemsOf(draft?.yaml ?? '')).toEqual([])
})

describe('a file of tables', () => {
  const TRIM = rows('Trim', 'Flap\t1\t2', '0\t5\t4', '10\t3\t2')

  it.each([
    ['that is not there yet', ''],
    ['of comments', '# mine'],
    ['without a table', '# mine\ntables: {}\n# end\n'],
    ['whose tables are still to come', 'tables:\n'],
  ])('%s takes a pasted one', (_, file) => {
    const put = withPastedTable(file, TRIM)
    expect(parse(put?.text ?? '').tables.trim.cells).toEqual([
      [5, 4],
      [3, 2],
    ])
    expect(put?.text.slice(put.at).startsWith('trim:')).toBe(true)
    for (const comment of file.match(/#.*/g) ?? []) expect(put?.text).toContain(comment)
  })

  it('takes it behind the others, set in as they are, each letter of theirs kept, and by a name of its own', () => {
    const file = 'tables:\n    trim: {unit: none, axes: [{name: x, at: [1, 2]}], cells: [1, 2]} # card 4\n# end\n'
    const put = withPastedTable(file, TRIM)
    expect(put?.name).toBe('trim2')
    const [head = '', end = ''] = file.split('# end')
    expect(put?.text.startsWith(head)).toBe(true)
    expect(put?.text.endsWith(`# end${end}`)).toBe(true)
    expect(put?.text).toContain('\n    trim2:\n      label: Trim\n      # ? line 2: the table does not say')
    expect(Object.keys(parse(put?.text ?? '').tables)).toEqual(['trim', 'trim2'])
  })

  it.each([
    ['a mistake', 'tables: [\n'],
    ['its tables in one line', 'tables: {a: {unit: none}}\n'],
  ])('with %s takes none', (_, file) => {
    expect(withPastedTable(file, TRIM)).toBeUndefined()
  })

  it('has it by its own words, each but the first with a capital', () => {
    const speeds = rows('Climb speed (kt)', 'Weight (kg)\tFlap 0\tFlap 10', '700\t60\t55', '900\t70\t65')
    const once = withPastedTable('', speeds)
    expect([once?.name, withPastedTable(once?.text ?? '', speeds)?.name]).toEqual(['climbSpeed', 'climbSpeed2'])
  })

  it('takes none from a text without one', () => {
    expect(withPastedTable('', 'BEACON .... ON')).toBeUndefined()
  })
})
