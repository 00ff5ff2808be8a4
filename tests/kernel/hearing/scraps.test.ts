import { beforeAll, describe, expect, it } from 'vitest'
import type { Hearable, Vocabulary } from '../../../src/kernel/hearing/hearable.ts'
import { isScraps } from '../../../src/kernel/hearing/scraps.ts'
import { talkOf } from '../../../src/kernel/hearing/talk.ts'
import { vocabularyOf } from '../../../src/kernel/hearing/vocabulary.ts'
import { exchangesOf } from '../../../src/kernel/run/talk/talk.ts'
import { packAt } from '../figures/marram.ts'

describe('words that were heard in an exchange with values', () => {
  let vocabulary: Vocabulary
  let withGround: Hearable
  beforeAll(async () => {
    const pack = await packAt('checklists/marram')
    vocabulary = vocabularyOf(pack)
    const crew = exchangesOf(pack).find(({ id }) => id === 'crew')
    const direction = pack.figures.declarations.pushDirection?.spec
    if (!crew || !direction) throw new Error('the demo has a ground crew, and a direction to push')
    const calls = crew.turns.flatMap((turn) => turn.calls ?? [])
    withGround = { shapes: [direction], yesNo: false, talk: talkOf(crew, calls, { pushDirection: direction }) }
  })

  it.each([
    'confirm doors and steps',
    'remove the chocks',
    'disconnect the cable',
    'confirm steering pin and tow bar',
    'cleared to push facing east',
  ])('hang together where it is what one says there: %s', (text) => {
    expect(isScraps(withGround, vocabulary, text)).toBe(false)
  })

  it('are scraps where it is nothing that anybody says', () => {
    expect(isScraps(withGround, vocabulary, 'on chocks and off tow')).toBe(true)
  })
})
