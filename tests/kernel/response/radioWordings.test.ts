import { describe, expect, it } from 'vitest'
import { judged, madeWrong, RADIO } from '../../corpus/radioWordings.ts'

describe('in the words that pilots use among themselves', () => {
  it.each(RADIO.flatMap((radio) => radio.right.map((text) => [radio.name, text, radio] as const)))(
    '%s: "%s"',
    (_, text, radio) => {
      expect(judged(radio, text)).toMatchObject({ verdict: 'correct' })
    },
  )

  it('nothing is taken for right that has one word of a value wrong, left out or in another place', () => {
    const made = RADIO.flatMap((radio) =>
      radio.right.flatMap((text) => madeWrong(text, radio.needNot).map((wrong) => ({ radio, wrong }))),
    )
    expect(made.length).toBeGreaterThan(3_000)
    const accepted = made.filter(({ radio, wrong }) => judged(radio, wrong).verdict === 'correct')
    expect(accepted.map(({ radio, wrong }) => `${radio.name}: ${wrong}`)).toEqual([])
  })
})
