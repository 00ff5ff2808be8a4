/** What is told in a run of a figure without a value, and of a value in another unit. */

import { expect, it } from 'vitest'
import { viewOf } from '../../src/app/view/view.ts'
import { authored, called, flown, sheet } from './authored.ts'

const TABLED = authored({
  figures: `
  altitude: {label: pressure altitude, kind: integer, unit: ft, entered: {}}
  flap: {label: flap, kind: choice, options: {"0": [up], "10": [ten]}, entered: {}}
  torque: {label: torque, kind: integer, unit: ft lb, derived: {by: lookUp, table: torque, at: {altitude: altitude, flap: flap}}}
`,
  tables: `
tables:
  torque:
    label: torque to set
    unit: ft lb
    axes: [{name: altitude, unit: ft, at: [0, 8000]}, {name: flap, choices: ["0", "10"]}]
    cells: [[1750, 1700], [1600, "---"]]
`,
  entries: `
- {item: torque, challenge: torque, response: <torque>}
- {item: flap, challenge: flap, response: <flap>}`,
})

it('a cell without a value is told by its table and entry, but for what an item asks', () => {
  const run = flown(TABLED, sheet({ altitude: 8000, flap: '10' })).happen(called())
  expect(run.said()).toContain('No figure yet for torque. See the figures page.')
  expect(viewOf(TABLED, run.state).hint).toBe(
    'No figure for torque: table torque to set has nothing at pressure altitude 8,000 ft, this flap. Change what it rests on, or pass the item.',
  )
})

it('what was not entered is still to be entered', () => {
  const run = flown(TABLED, sheet({ flap: '10' })).happen(called())
  expect(run.said()).toContain('Enter it on the figures page.')
  expect(viewOf(TABLED, run.state).hint).toBe('No figure yet for torque: enter it on the figures page.')
})

const GAUGES = authored({
  figures: `
  itt: {label: turbine temperature, kind: integer, unit: C, read: {max: 850}}
  oil: {label: oil pressure, kind: integer, unit: psi, read: {min: 40}}
`,
  entries: `
- {item: itt, challenge: turbine temperature, response: <itt>}
- {item: oil, challenge: oil pressure, response: <oil>}`,
})

it('a reading in another unit is asked for in its own', () => {
  const run = flown(GAUGES).happen(called()).hear('eight hundred fahrenheit')
  expect(run.said()).toContain('Say it in degrees celsius.')
  run.hear('eight hundred degrees')
  expect(run.hear('sixty volts').said()).toContain('Say it in pounds.')
})
