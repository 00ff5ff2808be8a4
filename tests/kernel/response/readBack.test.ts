import { describe, expect, it } from 'vitest'
import type { Figures } from '../../../src/kernel/kinds/kind.ts'
import { transcriptOf } from '../../../src/kernel/numbers/tokens.ts'
import { judgeReadBack, statesOf } from '../../../src/kernel/response/readBack.ts'
import { responseFrom } from '../../../src/kernel/response/response.ts'
import type { SpokenElement } from '../../../src/kernel/response/spokenElement.ts'
import { cases } from '../../cases.ts'
import type { Random } from '../../corpus/case.ts'
import { sourceOf } from '../../corpus/demoTransmissions.ts'
import { withTokens } from '../../corpus/judgeText.ts'
import {
  CHECK_SEED,
  judgementOf,
  outcomeOfTransmission,
  type Source,
  TUNING_SEED,
  transmissions,
} from '../../corpus/transmissions.ts'
import { packAt } from '../figures/marram.ts'

const ELEMENTS: readonly SpokenElement[] = [
  { id: 'limit', response: responseFrom('[cleared] [to] <limit>') },
  { id: 'level', response: responseFrom('[climb] [to] <level>') },
  { id: 'squawk', response: responseFrom('[squawk] <squawk>') },
  { id: 'hold', response: responseFrom('hold short {hold} [of] [runway] <runway>') },
]
const FIGURES: Figures = {
  limit: { kind: 'choice', value: 'corrie', options: { corrie: ['corrie'], melton: ['melton'] } },
  level: { kind: 'altitude', unit: 'ft', value: 5000 },
  squawk: { kind: 'digits', length: 4, value: '4271' },
  runway: { kind: 'runway', value: '27L' },
}
/** With fewer not every way of going wrong is among them. */
const LEAST = 200

const WHOLE = 'cleared to corrie climb five thousand squawk four two seven one hold short runway two seven left'
const read = (heard: string, more = {}) =>
  judgeReadBack(ELEMENTS, { figures: FIGURES, ...withTokens({ heard, ...more }) })

describe('a read-back', () => {
  it.each([
    [WHOLE, 'correct', 'ok ok ok ok'],
    ['hold short of runway two seven left squawk four two seven one five thousand', 'incomplete', 'missing ok ok ok'],
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

  it.each([
    ['hold short of runway two seven left cross runway two seven left', 'ok ok ok wrong'],
    ['cross runway two seven left hold short of runway two seven left', 'ok ok ok wrong'],
    ['hold short then cross runway two seven left', 'ok ok ok wrong'],
    ['hold short of runway two seven left hold short of runway two eight left', 'ok ok ok wrong'],
    ['crossing runway two seven left', 'ok ok ok wrong'],
    ['not hold short of runway two seven left', 'ok ok ok wrong'],
    ['hold short of runway two seven left squawk four two seven two', 'ok ok wrong ok'],
    ['hold short of runway two seven left four two seven two', 'missing missing missing missing'],
    ['hold short of runway two seven left melton', 'wrong ok ok ok'],
    ['hold short of runway two seven left squawk four two seven two correction four two seven one', 'ok ok ok ok'],
    ['hold short of runway two seven right correction runway two seven left', 'ok ok ok ok'],
    ['holding short of runway two seven left', 'ok ok ok ok'],
    ['short of runway two seven left', 'ok ok ok ok'],
  ])('that ends with "%s" leaves %s', (end, states) => {
    const judgement = read(WHOLE.replace(/hold short.*/, end))
    expect(Object.values(statesOf(ELEMENTS, judgement)).join(' ')).toBe(states)
    expect(judgement.verdict === 'correct').toBe(states === 'ok ok ok ok')
  })

  it('of the last element owed is not taken for another that has the same words', () => {
    const both = [...ELEMENTS, { id: 'departing', response: responseFrom('[runway] <departing>') }]
    const figures: Figures = { ...FIGURES, departing: { kind: 'runway', value: '09' } }
    const held = ['limit', 'level', 'squawk', 'departing']
    const state = (heard: string) => {
      const judgement = judgeReadBack(both, { figures, heard: transcriptOf(heard), held })
      const { hold, departing } = statesOf(both, judgement)
      return `${judgement.verdict} ${hold} ${departing}`
    }
    expect(state('hold short runway two seven left')).toBe('correct ok ok')
    expect(state('runway two seven left')).toBe('incomplete missing ok')
    expect(state('cross runway two seven left')).toBe('negative wrong ok')
    expect(state('hold short of runway two seven left runway zero nine')).toBe('correct ok ok')
    expect(state('hold short of runway two seven left runway one zero')).toBe('negative ok wrong')
  })

  it('denied in words that are a figure’s name is wrong', () => {
    const elements = [
      { id: 'runway', response: responseFrom('[runway] <runway>') },
      { id: 'hold', response: responseFrom('(hold short | holding short) {hold} [of] [runway] <crossing>') },
    ]
    const figures: Figures = { runway: { kind: 'runway', value: '06' }, crossing: { kind: 'runway', value: '33' } }
    const heard = transcriptOf('hold short then crossing runway three three')
    const judgement = judgeReadBack(elements, { figures, heard, held: ['runway'] })
    expect(`${judgement.verdict} ${statesOf(elements, judgement).hold}`).toBe('negative wrong')
  })

  describe('of elements that share words, or are said without any', () => {
    const elements = [
      { id: 'point', response: responseFrom('[taxi] [to] [holding point] <point>') },
      { id: 'stand', response: responseFrom('[stand] <stand>') },
      { id: 'sid', response: responseFrom('<sid> [departure]') },
      { id: 'level', response: responseFrom('[climb] [to] <level> [feet]') },
      { id: 'runway', response: responseFrom('[departure] [runway] <runway>') },
      { id: 'frequency', response: responseFrom('[departure] [frequency] [on] <frequency>') },
    ]
    const figures: Figures = {
      point: { kind: 'identifier', value: 'A3' },
      stand: { kind: 'identifier', value: 'Q7' },
      sid: { kind: 'choice', value: 'tarn', options: { tarn: ['tarn two alfa'], fell: ['fell one bravo'] } },
      level: { kind: 'altitude', unit: 'ft', value: 9500 },
      runway: { kind: 'runway', value: '22L' },
      frequency: { kind: 'frequency', value: 120.1 },
    }
    it.each([
      ['stand quebec seven', 'missing ok missing missing missing missing'],
      ['taxi to alfa three stand quebec seven', 'ok ok missing missing missing missing'],
      ['departure on one two zero decimal one', 'missing missing missing missing missing ok'],
      ['tarn two alfa departure one two zero decimal one', 'missing missing ok missing missing ok'],
      ['tarn two alfa departure departure runway two two left', 'missing missing ok missing ok missing'],
      ['tarn two alfa two two left climb nine thousand five hundred', 'missing missing ok ok ok missing'],
      ['climb nine thousand five hundred feet two two left', 'missing missing missing ok ok missing'],
      ['runway two two left one two zero decimal one', 'missing missing missing missing ok ok'],
      ['climb nine thousand five hundred feet two two right', 'missing missing missing ok wrong missing'],
      ['climb nine thousand five hundred feet one two zero decimal two', 'missing missing missing ok missing wrong'],
      ['runway two two left two two right', 'missing missing missing missing wrong missing'],
    ])('"%s": %s', (heard, states) => {
      const judgement = judgeReadBack(elements, { figures, heard: transcriptOf(heard) })
      expect(Object.values(statesOf(elements, judgement)).join(' ')).toBe(states)
    })
  })

  describe('in thousands of made ones', () => {
    it.each([
      ['tuning', 2_000, TUNING_SEED],
      ['check', 4_000, CHECK_SEED],
    ])(
      'is never taken for right where an element is wrong or left out, nor refused where it is right (%s)',
      (_, count, seed) => {
        expectNoneAstray(Math.max(LEAST, cases(count)), seed)
      },
    )

    it.each([
      ['tuning', 1_500, TUNING_SEED],
      ['check', 3_000, CHECK_SEED],
    ])('of the demo, in all the ways that its notation allows, neither (%s)', async (_, count, seed) => {
      expectNoneAstray(cases(count), seed, sourceOf(await packAt('checklists/marram')))
    })
  })
})

/** Every way of going wrong must have been tried, and none taken for what it is not. */
function expectNoneAstray(count: number, seed: number, source?: (random: Random) => Source) {
  const tried = new Set<string>()
  const astray = [...transmissions(count, seed, source)].filter((each) => {
    tried.add(each.why)
    const outcome = outcomeOfTransmission(each, judgementOf(each))
    return outcome === 'wrongAccepted' || outcome === 'rightRefused'
  })
  expect([...tried].sort()).toEqual(
    ['corrected', 'denied', 'leftOut', 'moved', 'otherFlight', 'right', 'twice', 'wrong'].sort(),
  )
  expect(astray.map(({ why, element, heard }) => `${why} ${element}: ${heard}`)).toEqual([])
}

describe('a number of knots', () => {
  const elements: readonly SpokenElement[] = [
    ...ELEMENTS.slice(0, 3),
    { id: 'speed', response: responseFrom('[maintain | reduce] [speed] [to] <speed> [knots]') },
  ]
  const figures: Figures = { ...FIGURES, speed: { kind: 'speed', value: 200, min: 100, max: 400 } }
  const verdictOf = (heard: string) => judgeReadBack(elements, { figures, ...withTokens({ heard }) }).verdict

  it.each([
    'cleared to corrie, climb five thousand feet, two hundred knots, squawk four two seven one',
    'cleared to corrie, two hundred knots, climb five thousand, squawk four two seven one',
    'cleared to corrie, climb five thousand, two hundred knots, squawk four two seven one',
    'cleared to corrie, climb five thousand, squawk four two seven one, reduce two hundred knots',
    'cleared to corrie, climb five thousand, speed two hundred knots, squawk four two seven one',
  ])('is the speed, and no level: %s', (heard) => {
    expect(verdictOf(heard)).toBe('correct')
  })

  it('is a wrong speed where it is another one, and no speed where it is missing', () => {
    const said = (speed: string) =>
      verdictOf(`cleared to corrie, climb five thousand feet, ${speed} squawk four two seven one`)
    expect(said('two hundred ten knots,')).toBe('negative')
    expect(said('one hundred knots,')).toBe('negative')
    expect(said('')).toBe('incomplete')
  })
})
