import { beforeAll, describe, expect, it } from 'vitest'
import { compute } from '../../../src/kernel/figures/compute.ts'
import type { Inputs } from '../../../src/kernel/figures/model.ts'
import type { Pack } from '../../../src/kernel/pack/checklist.ts'
import { asPrinted, blanksOf } from '../../../src/kernel/papers/asPrinted.ts'
import { newOnes, pileOf } from '../../../src/kernel/papers/pile.ts'
import { demoInputs, demoPack } from '../../app/rig.ts'
import { packAt } from '../figures/marram.ts'

let pack: Pack
let preliminary: Inputs
let final: Inputs
beforeAll(async () => {
  pack = await demoPack()
  preliminary = await demoInputs(pack, 'preliminary')
  final = await demoInputs(pack, 'final')
})

const GROUND = { situation: { stand: 'push', icing: 'no' }, hasStations: false }
const pile = (sheets: readonly Inputs[], ground = GROUND) =>
  pileOf(
    pack,
    sheets.map((inputs) => ({ inputs })),
    ground,
  )
const ids = (sheets: readonly Inputs[]) => pile(sheets).map(({ id }) => id)
const CARDS = ['trimCard', 'speedCard', 'startCard', 'checklist']

function paper(id: string, sheets: readonly Inputs[] = [preliminary], ground = GROUND) {
  const found = pile(sheets, ground).find((one) => one.id === id)
  if (!found) throw new Error(`there is no ${id}`)
  return found
}
const text = (id: string, label: string, sheets?: readonly Inputs[]) =>
  paper(id, sheets).lines.find((line) => line.label === label)?.text

describe('the pile', () => {
  it('has the cards before any sheet, without an edition', () => {
    expect(ids([])).toEqual(CARDS)
    expect(pile([]).map(({ number }) => number)).toEqual([undefined, undefined, undefined, undefined])
  })

  it('has an edition of each paper for the first sheet, and newer ones above older ones', () => {
    expect(ids([preliminary])).toEqual(['loadSheet.1', 'takeoffData.1', 'departureSlip.1', ...CARDS])
    const both = ids([preliminary, final])
    expect(both.slice(0, 4)).toEqual(['loadSheet.2', 'loadSheet.1', 'takeoffData.2', 'takeoffData.1'])
  })

  it('issues no paper again on which nothing changed: the old edition stays beside the new ones of others', () => {
    const oldData = {
      ...final,
      stated: { ...final.stated, takeoffData: preliminary.stated?.takeoffData ?? {} },
    }
    expect(ids([preliminary, oldData])).toEqual([
      ...['loadSheet.2', 'loadSheet.1', 'takeoffData.1', 'departureSlip.2', 'departureSlip.1', ...CARDS],
    ])
    expect(ids([preliminary, preliminary])).toEqual(ids([preliminary]))
  })

  it('tells which editions the last sheet brought', () => {
    const sheets = [preliminary, final].map((inputs) => ({ inputs }))
    expect(newOnes(pack, sheets, GROUND).map(({ id }) => id)).toEqual([
      'loadSheet.2',
      'takeoffData.2',
      'departureSlip.2',
    ])
    expect(newOnes(pack, [...sheets, ...sheets.slice(1)], GROUND)).toEqual([])
  })

  it('has no paper of which the sheet says nothing', () => {
    const { loads, status } = preliminary
    expect(ids([{ status, loads, values: {} }])).toEqual(['loadSheet.1', ...CARDS])
    expect(ids([{ status, loads: {}, values: {}, lastMinute: [{ station: 'aftHold', weight: 30 }] }])).toEqual(CARDS)
  })

  it('has a paper whose only figures are constants as a card, and one with a status besides with every sheet', () => {
    const [first] = pack.papers
    if (!first) throw new Error('the demo has no papers')
    const { source: _, edition: __, ...blank } = first
    const lines = [{ heading: 'Flight' }, { figure: 'callsign' }, { label: 'Aircraft', text: 'QX-MRA' }] as const
    const papers = [
      { ...blank, id: 'flightCard', lines },
      { ...blank, id: 'cover', lines: [...lines, { status: 'Status' }] },
    ]
    const on = (sheets: readonly Inputs[]) =>
      pileOf(
        { ...pack, papers },
        sheets.map((inputs) => ({ inputs })),
        GROUND,
      )
    expect(on([]).map(({ id }) => id)).toEqual(['flightCard'])
    expect(on([])[0]?.lines.find(({ label }) => label === 'call sign')?.text).toBe('SALTMARSH 421')
    expect(on([preliminary, final]).map(({ id }) => id)).toEqual(['flightCard', 'cover.2', 'cover.1'])
  })

  it('is numbered by the sheet where the paper has a figure for it', () => {
    const third: Inputs = { ...final, values: { ...final.values, loadSheetEdition: 5 } }
    const numbers = pile([preliminary, final, third]).filter(({ paper: { id } }) => id === 'loadSheet')
    expect(numbers.map(({ number }) => number)).toEqual([5, 2, 1])
    expect(ids([final, third]).slice(0, 3)).toEqual(['loadSheet.2', 'loadSheet.1', 'takeoffData.1'])
  })

  it('marks each line that reads otherwise than on the edition before; on the first none', () => {
    const [second, first] = pile([preliminary, final]).filter(({ paper: { id } }) => id === 'loadSheet')
    const changed = (edition: typeof first) => edition?.lines.flatMap((line) => (line.changed ? line.label : []))
    expect(changed(first)).toEqual([])
    expect(changed(second)).toEqual([
      ...['Status', 'front cabin', 'rear cabin', 'passengers', 'persons on board', 'front hold', 'aft hold'],
      ...['zero fuel weight', 'fuel on board', 'takeoff weight', 'takeoff CG'],
    ])
  })

  it('prints structural limits beside the weights', () => {
    const limits = paper('loadSheet.1').lines.flatMap(({ label, limit }) => (limit ? `${label} ${limit}` : []))
    expect(limits).toEqual(['zero fuel weight max 26,480 kg', 'takeoff weight max 31,640 kg'])
  })

  it('keeps the time at which a sheet came', () => {
    expect(pileOf(pack, [{ inputs: preliminary, t: 4_000 }], GROUND)[0]).toMatchObject({ id: 'loadSheet.1', t: 4_000 })
  })
})

describe('a sheet in print', () => {
  it('holds what its source states, and what was entered beside it', () => {
    expect(text('loadSheet.1', 'zero fuel weight')).toBe('24,360 kg')
    expect(text('loadSheet.1', 'takeoff CG')).toBe('23.5 % MAC')
    expect(text('loadSheet.1', 'front cabin')).toBe('1,764 kg')
    expect(text('loadSheet.1', 'Status')).toBe('preliminary')
    expect(text('loadSheet.1', 'basic weight')).toBe('17,420 kg')
    expect(text('loadSheet.1', 'Aircraft')).toBe('QX-MRA')
    expect(text('takeoffData.1', 'V one')).toBe('126 kt')
    expect(text('departureSlip.1', 'Leaving')).toBe('pushed back by a tug')
  })

  it('prints a wrong total as it is stated, whatever the loads add up to', () => {
    const wrong = { ...preliminary, stated: { ...preliminary.stated, loadSheet: { zeroFuelWeight: 25_000 } } }
    expect(text('loadSheet.1', 'zero fuel weight', [wrong])).toBe('25,000 kg')
    expect(text('loadSheet.1', 'takeoff CG', [wrong])).toBe('')
  })

  it('never holds a value that only Otherseat computes', () => {
    const { stated: _, ...bare } = preliminary
    const printed = pile([bare]).flatMap(({ lines }) => lines)
    for (const label of ['zero fuel weight', 'takeoff weight', 'takeoff CG', 'V one', 'takeoff fan speed']) {
      expect(printed.find((line) => line.label === label)).toMatchObject({ text: '' })
    }
    expect(printed.some(({ label }) => label === 'takeoff trim')).toBe(false)
  })

  it('leaves out what stations give while they have voices', () => {
    const given = { ...preliminary, values: { ...preliminary.values, transponder: '4271' } }
    expect(text('departureSlip.1', 'transponder', [given])).toBe('4271')
    const quiet = paper('departureSlip.1', [given], { ...GROUND, hasStations: true })
    expect(quiet.lines.map(({ label }) => label)).not.toContain('transponder')
  })

  it('tells each last-minute change, by count or by weight', () => {
    const changed: Inputs = {
      ...preliminary,
      lastMinute: [
        { station: 'rearCabin', count: 2 },
        { station: 'aftHold', weight: -120 },
      ],
    }
    expect(text('loadSheet.1', 'Last-minute change')).toBe('none')
    expect(text('loadSheet.1', 'Last-minute change, rear cabin', [changed])).toBe('+2')
    expect(text('loadSheet.1', 'Last-minute change, aft hold', [changed])).toBe('-120 kg')
  })
})

describe('a card', () => {
  it('prints a table of two axes as rows and columns', () => {
    const [table] = paper('trimCard').tables
    expect(table).toMatchObject({ caption: 'takeoff trim, units', rowAxis: 'takeoff CG, % MAC', columnAxis: 'flap' })
    expect(table?.blocks).toHaveLength(1)
    expect(table?.blocks[0]).toMatchObject({ title: '', columns: ['7', '12', '19'] })
    expect(table?.blocks[0]?.rows[3]).toEqual({ head: '22', cells: ['5.3', '4.8', '4.1'] })
  })

  it('prints one of three in a block for each choice, every cell in its place', () => {
    const [table] = paper('speedCard').tables
    expect(table?.blocks.map(({ title }) => title)).toEqual(['flap 7', 'flap 12', 'flap 19'])
    expect(table?.blocks[1]?.columns).toEqual(['-1000', '3000', '7000'])
    expect(table?.blocks[1]?.rows[3]).toEqual({ head: '29000', cells: ['125', '126', '128'] })
  })

  it('prints one of a single axis as rows', () => {
    const table = paper('speedCard').tables[1]
    expect(table?.columnAxis).toBe('')
    expect(table?.blocks[0]?.rows[2]).toEqual({ head: '33', cells: ['-7'] })
  })

  it('prints the lists in order, without any value', () => {
    const { lists } = paper('checklist')
    expect(lists.map(({ name }) => name)).toEqual([
      ...['load figures', 'before start', 'push and start', 'engines running', 'ready for taxi'],
    ])
    expect(lists[0]?.rows[1]).toEqual({ type: 'item', challenge: 'takeoff trim', response: '_____ set' })
    expect(JSON.stringify(lists)).not.toMatch(/\d/)
  })

  it('prints what applies in this situation', () => {
    const own = paper('checklist', [], { ...GROUND, situation: { stand: 'own', icing: 'yes' } })
    const rows = own.lists.flatMap((list) => list.rows)
    expect(rows.find(({ challenge }) => challenge === 'ground crew')?.response).toBe('area clear')
    expect(rows.find(({ challenge }) => challenge === 'engine anti ice')?.response).toBe('both on')
  })
})

it.each(['marram', 'pair'])('the papers of %s say what its starts and checks are held to', async (name) => {
  const { watches, text } = await packAt(`checklists/${name}`).then((pack) => ({
    watches: pack.phases.flatMap(({ activities }) => activities).filter((one) => one.type === 'watch'),
    text: JSON.stringify(pack.papers?.flatMap(({ lines }) => lines)),
  }))
  expect(watches.length).toBeGreaterThan(1)
  const limits = watches.flatMap(({ calls, abnormal, interlocks = [] }) => [
    ...calls.flatMap(({ within, value }) => [within, value?.min || undefined, value?.max]),
    ...abnormal.map(({ again }) => again?.seconds),
    ...interlocks.map(({ seconds }) => seconds),
  ])
  for (const limit of new Set(limits.filter((one) => one !== undefined)))
    expect(text).toMatch(new RegExp(`\\b${limit}\\b`))
})

it.each(['marram', 'pair'])('a sheet of %s prints every value that its source states', async (name) => {
  const { figures, papers = [] } = await packAt(`checklists/${name}`)
  const stated = Object.entries(figures.declarations).flatMap(([figure, { stated }]) =>
    (stated?.sources ?? []).map((source) => ({ figure, source })),
  )
  const sheets = papers.filter(({ source }) => source !== undefined)
  const missing = stated.filter(({ figure, source }) =>
    sheets.some(
      (sheet) => sheet.source === source && !sheet.lines.some((line) => 'figure' in line && line.figure === figure),
    ),
  )
  expect(stated.length).toBeGreaterThan(1)
  expect(missing).toEqual([])
})

describe('what the newest edition leaves blank', () => {
  const without = (sheet: Inputs) => {
    const { v1: _, vr: __, ...data } = sheet.stated?.takeoffData ?? {}
    return { ...sheet, stated: { ...sheet.stated, takeoffData: data } }
  }
  const blanks = (sheets: readonly Inputs[]) =>
    blanksOf(
      pack,
      sheets.map((inputs) => ({ inputs })),
      GROUND,
    )

  it('is compared with nothing, whatever an old one stated', () => {
    const left = blanks([preliminary, without(final)])
    expect([...(left.get('takeoffData')?.figures ?? [])]).toEqual(expect.arrayContaining(['v1', 'vr']))
    expect(left.get('takeoffData')?.edition).toBe(2)
    const { figures, problems } = compute(pack.figures, asPrinted(preliminary, left))
    expect([figures.v1?.value, figures.v1?.sources, figures.vr?.sources]).toEqual([126, undefined, undefined])
    expect(figures.v2?.sources).toHaveLength(2)
    expect(problems).toEqual([])
  })

  it('is nothing where each edition prints all that it has a line for, or no sheet lies there', () => {
    expect(asPrinted(preliminary, blanks([preliminary, final]))).toBe(preliminary)
    expect(asPrinted(preliminary, blanks([]))).toBe(preliminary)
    expect(asPrinted(preliminary, blanks([without(preliminary), final]))).toBe(preliminary)
  })
})

describe.each(['marram', 'pair'])('the papers of %s', (name) => {
  it('say in which direction a trim is that they hold, since the answer has to', async () => {
    const { papers, figures } = await packAt(`checklists/${name}`)
    const isTrim = (table: string) => figures.basis?.tables[table]?.unit === 'trim'
    const cards = papers.filter(({ tables }) => tables.some(isTrim))
    expect(cards.length).toBeGreaterThan(0)
    for (const { notes, tables } of cards) {
      const words = notes.join(' ')
      expect(words).toMatch(/nose up/)
      const below = tables.filter(isTrim).some((table) => figures.basis?.tables[table]?.cells.some((cell) => cell < 0))
      if (below) expect(words).toMatch(/nose down/)
    }
  })
})
