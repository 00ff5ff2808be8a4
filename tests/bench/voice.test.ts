import { describe, expect, it } from 'vitest'
import { flight, overBudget, repeated, type Saying, sayingsIn } from './voice.ts'

const saying = (t: number, text: string, why: Saying['why'] = 'prompt'): Saying => ({ t, why, text, isCrewLine: false })

describe('what is counted', () => {
  it('is over its budget with one word too many: a sentence of a prompt, all of a miss', () => {
    const seven = 'One two three four five six seven.'
    expect(overBudget([saying(0, seven), saying(0, `${seven} ${seven}`)])).toEqual([])
    expect(overBudget([saying(0, `Flap? Oh ${seven}`)])).toHaveLength(1)
    const five = 'One two three four five.'
    expect(overBudget([saying(0, `${seven} ${five}`, 'miss')])).toEqual([])
    expect(overBudget([saying(0, `${seven} Oh ${five}`, 'miss')])).toHaveLength(1)
  })

  it('is said twice within half a minute, where nobody asked for it', () => {
    const again = (gap: number, why: Saying['why'] = 'prompt') =>
      repeated([saying(0, 'Flap?'), saying(gap, 'Done. Flap?', why)]).map(({ text }) => text)
    expect(again(29_999)).toEqual(['Flap?'])
    expect(again(30_000)).toEqual([])
    expect(again(1_000, 'asked')).toEqual([])
  })
})

describe('a whole departure with its mistakes', () => {
  it('keeps to the budget', async () => {
    const { pack, events } = await flight()
    const sayings = sayingsIn(pack, events)
    expect(sayings.length).toBeGreaterThan(80)
    expect(sayings.filter(({ why }) => why === 'miss').length).toBeGreaterThan(3)
    expect(overBudget(sayings)).toEqual([])
    expect(repeated(sayings).map(({ text }) => text)).toEqual([])
  })
})
