/** Names of a pack that every object has already: nothing but what the pack and its inputs say stands under them. */

import { expect, test } from 'vitest'
import { changesBetween } from '../../../src/kernel/figures/revise.ts'
import { figuresOf, modelOf } from './modelOf.ts'

const weight = { kind: 'weight', unit: 'kg' }
const model = modelOf({
  units: { weight: 'kg', arm: 'm' },
  stations: { valueOf: { label: 'hold', arm: 9 } },
  figures: {
    constructor: { ...weight, label: 'fuel', entered: {}, stated: { sources: ['toString', 'sheet'], tolerance: 0 } },
    total: { ...weight, label: 'total', derived: { by: 'sum', of: ['constructor', 100] } },
  },
})

test('a figure called "constructor" that is not entered is missing', () => {
  const { problems, figures } = figuresOf(model)
  expect(problems.map(({ code }) => code)).toEqual(['input.missing'])
  expect(figures.total?.why[0]?.text).toBe('waits for fuel')
})

test('nobody states it whose name only happens to be that of what every object has', () => {
  const { figures } = figuresOf(model, { values: { constructor: 500 }, stated: { sheet: {} } })
  expect(figures.total?.value).toBe(600)
  expect(figures.constructor).not.toHaveProperty('sources')
})

test('it is new where there was no such figure before', () => {
  const before = figuresOf(modelOf({ figures: { other: { ...weight, label: 'other', constant: 1 } } }))
  const after = figuresOf(model, { values: { constructor: 500 } })
  expect(changesBetween(before, after).find(({ figure }) => figure === 'constructor')).toMatchObject({
    from: undefined,
    to: 500,
  })
})
