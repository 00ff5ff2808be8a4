import { describe, expect, it } from 'vitest'
import type { Specs } from '../../../src/kernel/kinds/kind.ts'
import { tokensOf } from '../../../src/kernel/numbers/tokens.ts'
import { completenessOf } from '../../../src/kernel/response/completeness.ts'
import { responseFrom } from '../../../src/kernel/response/response.ts'

const TRIM: Specs = { trim: { kind: 'trim', decimals: 1, axis: 'pitch' } }
const SPEEDS: Specs = { v1: { kind: 'speed' }, vr: { kind: 'speed' }, v2: { kind: 'speed' } }

describe('an answer is whole when all its parts were said, right or wrong', () => {
  it.each([
    ['<trim> [set]', TRIM, 'five point two up', 'whole'],
    ['<trim> [set]', TRIM, 'nine point nine down', 'whole'],
    ['<trim> [set]', TRIM, 'takeoff trim five point two up', 'whole'],
    ['<trim> [set]', TRIM, 'five point two', 'half'],
    ['<trim> [set]', TRIM, 'five', 'half'],
    ['<trim> set', TRIM, 'five point two up', 'half'],
    ['<trim> [set]', TRIM, 'hello there', 'none'],
    ['<trim> [set]', TRIM, '', 'none'],
    ['V one <v1> rotate <vr> V two <v2>', SPEEDS, 'V1 128 rotate 131', 'half'],
    ['V one <v1> rotate <vr> V two <v2>', SPEEDS, 'V1 128 rotate 131 V2 138', 'whole'],
    ['(armed | on)', {}, 'disarmed', 'whole'],
    ['(armed | on)', {}, 'armed', 'whole'],
    ['(armed | on)', {}, 'spoilers', 'none'],
    ['full left {left} full right {right}', {}, 'full left', 'half'],
  ] as const)('%s, %o, "%s": %s', (response, specs, text, form) => {
    expect(completenessOf(responseFrom(response), specs, tokensOf(text), { challenge: 'takeoff trim' })).toBe(form)
  })

  it('parts held from an earlier breath count', () => {
    expect(
      completenessOf(responseFrom('V one <v1> rotate <vr> V two <v2>'), SPEEDS, tokensOf('one three eight'), {
        held: ['v1', 'vr'],
      }),
    ).toBe('whole')
  })
})
