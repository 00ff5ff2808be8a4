import { beforeAll, describe, expect, test } from 'vitest'
import { compute } from '../../../src/kernel/figures/compute.ts'
import type { FigureSet } from '../../../src/kernel/figures/model.ts'
import { type Neighbour, neighboursOf } from '../../../src/kernel/figures/neighbours.ts'
import type { Pack } from '../../../src/kernel/pack/checklist.ts'
import { packAt, revision } from './marram.ts'

let pack: Pack
let set: FigureSet
beforeAll(async () => {
  pack = await packAt('checklists/marram')
  set = compute(pack.figures, revision(pack, 'final'))
})

const of = (name: string, cause: Neighbour['cause']) =>
  neighboursOf(pack.figures, set, name).filter((one) => one.cause === cause)

describe('the neighbours of a value', () => {
  test('of the rotate speed are the rows around its weight and the other flaps', () => {
    // Takeoff weight 30,082 kg at flap 12: between the rows 29,000 (131) and 32,000 (138); it is 134.
    expect(set.figures.vr?.value).toBe(134)
    expect(of('vr', 'neighbourRow')).toEqual([
      { cause: 'neighbourRow', detail: 'rotate speed at takeoff weight 26,000 kg', value: 124 },
      { cause: 'neighbourRow', detail: 'rotate speed at takeoff weight 29,000 kg', value: 131 },
      { cause: 'neighbourRow', detail: 'rotate speed at takeoff weight 32,000 kg', value: 138 },
    ])
    expect(of('vr', 'otherFlap').map(({ detail, value }) => [detail, value])).toEqual([
      ['rotate speed at flap 7', 140],
      ['rotate speed at flap 19', 129],
    ])
  })

  test('of a sum come through from the look-ups that it adds', () => {
    expect(of('v1', 'otherFlap').map(({ detail }) => detail)).toEqual(['V one at flap 7', 'V one at flap 19'])
    expect(of('v1', 'neighbourRow').map(({ detail }) => detail)).toContain('V one by runway at runway 33')
    expect(neighboursOf(pack.figures, set, 'v1').every(({ value }) => value !== set.figures.v1?.value)).toBe(true)
  })

  test('of a weight or a setting is its value in the other unit', () => {
    expect(of('zeroFuelWeight', 'otherUnit')).toEqual([{ cause: 'otherUnit', detail: 'lb', value: 54280 }])
    expect(of('altimeter', 'otherUnit')).toEqual([{ cause: 'otherUnit', detail: 'inHg', value: 29.8 }])
  })

  test('of text, of a missing value and of an unknown name there are none', () => {
    for (const name of ['runway', 'windGust', 'nothing']) expect(neighboursOf(pack.figures, set, name)).toEqual([])
  })
})
