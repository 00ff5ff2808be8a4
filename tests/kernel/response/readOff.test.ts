import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import type { Figure, KindSpec } from '../../../src/kernel/kinds/kind.ts'
import { sayValue } from '../../../src/kernel/kinds/table.ts'
import { hypothesesOf } from '../../../src/kernel/response/hypotheses.ts'
import { readOff } from '../../../src/kernel/response/readOff.ts'

const WEIGHT: KindSpec = { kind: 'weight', unit: 'kg', min: 15000, max: 35000 }
const TRIM: KindSpec = { kind: 'trim', decimals: 1, axis: 'pitch' }
const FLAP: KindSpec = { kind: 'choice', options: { up: ['up', 'zero'], '7': ['seven'], '12': ['twelve'] } }
const RUNWAY: KindSpec = { kind: 'runway' }

describe('a value read aloud off a sheet', () => {
  test.each([
    [WEIGHT, 'two four three six zero', 24360],
    [WEIGHT, 'zero fuel weight two four three six zero kilograms', 24360],
    [WEIGHT, 'twenty-four thousand three hundred and sixty', 24360],
    [WEIGHT, '24,360', 24360],
    [WEIGHT, 'two four eight six zero, correction, two four three six zero', 24360],
    [TRIM, 'four point three nose up', 4.3],
    [TRIM, 'zero', 0],
    [FLAP, 'flap twelve', '12'],
    [FLAP, 'up', 'up'],
    [RUNWAY, 'runway two four left', '24L'],
    [{ kind: 'speed' } as const, 'one twenty-eight knots', 128],
    [{ kind: 'altimeter', unit: 'hPa' } as const, 'one zero zero niner', 1009],
  ])('%o: "%s" is %s', (spec, heard, value) => {
    expect(readOff(spec, ['zero fuel weight', 'flap', 'runway'], hypothesesOf({ text: heard }))).toBe(value)
  })

  test.each([
    [WEIGHT, 'two four', 'broken off: off the scale'],
    [WEIGHT, 'two four three six zero pounds', 'in the other unit'],
    [WEIGHT, 'two four three six zero, two four three six one', 'two values'],
    [WEIGHT, 'not two four three six zero', 'denied'],
    [WEIGHT, 'the cabin is two four three six zero', 'among other words'],
    [TRIM, 'four point three', 'no direction'],
    [TRIM, 'four up', 'no decimals'],
    [FLAP, 'flap fourteen', 'no position of this flap'],
    [RUNWAY, 'four two', 'no runway'],
    [WEIGHT, '', 'nothing'],
  ])('%o: "%s" is none (%s)', (spec, heard, _) => {
    expect(readOff(spec, ['zero fuel weight', 'flap', 'runway'], hypothesesOf({ text: heard }))).toBeUndefined()
  })

  test('is none where a text that is as likely has another value, and one where it says the same', () => {
    const heard = 'two four three six zero'
    const read = (text: string) => readOff(WEIGHT, [], hypothesesOf({ text: heard, alternatives: [{ text }] }))
    expect(read('two four three six five')).toBeUndefined()
    expect(read('twenty-four thousand three hundred sixty')).toBe(24360)
    const unlikely = { text: heard, score: 0.9, alternatives: [{ text: 'two four three six five', score: 0.2 }] }
    expect(readOff(WEIGHT, [], hypothesesOf(unlikely))).toBe(24360)
  })

  test('is what was said, whatever the value', () => {
    const cases = fc.oneof(
      fc.integer({ min: 15000, max: 35000 }).map((value) => ({ ...WEIGHT, value })),
      fc.integer({ min: -45, max: 115 }).map((tenths) => ({ ...TRIM, value: tenths / 10 })),
      fc.constantFrom('up', '7', '12').map((value) => ({ ...FLAP, value })),
      fc.integer({ min: 1, max: 36 }).map((number) => ({ ...RUNWAY, value: String(number).padStart(2, '0') })),
    )
    fc.assert(
      fc.property(cases, (figure) => {
        const { value, ...spec } = figure
        expect(readOff(spec as KindSpec, [], hypothesesOf({ text: sayValue(figure as Figure, 'standard') }))).toBe(
          value,
        )
      }),
    )
  })
})
