import { describe, expect, it } from 'vitest'
import type { Figures } from '../../../src/kernel/kinds/kind.ts'
import { judgeReadBack, type SpokenElement, statesOf } from '../../../src/kernel/response/readBack.ts'
import { topicsIn } from '../../../src/kernel/response/topics.ts'
import { outcomeOfTransmission, TUNING_SEED, transmissions } from '../../corpus/transmissions.ts'

const ELEMENTS: readonly SpokenElement[] = [
  { id: 'limit', response: '[cleared] [to] <limit>' },
  { id: 'level', response: '[climb] [to] <level>' },
  { id: 'squawk', response: '[squawk] <squawk>' },
  { id: 'hold', response: 'hold short {hold} [of] [runway] <runway>' },
]
const FIGURES: Figures = {
  limit: { kind: 'choice', value: 'corrie', options: { corrie: ['corrie'], melton: ['melton'] } },
  level: { kind: 'altitude', unit: 'ft', value: 5000 },
  squawk: { kind: 'digits', length: 4, value: '4271' },
  runway: { kind: 'runway', value: '27L' },
}
const WHOLE = 'cleared to corrie climb five thousand squawk four two seven one hold short runway two seven left'
const read = (heard: string, more = {}) => judgeReadBack(ELEMENTS, { figures: FIGURES, heard, ...more })

describe('a read-back', () => {
  it.each([
    [WHOLE, 'correct', 'ok ok ok ok'],
    [
      'hold short of runway two seven left squawk four two seven one five thousand',
      'sayAgain',
      'missing missing missing missing',
    ],
    ['hold short runway two seven left climb five thousand squawk four two seven one corrie', 'correct', 'ok ok ok ok'],
    [WHOLE.replace('left', 'right'), 'negative', 'ok ok ok wrong'],
    [WHOLE.replace('hold short ', ''), 'incomplete', 'ok ok ok missing'],
    [WHOLE.replace('seven one', 'one seven'), 'negative', 'ok ok wrong ok'],
    ['squawk four two seven one correction four two seven two', 'negative', 'missing missing wrong missing'],
    [`${WHOLE} correction squawk four two seven two`, 'negative', 'ok ok wrong ok'],
    ['roger', 'sayAgain', 'missing missing missing missing'],
    ['', 'sayAgain', 'missing missing missing missing'],
  ])('"%s" is %s', (heard, verdict, states) => {
    const judgement = read(heard)
    expect(judgement.verdict).toBe(verdict)
    expect(Object.values(statesOf(ELEMENTS, judgement)).join(' ')).toBe(states)
  })

  it('goes on from what was right in an earlier transmission', () => {
    expect(read('squawk four two seven one', { held: ['limit', 'level', 'hold', 'runway'] }).verdict).toBe('correct')
  })

  it('is asked for again where an equally likely hearing says another value', () => {
    const alternatives = [{ text: WHOLE.replace('seven one', 'seven nine') }]
    expect(read(WHOLE, { alternatives })).toMatchObject({ verdict: 'sayAgain', because: 'ambiguous' })
  })

  it('is never taken for right when an element is wrong or left out, in thousands of made ones', () => {
    const not = (outcome: string) =>
      [...transmissions(4_000, TUNING_SEED)].filter((each) => {
        const judgement = judgeReadBack(each.elements, { figures: each.figures, heard: each.heard })
        return outcomeOfTransmission(each, judgement) === outcome
      })
    expect(not('wrongAccepted')).toEqual([])
    expect(not('rightRefused')).toEqual([])
  })
})

describe('topics of a briefing', () => {
  const TOPICS = [
    { id: 'runway', say: ['[departing] runway <runway>'] },
    { id: 'level', say: ['[first] level <level>'] },
    { id: 'reject', say: ['rejected takeoff', 'we stop'] },
  ]
  it.each([
    ['runway two seven left', { runway: 'ok' }],
    ['we are departing runway two seven left today and level five thousand first', { runway: 'ok', level: 'ok' }],
    ['first level five thousand five hundred', { level: 'wrong' }],
    ['runway two seven right and in a rejected takeoff I brake', { runway: 'wrong', reject: 'ok' }],
    ['before eighty knots we stop for anything', { reject: 'ok' }],
    ['the weather is fine', {}],
  ])('are found in "%s"', (heard, topics) => {
    expect(topicsIn(TOPICS, FIGURES, heard).topics).toEqual(topics)
  })
})
