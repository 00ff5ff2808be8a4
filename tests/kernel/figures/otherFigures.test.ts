import { beforeAll, describe, expect, test } from 'vitest'
import { compute } from '../../../src/kernel/figures/compute.ts'
import { deal } from '../../../src/kernel/figures/deal.ts'
import { otherFigures } from '../../../src/kernel/figures/otherFigures.ts'
import type { Pack } from '../../../src/kernel/pack/checklist.ts'
import { readBackOf } from '../../../src/kernel/pack/rests.ts'
import { isError } from '../../../src/kernel/problem.ts'
import { figuresOfStations } from '../../../src/kernel/run/talk/script.ts'
import { packAt } from './marram.ts'

describe.each([
  ['marram', 'takeoffTrim'],
  ['pair', 'takeoffWeight'],
])('other figures for %s', (id, figure) => {
  let pack: Pack
  beforeAll(async () => {
    pack = await packAt(`checklists/${id}`)
  })
  const valueIn = (inputs: Parameters<typeof compute>[1], name: string) =>
    compute(pack.figures, inputs).figures[name]?.value

  test('have another value where one is wanted, no problem, and what stations have said as it was', () => {
    const kept = figuresOfStations(pack)
    for (let seed = 0; seed < 6; seed++) {
      const departure = deal(pack.figures, readBackOf(pack), seed)
      if (!departure) throw new Error('the pack deals no departure')
      const before = departure.preliminary
      const drawn = otherFigures(pack.figures, before, { figures: [figure], kept }, seed)
      if (!drawn) throw new Error(`seed ${seed}: nothing was drawn`)
      expect(valueIn(drawn, figure), `seed ${seed}`).not.toBe(valueIn(before, figure))
      expect(compute(pack.figures, drawn).problems.filter(isError)).toEqual([])
      for (const name of kept) expect(valueIn(drawn, name), `${seed} ${name}`).toBe(valueIn(before, name))
      expect(otherFigures(pack.figures, before, { figures: [figure], kept }, seed)).toEqual(drawn)
      // Its sheets state what follows from it: there is no trap in it.
      const { sources = [] } = compute(pack.figures, drawn).figures[figure] ?? {}
      expect(sources.every(({ within }) => within)).toBe(true)
    }
  })

  test('are none where the pack has no rules for drawing', () => {
    const departure = deal(pack.figures, readBackOf(pack), 1)
    const { deal: _, ...basis } = pack.figures.basis ?? { units: {} as never }
    const without = { ...pack.figures, basis } as typeof pack.figures
    if (!departure) throw new Error('the pack deals no departure')
    expect(otherFigures(without, departure.preliminary, { figures: [figure], kept: [] }, 1)).toBeUndefined()
  })
})
