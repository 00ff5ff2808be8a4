import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { nameForPaste } from '../../src/ui/parts/figures/LoadSheet.tsx'
import { scaleOver } from '../../src/ui/parts/figures/scale.ts'
import { markedWords } from '../../src/ui/parts/run/markedWords.ts'

describe('the words heard', () => {
  it('are marked by the part that they were taken for, in their places', () => {
    const parts = [
      { state: 'ok', heard: 'checked' },
      { state: 'wrong', heard: 'five point two up' },
      { state: 'missing', heard: undefined },
    ] as const
    expect(markedWords('Checked, five point two up then', parts)).toEqual([
      { word: 'Checked,', state: 'ok' },
      ...['five', 'point', 'two', 'up'].map((word) => ({ word, state: 'wrong' })),
      { word: 'then', state: 'plain' },
    ])
  })

  it('are marked once where two parts were heard in the same words', () => {
    const parts = [
      { state: 'ok', heard: 'set' },
      { state: 'wrong', heard: 'set' },
    ] as const
    expect(markedWords('set set', parts).map(({ state }) => state)).toEqual(['ok', 'wrong'])
    expect(markedWords('set', parts).map(({ state }) => state)).toEqual(['ok'])
  })
})

describe('an axis', () => {
  it('takes values that differ in their last bits for one', () => {
    const { ticks, share } = scaleOver([0, -5e-324])
    expect(ticks.length).toBeGreaterThan(1)
    expect(share(0)).toBeGreaterThanOrEqual(0)
  })

  it('holds every value between its first and last tick, with few round ticks', () => {
    fc.assert(
      fc.property(fc.array(fc.double({ min: -1e6, max: 1e6, noNaN: true }), { minLength: 1 }), (values) => {
        const { ticks, share } = scaleOver(values)
        expect(ticks.length).toBeLessThanOrEqual(8)
        for (const value of values) {
          expect(share(value)).toBeGreaterThanOrEqual(-1e-6)
          expect(share(value)).toBeLessThanOrEqual(1 + 1e-6)
        }
      }),
    )
  })
})

describe('a pasted load sheet', () => {
  it.each([
    ['status: final\nvalues: {fuel: 1}', 'pasted.yaml'],
    [' {"status": "final"}', 'pasted.json'],
    ['name,value\naftHold,300', 'pasted.csv'],
    ['status;final\naftHold;300', 'pasted.csv'],
    ['# by hand, late\nstatus: final', 'pasted.yaml'],
    ['loads: {a: 1, b: 2}', 'pasted.yaml'],
  ])('%j is taken as %s', (text, name) => {
    expect(nameForPaste(text)).toBe(name)
  })
})
