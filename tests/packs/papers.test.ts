import { describe, expect, it } from 'vitest'
import { readPack } from '../../src/packs/read.ts'
import { packTexts } from '../kernel/figures/modelOf.ts'

const FIGURES = {
  fuel: { label: 'fuel', kind: 'weight', unit: 'lb', entered: {} },
  total: {
    ...{ label: 'total', kind: 'weight', unit: 'lb', derived: { by: 'sum', of: ['fuel'] } },
    stated: { sources: ['loadSheet'], tolerance: 1 },
  },
}
const TABLES = { t: { label: 't', unit: 'kt', axes: [{ name: 'a', choices: ['1', '2'] }], cells: [1, 2] } }

/** What is said of these papers, each with where it stands. */
function told(papers: Readonly<Record<string, object>>): string[] {
  const texts = packTexts({ figures: FIGURES, tables: TABLES })
  const { problems } = readPack({ ...texts, 'papers.yaml': JSON.stringify({ papers }, undefined, 1) }, '')
  return problems.map(({ place, message }) => `${place?.file}:${place?.line} ${message}`)
}

describe('papers of a pack', () => {
  it('may print what a source states, what is entered, what is fixed, tables and lists', () => {
    const lines = [{ heading: 'Fuel' }, { figure: 'fuel' }, { figure: 'total', label: 'All' }, { status: 'Status' }]
    expect(told({ p: { title: 'sheet', source: 'loadSheet', lines } })).toEqual([])
    expect(told({ p: { title: 'card', tables: ['t'], lists: ['l'] }, q: { title: 'list', lists: 'all' } })).toEqual([])
  })

  it.each([
    [{ title: 'sheet', lines: [{ figure: 'fuell' }] }, /no figure is called "fuell".*fuel/],
    [
      { title: 'sheet', source: 'loadsheet', lines: [{ figure: 'fuel' }] },
      /no source is called "loadsheet".*loadSheet/,
    ],
    [{ title: 'sheet', lines: [{ load: 'cabin' }] }, /no station is called "cabin"/],
    [{ title: 'sheet', lines: [{ situation: 'stand' }] }, /no situation is called "stand"/],
    [{ title: 'card', tables: ['tt'] }, /no table is called "tt"/],
    [{ title: 'card', lists: ['ll'] }, /no list is called "ll"/],
    [{ title: 'card' }, /"card" holds nothing; give it lines, tables or lists/],
    [
      { title: 'sheet', lines: [{ figure: 'total' }] },
      /cannot print total, which Otherseat computes; give the paper a source/,
    ],
    [{ title: 'sheet', lines: [{ figure: 'fuel', load: 'cabin' }] }, /.+/],
  ])('%j is told as what it is, where it stands', (paper, message) => {
    const [problem = '', ...more] = told({ p: paper })
    expect(problem).toMatch(/^papers\.yaml:\d+ /)
    expect(problem).toMatch(message)
    expect(more).toEqual([])
  })

  it('of an unknown source are told of that alone', () => {
    expect(told({ p: { title: 'sheet', source: 'laodSheet', lines: [{ figure: 'total' }] } })).toHaveLength(1)
  })

  it('are told apart by their titles, as they are called', () => {
    const lines = [{ figure: 'fuel' }]
    const [problem] = told({ p: { title: 'Load sheet', lines }, q: { title: ' load  sheet', lines } })
    expect(problem).toMatch(/two papers are called " load {2}sheet"/)
  })

  it('of a source that does not state the figure cannot print it either', () => {
    const texts = packTexts({
      figures: {
        ...FIGURES,
        other: { label: 'other', kind: 'weight', unit: 'lb', derived: { by: 'sum', of: ['fuel'] } },
      },
    })
    const papers = { p: { title: 'sheet', source: 'loadSheet', lines: [{ figure: 'other' }] } }
    const { problems } = readPack({ ...texts, 'papers.yaml': JSON.stringify({ papers }) }, '')
    expect(problems.map(({ message }) => message)).toEqual([
      '"sheet" cannot print other, which Otherseat computes; name loadSheet among the sources of other',
    ])
  })
})
