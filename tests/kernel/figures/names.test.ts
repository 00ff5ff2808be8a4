/** Names of a pack that every object has already: nothing but what the pack and its inputs say stands under them. */

import { expect, test } from 'vitest'
import { compute } from '../../../src/kernel/figures/compute.ts'
import type { Inputs } from '../../../src/kernel/figures/model.ts'
import type { FigureDeclaration, FigureModel } from '../../../src/kernel/figures/pack.ts'
import { changesBetween } from '../../../src/kernel/figures/revise.ts'

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
