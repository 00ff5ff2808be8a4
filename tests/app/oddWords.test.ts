/** Words that fit nowhere, or come too early: told so in a few words, nothing given away, and no old verdict left standing. */

import { describe, expect, it } from 'vitest'
import { marramLines, twinLines } from '../flight/lines.ts'
import { flown, upTo } from './flown.ts'

const JET = marramLines('icao', 'push')
const TWIN = twinLines('icao')

describe('"go back to" and "recheck"', () => {
  const UNKNOWN = 'Recheck what? Say recheck and the item.'

  it.each([
    ['go back to the flux capacitor', UNKNOWN],
    ['recheck flux capacitor', UNKNOWN],
    ['recheck beacon', 'Not yet, parking brake.'],
    ['recheck cabin', 'Not yet, ready for taxi list, not called. Parking brake?'],
    ['go back to the taxi clearance', 'Not yet, before start list is not complete.'],
  ])('"%s" in a list where there is none, or it comes later, is told so', async (words, answer) => {
    const { answers, state } = await flown('marram', upTo(JET, 'before start list'), 'brake released', words)
    expect(answers).toEqual(['I heard brake released.', answer])
    expect(state.last).toBeUndefined()
    expect(state.floor).toMatchObject({ at: 'item', item: 'beforeStart.brake' })
  })

  it.each([
    ['go back to the departure briefing', 'Not yet, departure information is not complete.'],
    ['go back to departure clearance', 'Not yet, departure information is not complete.'],
    ['go back to the moon', UNKNOWN],
  ])('"%s" in an exchange as well', async (words, answer) => {
    const { answers, state } = await flown('marram', upTo(JET, 'get the information'), 'information lima', words)
    expect(answers[1]).toBe(answer)
    expect(state.last).toBeUndefined()
  })
})
