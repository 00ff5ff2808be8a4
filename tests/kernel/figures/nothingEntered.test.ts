import { describe, expect, test } from 'vitest'
import { nothingEntered } from '../../../src/kernel/figures/nothingEntered.ts'
import type { FigureModel } from '../../../src/kernel/figures/pack.ts'
import { packAt } from './marram.ts'

const { figures } = await packAt('checklists/marram')

describe('a draft', () => {
  test('without a value and without a load says what is missing', () => {
    expect(nothingEntered(figures, { values: {}, loads: {} })).toMatchObject({
      code: 'inputs.empty',
      message: expect.stringMatching(
        /^Nothing is entered yet\. Missing: fuel on board, taxi fuel, trip fuel, runway and \d+ more\. /,
      ),
    })
  })

  test.each([
    ['one value', { values: { taxiFuel: 180 }, loads: {} }],
    ['one load', { values: {}, loads: { aftHold: 300 } }],
    ['a load of nothing', { values: {}, loads: { aftHold: 0 } }],
  ])('with %s goes on', (_, draft) => {
    expect(nothingEntered(figures, draft)).toBeUndefined()
  })

  test('goes on in a pack that asks for nothing', () => {
    const none: FigureModel = { ...figures, declarations: {}, stations: [] }
    expect(nothingEntered(none, { values: {}, loads: {} })).toBeUndefined()
  })

  test('does not miss what stations give', () => {
    const given = Object.fromEntries(Object.entries(figures.declarations).filter(([, one]) => one.given !== undefined))
    expect(Object.keys(given).length).toBeGreaterThan(0)
    expect(nothingEntered({ ...figures, declarations: given, stations: [] }, { values: {}, loads: {} })).toBeUndefined()
  })
})
