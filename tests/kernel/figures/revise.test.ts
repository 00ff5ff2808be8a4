import fc from 'fast-check'
import { beforeAll, describe, expect, test } from 'vitest'
import { compute } from '../../../src/kernel/figures/compute.ts'
import type { FigureSet } from '../../../src/kernel/figures/model.ts'
import { changesBetween, grossErrors, itemsResting } from '../../../src/kernel/figures/revise.ts'
import type { Pack } from '../../../src/kernel/pack/checklist.ts'
import { itemsOf, listsOf } from '../../../src/kernel/pack/place.ts'
import { restsOf } from '../../../src/kernel/pack/rests.ts'
import { packAt, revision } from './marram.ts'

let pack: Pack
let sets: Record<'preliminary' | 'final' | 'amended', FigureSet>
beforeAll(async () => {
  pack = await packAt('checklists/marram')
  const set = (name: 'preliminary' | 'final' | 'amended') => compute(pack.figures, revision(pack, name))
  sets = { preliminary: set('preliminary'), final: set('final'), amended: set('amended') }
})

function reopened(before: FigureSet, after: FigureSet): string[] {
  const ground = { situation: { stand: 'push', icing: 'no' }, values: {} }
  const items = listsOf(pack).flatMap((list) => itemsOf(list, ground))
  const resting = items.map((item) => ({ id: item.id, restsOn: restsOf(item, ground) }))
  return itemsResting(resting, changesBetween(before, after))
}

describe('a revision', () => {
  test('with another load reopens what rests on weights, trim and speeds, and nothing else', () => {
    expect(reopened(sets.preliminary, sets.final)).toEqual([
      'loadFigures.zeroFuelWeight',
      'loadFigures.trim',
      'loadFigures.v1',
      'loadFigures.vr',
      'loadFigures.v2',
      'loadFigures.loadSheet',
      'beforeStart.fuel',
      'readyForTaxi.weight',
      'readyForTaxi.cg',
      'readyForTaxi.trim',
      'readyForTaxi.speeds',
    ])
  })

  test('that only moves unrounded values reopens nothing, and says which moved', () => {
    const { figures, ...rest } = sets.amended
    // The new number of its sheet is another matter.
    const { loadSheetEdition: _, ...others } = figures
    const { loadSheetEdition } = sets.final.figures
    const amended = { ...rest, figures: { ...others, ...(loadSheetEdition && { loadSheetEdition }) } }
    const changes = changesBetween(sets.final, amended)
    expect(changes.filter(({ spoken }) => spoken)).toEqual([])
    expect(changes.map(({ figure }) => figure)).toContain('vr')
    expect(reopened(sets.final, amended)).toEqual([])
    expect(reopened(sets.final, sets.amended)).toEqual(['loadFigures.loadSheet'])
  })

  test('that changes nothing has no changes', () => {
    expect(changesBetween(sets.final, sets.final)).toEqual([])
  })

  test('the first one changes every figure that has a value', () => {
    const changes = changesBetween(undefined, sets.final)
    const valued = Object.values(sets.final.figures).filter(({ value }) => value !== undefined)
    expect(changes.map(({ figure }) => figure)).toEqual(valued.map(({ name }) => name))
    expect(changes.every(({ from, spoken }) => from === undefined && spoken)).toBe(true)
  })

  test('its changes applied to the old values give the new ones, whatever the loads', () => {
    const inputs = revision(pack, 'final')
    const load = fc.integer({ min: 0, max: 1300 })
    const loads = fc.record({ frontCabin: load, middleCabin: load, rearCabin: load, frontHold: load, aftHold: load })
    fc.assert(
      fc.property(loads, loads, fc.integer({ min: 2000, max: 6500 }), (one, other, blockFuel) => {
        const before = compute(pack.figures, { ...inputs, stated: {}, loads: one })
        const after = compute(pack.figures, {
          ...inputs,
          stated: {},
          loads: other,
          values: { ...inputs.values, blockFuel },
        })
        const values = (set: FigureSet) =>
          Object.fromEntries(Object.values(set.figures).map(({ name, value }) => [name, value]))
        const applied = { ...values(before) }
        for (const { figure, from, to } of changesBetween(before, after)) {
          expect(applied[figure]).toBe(from)
          applied[figure] = to
        }
        expect(applied).toEqual(values(after))
      }),
      { numRuns: 200 },
    )
  })

  test('with a jump larger than the pack expects asks whether it is a slip', () => {
    const inputs = revision(pack, 'final')
    const slipped = compute(pack.figures, { ...inputs, values: { ...inputs.values, blockFuel: 3640 }, stated: {} })
    expect(grossErrors(pack.figures, sets.final, slipped)).toEqual([
      {
        code: 'revision.gross',
        short: 'fuel on board large change',
        severity: 'advice',
        message: 'fuel on board changes from 5,640 kg to 3,640 kg, more than 1,500 kg: is it a slip?',
      },
    ])
    expect(grossErrors(pack.figures, sets.preliminary, sets.final)).toEqual([])
  })
})
