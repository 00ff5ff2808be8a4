/** Names that every object has already: packs may not use them, and the figures do not rest on that. */

import { expect, test } from 'vitest'
<<<<<<< HEAD
import type { FigureModel } from '../../../src/kernel/figures/pack.ts'
=======
import { compute } from '../../../src/kernel/figures/compute.ts'
import type { Inputs } from '../../../src/kernel/figures/model.ts'
import type { FigureDeclaration, FigureModel } from '../../../src/kernel/figures/pack.ts'
>>>>>>> kinds
import { changesBetween } from '../../../src/kernel/figures/revise.ts'

<<<<<<< HEAD
const weight = { kind: 'weight', unit: 'kg' }
const NAMES = new Map([
  ['fuelHere', 'constructor'],
  ['ownSheet', 'toString'],
  ['holdHere', 'valueOf'],
])
const named = modelOf({
  units: { weight: 'kg', arm: 'm' },
  stations: { holdHere: { label: 'hold', arm: 9 } },
  figures: {
    fuelHere: { ...weight, label: 'fuel', entered: {}, stated: { sources: ['ownSheet', 'sheet'], tolerance: 0 } },
    total: { ...weight, label: 'total', derived: { by: 'sum', of: ['fuelHere', 100] } },
  },
})
const model: FigureModel = JSON.parse(JSON.stringify(named).replace(/\w+(?=")/g, (name) => NAMES.get(name) ?? name))
=======
/** Made here, since a pack with such names is refused. */
const weight = (name: string, more: Partial<FigureDeclaration>): FigureDeclaration => ({
  ...{ name, label: name, spec: { kind: 'weight', unit: 'kg' }, measure: 'kg', alsoCalled: [], input: true },
  ...more,
})
const modelWith = (...declarations: readonly FigureDeclaration[]): FigureModel => ({
  declarations: Object.fromEntries(declarations.map((each) => [each.name, each])),
  stations: [{ name: 'valueOf', label: 'hold', arm: 9 }],
})
const total = { by: 'sum', takes: { of: ['constructor', 100] }, uses: ['constructor'] }
const model = modelWith(
  weight('constructor', { stated: { sources: ['toString', 'sheet'], tolerance: 0 } }),
  weight('total', { input: false, derived: total }),
)
const figuresOf = (of: FigureModel, given: Partial<Inputs> = {}) =>
  compute(of, { status: 'final', values: {}, loads: {}, ...given })
>>>>>>> kinds

test('a figure called "constructor" that is not entered is missing', () => {
  const { problems, figures } = figuresOf(model)
  expect(problems.map(({ code }) => code)).toEqual(['input.missing'])
  expect(figures.total?.why[0]?.text).toBe('waits for constructor')
})

test('nobody states it whose name only happens to be that of what every object has', () => {
  const { figures } = figuresOf(model, { values: { constructor: 500 }, stated: { sheet: {} } })
  expect(figures.total?.value).toBe(600)
  expect(figures.constructor).not.toHaveProperty('sources')
})

test('it is new where there was no such figure before', () => {
  const before = figuresOf(modelWith(weight('other', { constant: 1 })))
  const after = figuresOf(model, { values: { constructor: 500 } })
  expect(changesBetween(before, after).find(({ figure }) => figure === 'constructor')).toMatchObject({
    from: undefined,
    to: 500,
  })
})
