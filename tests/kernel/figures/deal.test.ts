import { beforeAll, describe, expect, test, vi } from 'vitest'
import { compute, figureOf } from '../../../src/kernel/figures/compute.ts'
import { type Departure, deal } from '../../../src/kernel/figures/deal.ts'
import type { FigureSet, Inputs } from '../../../src/kernel/figures/model.ts'
import { seeded } from '../../../src/kernel/figures/seeded.ts'
import { sayValue } from '../../../src/kernel/kinds/table.ts'
import { judge } from '../../../src/kernel/response/judge.ts'
import type { Pack } from '../../../src/kernel/run/checklist.ts'
import { readBackOf } from '../../../src/kernel/run/rests.ts'
import { packAt } from './marram.ts'

// Many cases: how long they take says nothing.
vi.setConfig({ testTimeout: 240_000, hookTimeout: 240_000 })

const DEPARTURES = 1000

let pack: Pack
let readBack: string[]
let dealt: Departure[]
beforeAll(async () => {
  pack = await packAt('checklists/marram')
  readBack = readBackOf(pack)
  dealt = Array.from({ length: DEPARTURES }, (_, seed) => deal(pack.figures, readBack, seed)).filter(
    (one) => one !== undefined,
  )
})

/** The final figures once every difference from a wrong or old sheet is settled on our own value. */
function settled({ final }: Departure): Inputs {
  const open = Object.values(compute(pack.figures, final).figures).filter(({ sources }) =>
    sources?.some(({ within }) => !within),
  )
  let inputs = final
  for (const one of open) inputs = settle(inputs, one.name)
  // What rested on an open one could not be compared before.
  const next = Object.values(compute(pack.figures, inputs).figures).filter(
    ({ value, sources }) => value === undefined && sources,
  )
  for (const one of next) inputs = settle(inputs, one.name)
  return inputs
}

function settle(inputs: Inputs, name: string): Inputs {
  const use = pack.figures.declarations[name]?.input ? 'entered' : 'computed'
  return { ...inputs, settled: { ...inputs.settled, [name]: { use, reason: 'looked up again' } } }
}

/** What a pilot who parrots the preliminary figures is told for each figure, judged against the final ones. */
function refused(before: FigureSet, after: FigureSet): string[] {
  return readBack.filter((name) => {
    const [old, now] = [figureOf(before, name), figureOf(after, name)]
    if (!old || !now) return false
    const verdict = judge({ response: `<${name}>`, figures: { [name]: now }, heard: sayValue(old, 'plain') }).verdict
    return verdict !== 'correct'
  })
}

describe('a thousand dealt departures', () => {
  test('are all dealt, with every kind of trap among them', () => {
    expect(dealt.length).toBe(DEPARTURES)
    expect([...new Set(dealt.map(({ trap }) => trap.kind))].sort()).toEqual([
      'oldSheet',
      'otherRunway',
      'staleTrim',
      'wrongTotal',
    ])
  })

  test('are consistent and within limits, before and after', () => {
    for (const departure of dealt) {
      expect(compute(pack.figures, departure.preliminary).problems, `seed ${departure.seed}`).toEqual([])
      expect(compute(pack.figures, settled(departure)).problems, `seed ${departure.seed}`).toEqual([])
      expect([departure.preliminary.status, departure.final.status]).toEqual(['preliminary', 'final'])
    }
  })

  test('have a wrong total or an old sheet that the cross-check of sources catches, and only where that is the trap', () => {
    for (const { seed, trap, final } of dealt) {
      const codes = compute(pack.figures, final).problems.map(({ code }) => code)
      expect(codes, `seed ${seed}`).toEqual(['wrongTotal', 'oldSheet'].includes(trap.kind) ? ['source.differs'] : [])
    }
  })

  test('fail a pilot who parrots the preliminary figures exactly where the trap is', () => {
    for (const departure of dealt) {
      const before = compute(pack.figures, departure.preliminary)
      const after = compute(pack.figures, settled(departure))
      expect(refused(before, after), `seed ${departure.seed}`).toEqual(departure.trap.figures)
      expect(departure.trap.figures.length).toBeGreaterThan(0)
    }
  })

  test('differ from one another', () => {
    const distinct = new Set(dealt.map(({ preliminary }) => JSON.stringify(preliminary)))
    expect(distinct.size).toBe(DEPARTURES)
  })
})

test('the same seed deals the same departure', () => {
  for (const departure of dealt.slice(0, 100)) {
    expect(deal(pack.figures, readBack, departure.seed)).toEqual(departure)
  }
  for (const seed of [0, 7, 2 ** 31, 123456789]) {
    expect(deal(pack.figures, readBack, seed)).toEqual(deal(pack.figures, readBack, seed))
  }
  expect(deal(pack.figures, readBack, 1)).not.toEqual(deal(pack.figures, readBack, 2))
})

test('a pack without rules deals nothing', () => {
  expect(deal({ declarations: {}, stations: [] }, [], 1)).toBeUndefined()
})

test('the second pack deals departures too', async () => {
  const pair = await packAt('checklists/pair')
  const names = readBackOf(pair)
  for (let seed = 0; seed < 50; seed++) {
    const departure = deal(pair.figures, names, seed)
    expect(departure && compute(pair.figures, departure.preliminary).problems, `seed ${seed}`).toEqual([])
  }
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
