import { expect, test } from 'vitest'
import { loadProblems, valueProblems } from '../../../src/kernel/figures/entered.ts'
import { packAt } from './marram.ts'

const { figures } = await packAt('checklists/marram')

test.each<[string, number | string, string[]]>([
  ['taxiFuel', Number.NaN, ['taxi fuel should be a number in kg']],
  ['taxiFuel', Number.POSITIVE_INFINITY, ['taxi fuel is larger than anything of an aircraft']],
  ['taxiFuel', 1e300, ['taxi fuel is larger than anything of an aircraft']],
  ['taxiFuel', 'two\nlines', ['taxi fuel "two\\nlines" should be a number in kg']],
  ['loadSheetEdition', 5.64, ['load sheet edition 5.64 should be a whole number']],
  ['loadSheetEdition', '5.6.4', ['load sheet edition "5.6.4" should be a number']],
  [
    'transponder',
    `${'4'.repeat(80)}`,
    [`transponder "${'4'.repeat(60)}..." (80 characters) should be 4 digits from 0 to 7 (in quotes)`],
  ],
])('%s entered as %s is told without what it cannot show', (name, value, told) => {
  const declaration = figures.declarations[name]
  expect(declaration && valueProblems(declaration, value).map(({ message }) => message)).toEqual(told)
})

test.each([
  [Number.NaN, 'load aft hold should be a number in kg'],
  [Number.NEGATIVE_INFINITY, 'load aft hold is larger than anything of an aircraft'],
])('a load of %s is told in words', (load, told) => {
  const station = figures.stations.find(({ name }) => name === 'aftHold')
  expect(station && loadProblems(station, load, 'kg').map(({ message }) => message)).toEqual([told])
})
