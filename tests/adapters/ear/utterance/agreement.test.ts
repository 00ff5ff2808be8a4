import { describe, expect, it } from 'vitest'
import { nearlySameWords, sameWords, shareInCommon } from '../../../../src/adapters/ear/utterance/agreement.ts'

describe('two passes over one utterance', () => {
  it.each([
    ['five point two up', 'five decimal two up', true],
    ['four niner oh', 'four nine zero', true],
    ['one hundred and two', 'one hundred two', true],
    ['the brake is set', 'a brake is set', true],
    ['climb to', 'climb two', false],
    ['closed and locked', 'closed and unlocked', false],
    ['on', 'not on', false],
    ['four two seven one', 'four two seven', false],
  ])('"%s" and "%s" say the same: %s', (one, other, same) => {
    expect(sameWords(one, other)).toBe(same)
  })

  it('have the share in common that they have', () => {
    expect(shareInCommon('four two seven one', 'four two seven five')).toBe(0.75)
    expect(shareInCommon('', 'set')).toBe(0)
  })

  it.each([
    ['four two seven one', 'four two seven five', true],
    ['disarmed', 'and disarmed', true],
    ['not on', 'off on', true],
    ['one four one', 'one four one east', true],
    ['one nine oh one eight', 'one nine oh oh one eight', false],
    ['flap up', 'flap two', true],
    ['flap two', 'flap up', true],
    ['armed', 'not armed', false],
    ['armed', 'unarmed', false],
    ['one two nine', 'five three zero', false],
    ['set', '', false],
  ])('are near each other, or not: %s, %s', (one, other, isNear) => {
    expect(nearlySameWords(one, other)).toBe(isNear)
  })
})
