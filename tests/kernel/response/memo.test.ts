import { describe, expect, it } from 'vitest'
import type { KindSpec } from '../../../src/kernel/kinds/kind.ts'
import { madeOnce } from '../../../src/kernel/response/memo.ts'
import { responseFrom } from '../../../src/kernel/response/response.ts'

const RESPONSE = responseFrom('<one> <two>')
const TRIM = { kind: 'trim', decimals: 1, axis: 'pitch', min: 0, max: 10 } as const
const FLAP = { kind: 'choice', options: { '1': ['one'], '2': ['two'] } } as const

function counted() {
  let made = 0
  const make = madeOnce((_response, _specs, ..._further: readonly [readonly (readonly string[])[]]) => ++made)
  return (one: KindSpec, two: KindSpec, states: readonly (readonly string[])[] = []) =>
    make(RESPONSE, { one, two }, states)
}

describe('what follows from a response', () => {
  it('is made once for figures of the same kinds, whatever their values are', () => {
    const make = counted()
    expect(make(TRIM, FLAP)).toBe(1)
    expect(
      make({ ...TRIM, value: 5.2 } as KindSpec, { ...FLAP, options: { ...FLAP.options }, value: '1' } as KindSpec),
    ).toBe(1)
    expect(make({ ...TRIM, accept: { min: 1 } } as unknown as KindSpec, FLAP)).toBe(1)
  })

  it.each<readonly [string, KindSpec, KindSpec, readonly (readonly string[])[]]>([
    ['another kind', { kind: 'speed' }, FLAP, []],
    ['another kind of the second figure', TRIM, { kind: 'speed' }, []],
    ['another limit', { ...TRIM, max: 12 }, FLAP, []],
    ['a field more', { ...TRIM, step: 0.1 } as unknown as KindSpec, FLAP, []],
    ['a field less', { kind: 'trim', decimals: 1, axis: 'pitch', min: 0 } as KindSpec, FLAP, []],
    ['another option', TRIM, { ...FLAP, options: { '1': ['one'], '3': ['two'] } }, []],
    ['another word of an option', TRIM, { ...FLAP, options: { '1': ['one'], '2': ['to'] } }, []],
    ['one more word of an option', TRIM, { ...FLAP, options: { '1': ['one', 'up'], '2': ['two'] } }, []],
    ['other states', TRIM, FLAP, [['on'], ['off']]],
  ])('is made anew for %s', (_, one, two, states) => {
    const make = counted()
    expect(make(TRIM, FLAP)).toBe(1)
    expect(make(one, two, states)).toBe(2)
    expect(make(TRIM, FLAP)).toBe(1)
    expect(make(one, two, states)).toBe(2)
  })
})
