/** Items, responses and figures that hang on figures and situations, with and, or, not. */

import { describe, expect, it, test } from 'vitest'
import { compute } from '../../src/kernel/figures/compute.ts'
import { itemsOf, listById, responseOf } from '../../src/kernel/pack/place.ts'
import { authored, called, figuresOf, flown, problemsIn, sheet, withoutColumns } from './authored.ts'

const SITUATIONS = `
situations:
  surface:
    label: Surface
    initial: dry
    options:
      dry: {label: dry, say: [runway dry]}
      wet: {label: wet, say: [runway wet]}
      ice: {label: icy, say: [runway icy]}
  bypass:
    label: Separator
    initial: "off"
    options:
      "off": {label: closed, say: [separator closed]}
      "on": {label: bypass, say: [separator bypass]}
`
const FIGURES = `
  oat: {label: outside air temperature, kind: temperature, unit: C, entered: {}}
  flap: {label: flap, kind: choice, options: {"0": [up], "10": [ten]}, entered: {}}
  torque: {label: torque, kind: integer, unit: ft lb, entered: {}}
  torqueSet:
    label: torque to set
    kind: integer
    unit: ft lb
    derived:
      - {when: {bypass: "on"}, by: difference, of: torque, less: [45]}
      - {when: {oat: {atLeast: 30}, flap: "10"}, by: product, of: torque, times: [0.9]}
      - {by: same, of: torque}
`
const ENTRIES = `
- {item: heat, challenge: heat, response: "heat on", when: {oat: {below: 5}}, states: [["on"], ["off"]]}
- item: ignition
  challenge: ignition
  response:
    - {when: {any: [{surface: wet}, {bypass: "on"}]}, say: "ignition on"}
    - {when: {all: [{surface: [dry, ice]}, {bypass: "off"}], oat: {below: 0}}, say: "ignition continuous"}
    - {say: "ignition off"}
- {item: sand, challenge: sand, response: "aboard", when: {not: {surface: dry}, flap: "10"}}
- {item: torque, challenge: torque, response: "<torqueSet>"}
`
const PACK = authored({ pack: SITUATIONS, figures: FIGURES, entries: ENTRIES })
const itemsWith = (situation: Record<string, string>, values: Record<string, number | string>) => {
  const ground = { situation: { surface: 'dry', bypass: 'off', ...situation }, values }
  return itemsOf(listById(PACK, 'beforeStart'), ground).map(
    (item) => `${item.id.split('.')[1]} ${responseOf(item, ground).text}`,
  )
}

test.each([
  [{}, { oat: 15, flap: '10' }, ['ignition ignition off', 'torque <torqueSet>']],
  [{}, { oat: 4, flap: '10' }, ['heat heat on', 'ignition ignition off', 'torque <torqueSet>']],
  [{}, { oat: 5, flap: '10' }, ['ignition ignition off', 'torque <torqueSet>']],
  [{}, { oat: -1, flap: '0' }, ['heat heat on', 'ignition ignition continuous', 'torque <torqueSet>']],
  [{ bypass: 'on' }, { oat: -1, flap: '0' }, ['heat heat on', 'ignition ignition on', 'torque <torqueSet>']],
  [{ surface: 'wet' }, { oat: 9, flap: '0' }, ['ignition ignition on', 'torque <torqueSet>']],
  [{ surface: 'ice' }, { oat: 9, flap: '10' }, ['ignition ignition off', 'sand aboard', 'torque <torqueSet>']],
])('in %o with %o the list holds %j', (situation, values, items) => {
  expect(itemsWith(situation, values)).toEqual(items)
})

test.each([
  [{ oat: 15, flap: '10', torque: 1700 }, { bypass: 'off' }, 1700],
  [{ oat: 15, flap: '10', torque: 1700 }, { bypass: 'on' }, 1655],
  [{ oat: 30, flap: '10', torque: 1700 }, {}, 1530],
  [{ oat: 30, flap: '0', torque: 1700 }, {}, 1700],
  [{ flap: '10', torque: 1700 }, {}, undefined],
])('with %o in %o the torque to set is %s', (values, situation, torque) => {
  expect(compute(PACK.figures, sheet(values, { situation })).figures.torqueSet?.value).toBe(torque)
})

describe('in a run', () => {
  const values = { oat: 15, flap: '10', torque: 1700 }

  it('an item waits for the figure that it hangs on', () => {
    const run = flown(PACK, sheet({ flap: '10', torque: 1700 })).happen(called())
    expect(run.said()).toContain('No figure yet for outside air temperature.')
    expect(run.hear('heat on').state.items['beforeStart.heat']?.status).not.toBe('done')
  })

  it('colder air brings the item into a list that was complete, and takes the completion back', () => {
    const run = flown(PACK, sheet(values)).happen(called()).hear('ignition off').hear('seventeen hundred')
    expect(run.state.lists.beforeStart?.complete).toBe(true)
    const cold = run.happen(figuresOf(PACK, sheet({ ...values, oat: 3 }), 2, run.state.values))
    expect(cold.state.lists.beforeStart?.complete).toBe(false)
    expect(cold.state.floor).toEqual({ at: 'item', list: 'beforeStart', item: 'beforeStart.heat' })
  })

  it('an answer that figures ask to be another one is open again', () => {
    const run = flown(PACK, sheet({ ...values, oat: 2 }))
      .happen(called())
      .hear('heat on')
      .hear('ignition off')
    const cold = run.happen(figuresOf(PACK, sheet({ ...values, oat: -3 }), 2, run.state.values))
    expect(cold.said()).toContain('Recheck ignition.')
    expect(cold.state.items['beforeStart.heat']?.status).toBe('done')
  })

  it('the open item is gone from when warmer air takes it out of the list', () => {
    const run = flown(PACK, sheet({ ...values, oat: 2 })).happen(called())
    expect(run.state.floor).toMatchObject({ item: 'beforeStart.heat' })
    const warm = run.happen(figuresOf(PACK, sheet(values), 2, run.state.values))
    expect(warm.state.floor).toMatchObject({ item: 'beforeStart.ignition' })
  })
})

const changed = (from: string, to: string) => ({
  pack: SITUATIONS,
  figures: FIGURES.replace(from, to),
  entries: ENTRIES.replace(from, to),
})
test.each([
  [
    'a figure that is none',
    '{oat: {below: 5}}',
    '{oatt: {below: 5}}',
    ['procedures.yaml:8: no figure is called "oatt"; did you mean "oat"?'],
  ],
  [
    'a size of a situation',
    '{oat: {below: 5}}',
    '{bypass: {below: 5}}',
    ['procedures.yaml:8: bypass is a situation and has no size; write one of "off", "on"'],
  ],
  [
    'a size of a choice',
    '{oat: {below: 5}}',
    '{flap: {below: 5}}',
    ['procedures.yaml:8: flap (choice) is no number; write the values that count: {flap: [...]}'],
  ],
  [
    'a value that a choice has not',
    'flap: "10"}}',
    'flap: "15"}}',
    ['procedures.yaml:15: flap has no "15"; did you mean "10"?'],
  ],
  ['no ends', '{oat: {below: 5}}', '{oat: {}}', ['procedures.yaml:8: oat: say below, above, atLeast or atMost']],
  [
    'a misspelt end',
    '{oat: {below: 5}}',
    '{oat: {bellow: 5}}',
    ['procedures.yaml:8: "bellow" is not known here; did you mean "below"?'],
  ],
  [
    'an unknown situation below any',
    '{surface: wet}, {bypass',
    '{surfacee: wet}, {bypass',
    ['procedures.yaml:12: no situation is called "surfacee"; did you mean "surface"?'],
  ],
  [
    'no last case of a response',
    '\n    - {say: "ignition off"}',
    '',
    ['procedures.yaml:11: item ignition has no response for surface dry, bypass off, oat 0'],
  ],
  [
    'no last case of a figure',
    '\n      - {by: same, of: torque}',
    '',
    ['figures.yaml:10: torqueSet has no case for bypass off, oat 29; add a last one without when'],
  ],
])('%s is told', (_, from, to, told) => {
  expect(withoutColumns(problemsIn(changed(from, to)))).toEqual(told)
})

it('says which case is never reached', () => {
  const { entries, ...rest } = changed('', '')
  const twice = entries.replace(
    '- {say: "ignition off"}',
    '- {when: {bypass: "on", oat: {above: 3}}, say: "ignition on"}\n    - {say: "ignition off"}',
  )
  expect(problemsIn({ ...rest, entries: twice }).join('\n')).toContain('case 3 of item ignition is never reached')
})
