/** What is listened for at each place: shapes and a yes or no, never a value. */

import { describe, expect, it } from 'vitest'
import { hearableAt } from '../../../../src/kernel/run/core/hearableAt.ts'
import { PLACES } from '../../interpret/places.ts'

const ROWS: readonly (readonly [
  place: keyof typeof PLACES,
  kinds: readonly string[],
  yesNo: boolean,
  talk: boolean,
])[] = [
  ['in a flow', [], false, false],
  ['at the first item', ['trim'], false, false],
  ['at the item after it', ['integer'], false, false],
  ['at the line', [], false, false],
  ['at a yes-or-no question', [], true, false],
  ['asked for the reason of a pass', [], true, false],
  ['asked to read a value', ['trim'], false, false],
  ['before the engine start', ['integer'], false, false],
  ['in the engine start', ['integer'], false, false],
  ['in the engine start, a call questioned', ['integer'], true, false],
  ['before a clearance', [], false, true],
  ['after a clearance was said', ['altitude', 'choice', 'digits'], false, true],
  ['in a briefing', ['runway', 'altitude'], false, true],
  ['at an order that differs', ['choice'], true, true],
]

describe('what is listened for', () => {
  it.each(ROWS)('%s: %j, yes or no %s, talk %s', (place, kinds, yesNo, talk) => {
    const [pack, { state }] = PLACES[place]
    const hearable = hearableAt(pack, state)
    expect([...new Set(hearable.shapes.map(({ kind }) => kind))].sort()).toEqual([...kinds].sort())
    expect(hearable.yesNo).toBe(yesNo)
    expect(hearable.talk !== undefined).toBe(talk)
  })

  it('is how many values an item needs at least', () => {
    const [pack, { state }] = PLACES['at the first item']
    expect(hearableAt(pack, state).least).toEqual({ values: 1, parts: 0 })
  })
})
