/** What stands beside a right answer: let through in a clause about something else, asked about where it touches the item. */

import { describe, expect, it } from 'vitest'
import type { Figures } from '../../../src/kernel/kinds/kind.ts'
import { judgeText } from '../../corpus/judgeText.ts'

const WEIGHT: Figures = { w: { kind: 'weight', unit: 'kg', value: 24360 } }
const verdictOf = (heard: string) =>
  judgeText({ challenge: 'takeoff weight', response: '<w> [kilograms]', figures: WEIGHT, heard }).verdict
const ofBrake = (heard: string) =>
  judgeText({
    ...{ challenge: 'parking brake', response: 'set', figures: {}, heard },
    states: [['set'], ['released', 'off']],
  }).verdict

describe('a word that nobody knows', () => {
  it.each([
    'set, i gave it a good zonk',
    'set, you can remove the zonk',
    'set, lovely zonk',
    'set, same as what the zonk says',
    'set, everybody is zonked',
    'set, the zonk is on',
    'set, a bit more quiet than the zonk',
    'set, and do not need the zonk',
  ])('is let through in a clause about something else: "%s"', (heard) => {
    expect(ofBrake(heard)).toBe('correct')
  })

  it.each([
    'set zonk',
    'set, zonking',
    'zonk set',
    'set in the zonk',
    'set is the zonk',
    'set, and it is unzonked',
    'set, i zonked it',
    'set, further zonked than the right',
    'set, the gauge is dark',
  ])('is asked about where it may be said of the item: "%s"', (heard) => {
    expect(ofBrake(heard)).not.toBe('correct')
  })

  it.each([
    ['two four three six zero, same as the zonk sheet', 'correct'],
    ['two four three six zero, a zonk lighter than yesterday', 'correct'],
    ['two four three six zero for this zonk', 'correct'],
    ['two four three six zero, same as the sheet i think', 'sayAgain'],
    ['two four three six zero, thanks, perhaps', 'sayAgain'],
    ['two four three six zero zonks', 'sayAgain'],
    ['two four three six zero at the zonk', 'sayAgain'],
    ['two four three six zero is the zonk', 'sayAgain'],
  ] as const)('beside a value: "%s" is %s', (heard, verdict) => {
    expect(verdictOf(heard)).toBe(verdict)
  })
})

describe('what was taken back', () => {
  it('takes with it what was said beside it', () => {
    expect(verdictOf('that would be two four zonk six, no sorry, two four three six zero')).toBe('correct')
    expect(verdictOf('perhaps two four three six zero, sorry, maybe two four three six zero')).toBe('sayAgain')
    expect(ofBrake('flap one, tell a lie, set')).toBe('correct')
  })

  it('keeps what stood before the point, where the correction begins with that', () => {
    const figures: Figures = { f: { kind: 'frequency', value: 124.675 } }
    const heard = 'one two four decimal six five, correction, decimal six seven five'
    expect(judgeText({ response: '<f>', figures, heard }).verdict).toBe('correct')
    const other = 'one two four decimal six seven five, correction, decimal six five'
    expect(judgeText({ response: '<f>', figures, heard: other }).verdict).toBe('negative')
  })
})

describe('"for" before a word that it governs', () => {
  it('is no digit', () => {
    const figures: Figures = { v: { kind: 'speed', value: 81, unit: 'kt' } }
    expect(judgeText({ response: '<v>', figures, heard: 'eighty one for this weight' }).verdict).toBe('correct')
  })
})

describe('a percentage without its point', () => {
  it('is read where it can be no whole number of them', () => {
    const figures: Figures = { p: { kind: 'decimal', decimals: 1, unit: 'percent', value: 92.3 } }
    const said = (heard: string) => judgeText({ response: '<p> [percent]', figures, heard }).verdict
    expect(said('ninety two three')).toBe('correct')
    expect(said('nine two three percent')).toBe('sayAgain')
    expect(said('ninety two four')).toBe('negative')
    expect(said('ninety two')).not.toBe('correct')
  })
})
