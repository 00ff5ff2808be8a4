/** The challenge said before the answer is taken off, and nothing else is. */

import { describe, expect, it } from 'vitest'
import { textOf, tokensOf, transcriptOf } from '../../../src/kernel/numbers/tokens.ts'
import { withoutChallenge } from '../../../src/kernel/response/challenge.ts'

describe('an answer after its challenge', () => {
  it.each([
    ['takeoff trim five point two up', 'five point two up'],
    ['take off trim five point two up', 'five point two up'],
    ['takeoff uh trim five point two up', 'five point two up'],
    ['uh the takeoff trim five', 'five'],
    ['and takeoff trim takeoff trim five', 'five'],
    ['takeoff trim', ''],
    ['takeoff five point two up', 'takeoff five point two up'],
    ['takeoff rudder trim five', 'takeoff rudder trim five'],
    ['five takeoff trim', 'five takeoff trim'],
    ['takeoff', 'takeoff'],
    ['both takeoff trim five', 'both takeoff trim five'],
    ['the', 'the'],
    ['', ''],
  ])('"%s" is "%s"', (heard, answer) => {
    const { text, tokens } = transcriptOf(heard)
    expect(textOf({ text, tokens: withoutChallenge(tokens, tokensOf('takeoff trim')) })).toBe(answer)
  })

  it('with a number in it', () => {
    const { text, tokens } = transcriptOf('generator one on')
    expect(textOf({ text, tokens: withoutChallenge(tokens, tokensOf('generator one')) })).toBe('on')
    expect(withoutChallenge(tokens, [])).toBe(tokens)
  })
})
