/** What is over its limit and by how much: fixed limits, and figures that limit others. */

import { beforeAll, describe, expect, test } from 'vitest'
import { compute } from '../../../src/kernel/figures/compute.ts'
import { limitChecks } from '../../../src/kernel/figures/limits.ts'
import type { Inputs } from '../../../src/kernel/figures/model.ts'
import type { Pack } from '../../../src/kernel/pack/checklist.ts'
import { packAt, revision } from './marram.ts'
import { figuresOf, modelOf } from './modelOf.ts'

const weight = (more: object) => ({ kind: 'weight', unit: 'kg', ...more })
const MODEL = modelOf({
  figures: {
    landing: weight({ label: 'landing weight', entered: {}, limits: { max: [28310, 'wetLimit'] } }),
    wetLimit: weight({ label: 'wet runway limit', entered: { required: false } }),
    fuel: weight({ label: 'landing fuel', entered: {}, limits: { min: 'reserve' } }),
    reserve: { label: 'final reserve', kind: 'weight', unit: 'lb', constant: 1000 },
  },
})
const told = (values: Inputs['values']) =>
  figuresOf(MODEL, { values }).problems.map(({ code, message, short }) => ({ code, message, short }))

describe('a limit', () => {
  test('that is kept says nothing, and tells what is left', () => {
    expect(told({ landing: 28_310, fuel: 600 })).toEqual([])
    const { figures } = figuresOf(MODEL, { values: { landing: 28_000, fuel: 600 } })
    expect(limitChecks(MODEL, figures)[0]).toMatchObject({ label: 'landing weight', limit: 28_310, margin: 310 })
  })

  test('that is broken names what is over and by how much, and for the voice what, without a value', () => {
    expect(told({ landing: 28_630, fuel: 600 })).toEqual([
      {
        code: 'limit.exceeded',
        message: 'landing weight over its limit by 320 kg (28,630 kg, limit 28,310 kg)',
        short: 'landing weight over limit',
      },
    ])
  })

  test('that is a figure is named, in the unit of what it limits; one without a value limits nothing', () => {
    // 1,000 lb are 453.592 kg (by definition of the pound).
    expect(told({ landing: 27_000, wetLimit: 26_500, fuel: 400 }).map(({ message }) => message)).toEqual([
      'landing weight over the wet runway limit by 500 kg (27,000 kg, limit 26,500 kg)',
      'landing fuel below the final reserve by 53.592 kg (400 kg, limit 453.592 kg)',
    ])
  })
})

describe('the Marram', () => {
  let pack: Pack
  let final: Inputs
  beforeAll(async () => {
    pack = await packAt('checklists/marram')
    final = revision(pack, 'final')
  })
  const with_ = (values: Inputs['values'], loads: Inputs['loads'] = {}): string[] => {
    const { stated: _, ...sheet } = final
    const inputs = { ...sheet, values: { ...sheet.values, ...values }, loads: { ...sheet.loads, ...loads } }
    return compute(pack.figures, inputs).problems.flatMap(({ short }) => short ?? [])
  }

  test('weighs each weight against its structural maximum, and takeoff against what performance allows', () => {
    const { figures } = compute(pack.figures, final)
    const checks = limitChecks(pack.figures, figures)
    const weights = checks.filter(({ measure, bound }) => measure === 'kg' && bound === 'max')
    expect(weights.map(({ label, named }) => `${label}: ${named}`)).toEqual([
      'zero fuel weight: its limit',
      'ramp weight: its limit',
      'takeoff weight: its limit',
      'takeoff weight: the performance limited weight',
      'landing weight: its limit',
    ])
    expect(checks.every(({ margin }) => margin > 0)).toBe(true)
  })

  test.each<[string, Inputs['values'], Inputs['loads'], string]>([
    [
      'a hot day with much flap',
      { temperature: 41, takeoffFlap: '19', elevation: 4000 },
      {},
      'takeoff weight over limit',
    ],
    ['a short trip with much fuel', { blockFuel: 6700, tripFuel: 600 }, {}, 'landing weight over limit'],
    ['too little fuel', { blockFuel: 4600 }, {}, 'fuel on board below limit'],
    ['a reserve flown into', { blockFuel: 3700 }, {}, 'landing fuel below limit'],
    ['a short runway', { runway: '33', takeoffFlap: '7' }, {}, 'stop distance over limit'],
    [
      'a full cabin and holds',
      {},
      { frontCabin: 2600, middleCabin: 2600, rearCabin: 2600, frontHold: 700 },
      'zero fuel weight over limit',
    ],
  ])('with %s warns', (_, values, loads, short) => {
    expect(with_(values, loads)).toContain(short)
    expect(with_({})).toEqual([])
  })
})
