/** Takeoff trim from CG: the one published example, and the direction in which it goes. */

import { expect, test } from 'vitest'
import { derived, figuresOf, modelOf } from '../kernel/figures/modelOf.ts'

test('a CG of 8.0 percent MAC, looked up in a chart that says 7 3/4 units nose up there, is 7 3/4 units', () => {
  // WBH large-aircraft chapter, "determining the correct stabilizer trim setting", from memory: the CG is arithmetic
  // (10.7 of 134.0 in), the 7 3/4 is a reading of the chart. The table has that one point and two invented ones around it;
  // what is checked is the way from arms through percent MAC to a trim in quarters, not the chart itself: no chart of an
  // aircraft is published with enough of its points to check the interpolation against.
  const model = modelOf({
    mac: { leadingEdge: 625, length: 134 },
    figures: {
      cg: derived('percentMac', { by: 'percentMac', cg: 635.7 }),
      trim: {
        label: 'trim',
        kind: 'trim',
        decimals: 2,
        round: { step: 0.25, direction: 'nearest' },
        derived: { by: 'lookUp', table: 'trim', at: { cg: 'cg' } },
      },
    },
    tables: {
      trim: {
        label: 'trim',
        unit: 'trim',
        axes: [{ name: 'cg', unit: 'percentMac', at: [6, 8, 10] }],
        cells: [8.25, 7.75, 7.25],
      },
    },
  })
  expect(figuresOf(model).figures.trim?.value).toBe(7.75)
})
