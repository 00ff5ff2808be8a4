/** What stands beside the text of a pack: conditions in words, and readings that have limits instead of a value. */

import { expect, it } from 'vitest'
import { casesBeside, exampleOf, itemBeside, listBeside, tryAnswer } from '../../src/app/view/packBeside.ts'
import { authored } from '../packs/authored.ts'

const PACK = authored({
  pack: `
situations:
  surface:
    label: Surface
    initial: dry
    options:
      dry: {label: dry, say: [runway dry]}
      wet: {label: wet, say: [runway wet]}
`,
  figures: `
  oat: {label: outside air temperature, kind: temperature, unit: C, entered: {}}
  volts: {label: bus voltage, kind: decimal, decimals: 1, unit: V, min: 0, max: 40, read: {min: 27.5, max: 29}}
  off: {label: time off, kind: time, read: {}}
`,
  entries: `
- {item: heat, challenge: heat, response: "heat on", when: {oat: {below: 5}}, states: [["on"], ["off"]]}
- {item: sand, challenge: sand, response: "aboard", when: {any: [{surface: wet}, {not: {oat: {atLeast: 0}}}]}}
- {item: volts, challenge: bus, response: "<volts>"}
- {item: off, challenge: time off, response: "<off>"}
`,
})
const EXAMPLE = exampleOf(PACK, {})
const list = () => listBeside(PACK, 'beforeStart')
const item = (name: string) => {
  const found = itemBeside(PACK, 'beforeStart', name)
  if (!found) throw new Error(`there is no item ${name}`)
  return found
}

it('says when an item applies', () => {
  expect(list()?.entries.map(({ when }) => when)).toEqual([
    'outside air temperature below 5°C',
    'Surface: wet, or not (outside air temperature at least 0°C)',
    '',
    '',
  ])
})

it('prints the limits of a reading', () => {
  expect(
    list()
      ?.entries.map(({ response }) => response)
      .slice(2),
  ).toEqual(['(bus voltage, 27.5 to 29 V)', '(time off)'])
})

it('judges a reading by its limits, and shows one that is right', () => {
  const [one] = casesBeside(PACK, item('volts'), EXAMPLE, {})
  expect(one?.right[0]).toMatch(/^two seven (point|decimal) five/)
  const verdict = (said: string) => tryAnswer(PACK, item('volts'), 0, EXAMPLE, {}, said)?.judgement
  expect(verdict('two eight point two')?.verdict).toBe('correct')
  expect(verdict('two seven point four')).toMatchObject({ verdict: 'negative', because: 'limit' })
})

it('takes whatever is noted', () => {
  expect(tryAnswer(PACK, item('off'), 0, EXAMPLE, {}, 'one four three zero')?.judgement.verdict).toBe('correct')
})
