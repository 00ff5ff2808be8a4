/** What is said to be so without being asked: in any wording, and neither asked, ordered nor looked out for. */

import { describe, expect, it } from 'vitest'
import { transcriptOf } from '../../../src/kernel/numbers/tokens.ts'
import { isAnnounced } from '../../../src/kernel/response/announced.ts'
import { responseFrom } from '../../../src/kernel/response/response.ts'

const said = (response: string, text: string) => isAnnounced(responseFrom(response), transcriptOf(text))

describe('a step or a call', () => {
  it.each([
    ['beacon on', "okay, beacon's on now"],
    ['beacon on', 'beacon is on, no problem'],
    ['beacon on', 'switched the beacon on, no problem'],
    ['beacon on', 'beacon switched on'],
    ['beacon on', 'turned the beacon on'],
    ['light off | light up', "and that's light up, lovely"],
    ['oil pressure [rising]', 'oil pressure rising nicely'],
    ['oil pressure [rising]', "there's the oil pressure"],
    ['is the door closed', 'is the door closed'],
  ])('`%s` is "%s"', (response, text) => {
    expect(said(response, text)).toBe(true)
  })

  it.each([
    ['beacon on', 'beacon off'],
    ['beacon on', 'beacon not on yet'],
    ['beacon on', 'is the beacon on'],
    ['beacon on', 'okay, is the beacon on'],
    ['trim is set', 'is the trim set'],
    ['beacon on', 'have we got the beacon on'],
    ['beacon on', 'put the beacon on please'],
    ['beacon on', 'turn the beacon on'],
    ['beacon on', 'beacon on in a minute'],
    ['beacon on', 'after the beacon on'],
    ['beacon on', 'beacon'],
    ['beacon on', 'beacon on, five'],
    ['light off | light up', 'looking for light up'],
    ['light off | light up', 'waiting for light up'],
    ['oil pressure [rising]', 'watching for oil pressure'],
    ['oil pressure [rising]', 'no oil pressure'],
    ['rotation', 'no worries about the rotation'],
  ])('`%s` is not "%s"', (response, text) => {
    expect(said(response, text)).toBe(false)
  })
})
