import { describe, expect, it } from 'vitest'
import { readPackDir } from '../../src/cli/packDir.ts'
import { itemsOf, listsOf } from '../../src/kernel/pack/place.ts'
import { exchangesOf } from '../../src/kernel/run/talk/talk.ts'
import { drillTexts } from '../../src/packs/drillTexts.ts'
import { readPack } from '../../src/packs/read.ts'

const { pack: demo } = await readPackDir('checklists/marram')
if (!demo) throw new Error('the demo pack cannot be read')

describe('a pack cut down to what is due', () => {
  const drilled = {
    items: ['beforeStart.beacon', 'loadFigures.trim', 'nowhere.atAll'],
    turns: ['clearance.departure'],
    flows: ['figuresFlow'],
  }
  const drill = drillTexts(demo.texts, drilled)
  const { pack, problems } = readPack(drill.texts, 'none')

  it('is a pack without mistakes: an exchange that the station begins, one list in the order asked, a flow', () => {
    expect(problems).toEqual([])
    expect(pack?.phases.flatMap(({ activities }) => activities.map(({ id }) => id))).toEqual([
      'clearance',
      'drill',
      'figuresFlow',
    ])
    const [list] = pack ? listsOf(pack) : []
    expect(list && itemsOf(list, { situation: {}, values: {} }).map(({ challenge }) => challenge)).toEqual([
      'beacon',
      'takeoff trim',
    ])
    const [turn] = pack ? (exchangesOf(pack)[0]?.turns ?? []) : []
    expect(turn).toMatchObject({ id: 'clearance.departure' })
    expect(turn?.calls).toBeUndefined()
    expect(turn?.interlocks ?? []).toEqual([])
  })

  it('tells which item of the whole pack each one is', () => {
    expect(drill.items).toEqual({ 'drill.i1': 'beforeStart.beacon', 'drill.i2': 'loadFigures.trim' })
  })

  it('leaves what the turn gives to the station, and has the rest entered', () => {
    expect(drill.entered).toContain('pushDirection')
    expect(drill.entered).not.toContain('transponder')
    expect(pack?.figures.declarations.transponder?.given).toBeDefined()
    expect(pack?.figures.declarations.pushDirection).toMatchObject({ input: true })
    expect(pack?.figures.declarations.pushDirection?.given).toBeUndefined()
  })

  it('keeps the papers but the checklist, which would have all the other items', () => {
    expect(pack?.papers.map(({ id }) => id)).toEqual(demo.papers.map(({ id }) => id).filter((id) => id !== 'checklist'))
  })

  it('can be made of everything in the pack at once', () => {
    const all = {
      items: listsOf(demo).flatMap(({ entries }) => entries.flatMap((one) => (one.type === 'item' ? [one.id] : []))),
      turns: exchangesOf(demo).flatMap(({ turns }) =>
        turns.flatMap((one) => (one.elements.some(({ readBack }) => readBack) ? [one.id] : [])),
      ),
      flows: [],
    }
    expect(readPack(drillTexts(demo.texts, all).texts, 'none').problems).toEqual([])
  })
})
