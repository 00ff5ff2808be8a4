import { describe, expect, it } from 'vitest'
import { transcriptOf } from '../../../src/kernel/numbers/tokens.ts'
import { explained } from '../../../src/kernel/response/explain.ts'
import { judgeText } from '../../corpus/judgeText.ts'

describe('why a verdict', () => {
  it.each([
    ['five point two up, bugs set', 'Trim “five point two up” is right; let through: “bugs set”.'],
    ['five point four up', 'Trim “five point four up” is wrong, read as 5.4, for 5.2.'],
    ['five point two', 'Trim “five point two” lacks its direction.'],
    ['it is set', 'Said to be done, without its value; trim was not said; let through: “it is set”.'],
    [
      'about five point two up',
      'Something in it may speak against the item, or was not understood; trim may be “five point two up”.',
    ],
    ['stand by', 'Taken for a command: standBy.'],
    ['negative', 'It was refused; let through: “negative”.'],
  ])('"%s": %s', (heard, why) => {
    const judgement = judgeText({
      ...{ challenge: 'takeoff trim', response: '<trim>', heard },
      figures: { trim: { kind: 'trim', decimals: 1, value: 5.2 } },
    })
    expect(explained(judgement, transcriptOf(heard))).toBe(why)
  })
})
