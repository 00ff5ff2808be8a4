import { describe, expect, it } from 'vitest'
import type { Figure } from '../../../src/kernel/kinds/kind.ts'
import { isExactly, isSameValue, sayValue, scaleOf, showValue } from '../../../src/kernel/kinds/table.ts'

const FIGURES: readonly (readonly [Figure, string, string, string])[] = [
  [{ kind: 'trim', decimals: 1, value: 5.2 }, 'five point two up', 'five decimal two up', '5.2 up'],
  [
    { kind: 'trim', decimals: 1, axis: 'roll', value: -0.5 },
    'zero point five left',
    'zero decimal five left',
    '0.5 left',
  ],
  [{ kind: 'trim', decimals: 1, value: 0 }, 'zero point zero', 'zero decimal zero', '0.0'],
  [
    { kind: 'decimal', decimals: 1, unit: 'percent', value: 26.4 },
    'two six point four percent',
    'two six decimal four percent',
    '26.4 %',
  ],
  [{ kind: 'speed', value: 128 }, 'one two eight', 'one two eight', '128 kt'],
  [
    { kind: 'weight', unit: 'kg', value: 8400 },
    'eight thousand four hundred',
    'eight thousand four hundred',
    '8400 kg',
  ],
  [{ kind: 'weight', unit: 'kg', say: 'thousands', value: 8400 }, 'eight point four', 'eight decimal four', '8400 kg'],
  [{ kind: 'temperature', unit: 'C', value: -5 }, 'minus five', 'minus five', '-5 °C'],
  [{ kind: 'digits', length: 4, value: '4271' }, 'four two seven one', 'four two seven one', '4271'],
  [{ kind: 'mach', value: 0.78 }, 'mach point seven eight', 'mach decimal seven eight', 'M.78'],
  [{ kind: 'mach', decimals: 1, value: 1.2 }, 'mach one point two', 'mach one decimal two', 'M1.2'],
  [{ kind: 'altimeter', unit: 'hPa', value: 1013 }, 'one zero one three', 'one zero one three', '1013'],
  [{ kind: 'altimeter', unit: 'inHg', value: 29.92 }, 'two nine nine two', 'two niner niner two', '29.92'],
  [{ kind: 'heading', value: 89 }, 'zero eight nine', 'zero eight niner', '089°'],
  [{ kind: 'runway', value: '27L' }, 'two seven left', 'two seven left', '27L'],
  [{ kind: 'altitude', unit: 'ft', value: 12_000 }, 'one two thousand', 'one two thousand', '12000 ft'],
  [{ kind: 'flightLevel', value: 50 }, 'flight level zero five zero', 'flight level zero five zero', 'FL050'],
  [{ kind: 'frequency', value: 118.1 }, 'one one eight point one', 'one one eight decimal one', '118.1'],
  [{ kind: 'time', value: '0715' }, 'zero seven one five', 'zero seven one five', '0715'],
  [{ kind: 'identifier', value: 'A3' }, 'alfa three', 'alfa three', 'A3'],
  [{ kind: 'choice', options: { '5': ['five'] }, value: '5' }, 'five', 'five', '5'],
]

describe('a value is said and shown', () => {
  it.each(FIGURES)('%o', (figure, plain, standard, shown) => {
    expect(sayValue(figure, 'plain')).toBe(plain)
    expect(sayValue(figure, 'standard')).toBe(standard)
    expect(showValue(figure)).toBe(shown)
  })
})

describe('values are compared as they are spoken', () => {
  const trim = { kind: 'trim', decimals: 1 } as const

  it('does not mind the dust of binary fractions', () => {
    expect(isSameValue(trim, 0.1 + 0.2, 0.3)).toBe(true)
    expect(isSameValue(trim, -0, 0)).toBe(true)
  })

  it('never rounds away what was said', () => {
    expect(isExactly(trim, 5.24, 5.2)).toBe(false)
    expect(isExactly(trim, 5.2, 5.2000001)).toBe(true)
    expect(isExactly(trim, '5.2', 5.2)).toBe(false)
    expect(isExactly(trim, Number.NaN, 5.2)).toBe(false)
  })
})

describe('the scale of an instrument', () => {
  it('is the pack’s where it gives one, the kind’s else', () => {
    expect(scaleOf({ kind: 'heading' })).toEqual({ min: 1, max: 360 })
    expect(scaleOf({ kind: 'speed', min: 40, step: 1 })).toEqual({ min: 40, max: 999, step: 1 })
    expect(scaleOf({ kind: 'runway' })).toBeUndefined()
  })
})
