import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { convert, fits, UNIT_NAMES } from '../../src/kernel/units.ts'

describe('units', () => {
  test.each([
    // Exact by definition: international pound, foot and inch, US gallon of 231 cubic inches, conventional inch of mercury.
    [1, 'lb', 'kg', 0.45359237],
    [1, 'ft', 'm', 0.3048],
    [1, 'in', 'm', 0.0254],
    [1, 'usgal', 'l', 3.785411784],
    [12, 'in', 'ft', 1],
    [1, 'inHg', 'hPa', 33.86388640341],
    [32, 'F', 'C', 0],
    [212, 'F', 'C', 100],
    [-40, 'C', 'F', -40],
    // 6 lb a gallon for avgas, looked up: flightlearnings.com.
    [6, 'lb/usgal', 'kg/l', (6 * 0.45359237) / 3.785411784],
    [100, 'lb in/100', 'lb in/1000', 10],
    [1000, 'kg m', 'kg m/1000', 1],
    // NIST SP 811, appendix B.8: pound-force per square inch, foot pound-force (from memory).
    [1, 'psi', 'hPa', 68.94757293168],
    [1, 'bar', 'hPa', 1000],
    [1, 'ft lb', 'N m', 1.3558179483314],
    [100, 'lb/h', 'kg/h', 45.359237],
    [1, 'usgal/h', 'l/h', 3.785411784],
    [2, 'min', 's', 120],
  ] as const)('%f %s in %s', (value, from, to, expected) => {
    expect(convert(value, from, to)).toBeCloseTo(expected, 10)
  })

  test('every value comes back from every unit of its dimension', () => {
    fc.assert(
      fc.property(
        fc.constantFrom(...UNIT_NAMES),
        fc.constantFrom(...UNIT_NAMES),
        fc.double({ min: -1e6, max: 1e6, noNaN: true }),
        (from, to, value) => {
          fc.pre(fits(from, to))
          const back = convert(convert(value, from, to), to, from)
          expect(Math.abs(back - value)).toBeLessThanOrEqual(1e-9 * Math.max(1, Math.abs(value)))
        },
      ),
    )
  })

  test('a weight is no length', () => {
    expect(fits('kg', 'm')).toBe(false)
    expect(() => convert(1, 'kg', 'm')).toThrow('kg is no length')
  })
})
