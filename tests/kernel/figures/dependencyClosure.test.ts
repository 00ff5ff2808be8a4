import { expect, test } from 'vitest'
import { dependencyClosure } from '../../../src/kernel/figures/dependencyClosure.ts'
import { derived, modelOf } from './modelOf.ts'

const weight = (derivation: object) => ({ label: 'w', kind: 'weight', unit: 'lb', derived: derivation })
const model = modelOf({
  figures: {
    fuel: { label: 'fuel', kind: 'weight', unit: 'lb', entered: {} },
    taxi: { label: 'taxi', kind: 'weight', unit: 'lb', entered: {} },
    empty: { label: 'empty', kind: 'weight', unit: 'lb', entered: {} },
    takeoffFuel: weight({ by: 'difference', of: 'fuel', less: ['taxi'] }),
    ramp: weight({ by: 'sum', of: ['empty', 'fuel'] }),
    takeoff: weight({ by: 'sum', of: ['empty', 'takeoffFuel'] }),
    cg: derived('in', { by: 'centreOfGravity', weight: 'takeoff', moment: 4000 }),
  },
})

test('a figure depends on all that it is computed from, and all that is computed from it depends on it', () => {
  expect([...dependencyClosure(model, 'takeoffFuel')].sort()).toEqual(['cg', 'fuel', 'takeoff', 'taxi'])
  expect([...dependencyClosure(model, 'cg')].sort()).toEqual(['empty', 'fuel', 'takeoff', 'takeoffFuel', 'taxi'])
  // The ramp weight shares the fuel with it, but neither is computed from the other.
  expect(dependencyClosure(model, 'takeoff').has('ramp')).toBe(false)
})
