import { beforeAll, describe, expect, test } from 'vitest'
import { compute, figureOf } from '../../../src/kernel/figures/compute.ts'
import { type Departure, deal } from '../../../src/kernel/figures/deal.ts'
import type { FigureSet } from '../../../src/kernel/figures/model.ts'
import { showValue } from '../../../src/kernel/kinds/table.ts'
import type { Pack } from '../../../src/kernel/pack/checklist.ts'
import { readBackOf } from '../../../src/kernel/pack/rests.ts'
import { seeded } from '../../../src/kernel/seeded.ts'
import { cases } from '../../cases.ts'
import { dealtOf, settled } from './dealt.ts'
import { packAt } from './marram.ts'

const DEPARTURES = cases(1000)
const SHEETS = ['wrongTotal', 'oldSheet']

const shown = (set: FigureSet, name: string) => {
  const figure = figureOf(set, name)
  return figure && showValue(figure)
}

describe.each([
  ['marram', ['oldSheet', 'otherRunway', 'staleTrim', 'wrongTotal']],
  ['pair', ['otherRunway', 'staleTrim', 'wrongTotal']],
])('a thousand dealt departures of %s', (id, traps) => {
  let pack: Pack
  let readBack: string[]
  let dealt: Departure[]
  beforeAll(async () => {
    pack = await packAt(`checklists/${id}`)
    readBack = readBackOf(pack)
    dealt = dealtOf(pack, DEPARTURES)
  })

  test('have every kind of trap that the pack has among them, each often', () => {
    const kinds = dealt.map(({ trap }) => trap.kind)
    expect([...new Set(kinds)].sort()).toEqual(traps)
    for (const trap of traps) {
      expect(kinds.filter((kind) => kind === trap).length, trap).toBeGreaterThan(DEPARTURES / traps.length / 2)
    }
  })

  test('are consistent and within limits, before and after', () => {
    for (const departure of dealt) {
      expect(compute(pack.figures, departure.preliminary).problems, `seed ${departure.seed}`).toEqual([])
      expect(compute(pack.figures, settled(pack, departure)).problems, `seed ${departure.seed}`).toEqual([])
      expect([departure.preliminary.status, departure.final.status]).toEqual(['preliminary', 'final'])
    }
  })

  test('have a wrong total or an old sheet that the cross-check of sources catches, and only where that is the trap', () => {
    for (const { seed, trap, final } of dealt) {
      const codes = compute(pack.figures, final).problems.map(({ code }) => code)
      expect(codes, `seed ${seed}`).toEqual(SHEETS.includes(trap.kind) ? ['source.differs'] : [])
    }
  })

  test('have no wind from behind on the runway in use, and a wrong total that is worth noticing', () => {
    for (const departure of dealt) {
      const { seed, trap, preliminary, final } = departure
      const honest = compute(pack.figures, settled(pack, departure)).figures
      for (const { figures } of [compute(pack.figures, preliminary), { figures: honest }]) {
        expect(Number(figures.headwind?.value), `seed ${seed}`).toBeGreaterThanOrEqual(0)
      }
      if (trap.kind !== 'wrongTotal') continue
      const name = id === 'pair' ? 'takeoffWeight' : 'zeroFuelWeight'
      const [right, stated] = [Number(honest[name]?.exact), Number(final.stated?.loadSheet?.[name])]
      // A load sheet's own rounding may take a little of it.
      expect(Math.abs(stated - right) / right, `seed ${seed}`).toBeGreaterThan(0.0095)
    }
  })

  test('read back other values in the final figures exactly where the trap is', () => {
    for (const departure of dealt) {
      const [before, after] = [departure.preliminary, settled(pack, departure)].map((one) => compute(pack.figures, one))
      const other = readBack.filter((name) => before && after && shown(before, name) !== shown(after, name))
      expect(other, `seed ${departure.seed}`).toEqual(departure.trap.figures)
      const rule = pack.figures.basis?.deal?.traps.find(({ kind }) => kind === departure.trap.kind)
      expect(other, `seed ${departure.seed}`).toContain(rule?.figure)
      // What moves with it is what the pack names as moving with it.
      expect([rule?.figure, ...(rule?.also ?? [])], `seed ${departure.seed}`).toEqual(expect.arrayContaining(other))
    }
  })

  test('tell their trap in the labels and units of the pack, from the old value to the new one', () => {
    const { basis, declarations, stations } = pack.figures
    const labels = stations.map(({ label }) => label).join('|')
    const load = `[\\d,]+ ${basis?.units.weight}`
    const how = {
      staleTrim: `^${load} moved from (${labels}) to (${labels}), the totals stayed`,
      wrongTotal: `^the load at (${labels}) changed by -?${load}, the sheet still states the old total`,
      otherRunway: '^the runway changed',
      oldSheet: '^the runway changed, the takeoff data is still for the old one',
    }
    for (const { trap } of dealt) {
      const figure = basis?.deal?.traps.find(({ kind }) => kind === trap.kind)?.figure ?? ''
      const value = trap.kind === 'staleTrim' ? '\\d+\\.\\d (up|down)' : '.+'
      expect(trap.told).toMatch(
        new RegExp(`${how[trap.kind]}: ${declarations[figure]?.label} went from ${value} to ${value}$`),
      )
    }
  })

  test('differ from one another', () => {
    const distinct = new Set(dealt.map(({ preliminary }) => JSON.stringify(preliminary)))
    expect(distinct.size).toBe(DEPARTURES)
  })

  test('are the same again by the same seed', () => {
    for (const departure of dealt.slice(0, 100)) {
      expect(deal(pack.figures, readBack, departure.seed)).toEqual(departure)
    }
    for (const seed of [0, 7, 2 ** 31, 123456789]) {
      expect(deal(pack.figures, readBack, seed)).toEqual(deal(pack.figures, readBack, seed))
    }
    expect(deal(pack.figures, readBack, 1)).not.toEqual(deal(pack.figures, readBack, 2))
  })
})

test('a pack without rules deals nothing', () => {
  expect(deal({ declarations: {}, stations: [] }, [], 1)).toBeUndefined()
})

test('seeded numbers are spread evenly and repeat by seed', () => {
  const chance = seeded(42)
  const counts = Array<number>(10).fill(0)
  for (let i = 0; i < 10000; i++) {
    const drawn = chance.below(10)
    counts[drawn] = (counts[drawn] ?? 0) + 1
  }
  // A fair count is 1,000 with a standard deviation of 30; five of them either way.
  for (const count of counts) expect(Math.abs(count - 1000)).toBeLessThan(150)
  expect(seeded(42).next()).toBe(seeded(42).next())
})
