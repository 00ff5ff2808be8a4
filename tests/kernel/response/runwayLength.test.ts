import { describe, expect, it } from 'vitest'
import { tokensOf } from '../../../src/kernel/numbers/tokens.ts'
import { withoutLength } from '../../../src/kernel/response/runwayLength.ts'

const without = (heard: string, unit: string) =>
  withoutLength(tokensOf(heard), tokensOf(unit)[0])
    .map(({ text }) => text)
    .join(' ')

describe('the length behind a runway', () => {
  it.each([
    ['two four two thousand', 'metres', 'two four'],
    ['two four two thousand', 'meters', 'two four'],
    ['two four seven thousand', 'feet', 'two four'],
    ['two four seven thousand', 'ft', 'two four'],
    ['two four 2400', 'metres', 'two four'],
    ['two four two thousand four hundred', 'metres', 'two four'],
    ['two four left two thousand', 'metres', 'two four left'],
    ['two four left is two thousand', 'metres', 'two four left is'],
    ['two four three hundred', 'metres', 'two four'],
    ['two four six thousand', 'metres', 'two four'],
    ['two four one thousand', 'feet', 'two four'],
    ['two four twenty thousand', 'feet', 'two four'],
  ])('is cut off "%s %s"', (heard, unit, rest) => {
    expect(without(heard, unit)).toBe(rest)
  })

  it.each([
    ['two four two thousand', '', 'no unit follows'],
    ['two four two thousand', 'knots', 'the unit is none of length'],
    ['two four two hundred', 'metres', 'no runway is so short'],
    ['two four seven thousand', 'metres', 'no runway is so long'],
    ['two four nine hundred', 'feet', 'no runway is so short'],
    ['two four twenty one thousand', 'feet', 'no runway is so long'],
    ['two thousand', 'metres', 'there is no runway'],
    ['is two thousand', 'metres', 'there is no runway'],
    ['left two thousand', 'metres', 'there is no number of a runway'],
    ['two one two thousand', 'feet', 'it may begin at two places'],
    ['two four three zero zero', 'metres', 'it may begin at two places'],
    ['two four zero three zero zero', 'metres', 'no length begins with zero'],
    ['two four two thousand point five', 'metres', 'no length has a fraction'],
  ])('is left in "%s %s": %s', (heard, unit) => {
    expect(without(heard, unit)).toBe(heard)
  })
})
