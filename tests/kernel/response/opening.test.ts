/** Words with which people begin to speak, and a "no" that takes back what was said. */

import { describe, expect, it } from 'vitest'
import { verdictOf } from './verdictOf.ts'

const TRIM = {
  ...{ response: '<trim> [units]', challenge: 'aileron trim' },
  figures: { trim: { kind: 'trim', decimals: 1, value: -1.5 } },
}
const HEAT = { response: '[carburettor heat] cold', states: [['cold'], ['hot']], challenge: 'carburettor heat' }
const START = { response: 'right', states: [['right'], ['left']], challenge: 'first engine' }
const BEACON = { response: '[beacon] on', states: [['on'], ['off']], challenge: 'beacon' }

describe('an opening', () => {
  it.each([
    [HEAT, "right, I've got the carburettor heat cold", 'correct'],
    [HEAT, 'right, so that is cold', 'correct'],
    [HEAT, 'alrighty, cold', 'correct'],
    [HEAT, 'gotcha, cold', 'correct'],
    [HEAT, "right, I've got it hot", 'negative state'],
    [TRIM, "right, I've got one point five down", 'correct'],
    // A side is one.
    [START, 'right', 'correct'],
    [START, "right, I've got left", 'sayAgain twoValues'],
  ])('%j: "%s" is %s', (item, heard, verdict) => {
    expect(verdictOf(item, heard)).toBe(verdict)
  })
})

describe('"no" before another state', () => {
  it.each([
    ['on, no, off', 'sayAgain twoValues'],
    ['beacon on no off', 'sayAgain twoValues'],
    ['off, no, on', 'sayAgain twoValues'],
    ['on, not off', 'correct'],
    ['on, no flags', 'correct'],
    ['on, no problem', 'correct'],
  ])('"%s" is %s', (heard, verdict) => {
    expect(verdictOf(BEACON, heard)).toBe(verdict)
  })
})
