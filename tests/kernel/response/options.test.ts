import { describe, expect, it } from 'vitest'
import type { Figure, Figures } from '../../../src/kernel/kinds/kind.ts'
import { transcriptOf } from '../../../src/kernel/numbers/tokens.ts'
import { judgeReadBack, statesOf } from '../../../src/kernel/response/readBack.ts'
import { responseFrom } from '../../../src/kernel/response/response.ts'
import type { SpokenElement } from '../../../src/kernel/response/spokenElement.ts'
import { judgeText } from '../../corpus/judgeText.ts'

const choice = (value: string, ...others: string[]): Figure => ({
  kind: 'choice',
  value,
  options: Object.fromEntries([value, ...others].map((name) => [name, [name]])),
})

const FIGURES: Figures = {
  limit: choice('corrie', 'melton'),
  departure: choice('lantern two alfa', 'lantern four alfa', 'wicket one bravo', 'fell eight'),
  level: { kind: 'altitude', unit: 'ft', value: 7000 },
  squawk: { kind: 'digits', length: 4, value: '4271' },
}

describe('a position of a choice, said by its name among other values', () => {
  const response = '[cleared] [to] <limit> [climb] [to] <level> [squawk] <squawk>'
  it.each([
    ['climb seven thousand squawk four two seven one', 'incomplete', 'limit'],
    ['seven thousand four two seven one', 'incomplete', 'limit'],
    ['cleared to corrie squawk four two seven one', 'incomplete', 'level'],
    ['corrie seven thousand', 'incomplete', 'squawk'],
    ['cleared to corrie seven thousand squawk four two seven one', 'correct', undefined],
    ['corrie seven thousand four two seven one', 'correct', undefined],
    ['seven thousand corrie squawk four two seven one', 'correct', undefined],
    ['cleared to melton seven thousand squawk four two seven one', 'negative', undefined],
    ['cleared to corrie eight thousand squawk four two seven one', 'negative', undefined],
  ])('"%s" is %s (%s)', (heard, verdict, missing) => {
    const judgement = judgeText({ response, figures: FIGURES, heard })
    expect(judgement.verdict).toBe(verdict)
    if (missing) expect(judgement.parts.find(({ name }) => name === missing)?.state).toBe('missing')
  })

  it('takes a number where one of its positions is a number', () => {
    const figures: Figures = {
      flap: { kind: 'choice', value: '5', options: { '5': ['five'], '15': ['fifteen'], up: ['up'] } },
      trim: { kind: 'trim', decimals: 1, value: 5.2 },
    }
    const flapTrim = (heard: string) => judgeText({ response: '[flap] <flap> <trim>', figures, heard }).verdict
    expect(flapTrim('five five point two up')).toBe('correct')
    expect(flapTrim('fifteen five point two up')).toBe('negative')
    expect(flapTrim('five point two up')).toBe('incomplete')
  })

  it('is no call sign, though an operator is called like it', () => {
    const figures: Figures = {
      departure: FIGURES.departure as Figure,
      callsign: { kind: 'callsign', telephony: ['Lantern'], value: 'LANTERN 4' },
    }
    const signed = (heard: string) => judgeText({ response: '<departure> [<callsign>]', figures, heard })
    expect(signed('lantern two alfa').verdict).toBe('correct')
    expect(signed('lantern two alfa lantern four').verdict).toBe('correct')
    expect(signed('lantern four alfa').parts[0]).toMatchObject({ name: 'departure', state: 'wrong' })
    expect(signed('lantern four').verdict).not.toBe('correct')
  })
})

describe('words of a name that sound like a number are one another', () => {
  const named = (heard: string, phraseology = 'plain' as 'plain' | 'standard') =>
    judgeText({ response: '<departure> [departure]', figures: FIGURES, heard, phraseology }).verdict

  it.each([
    ['lantern to alfa', 'correct'],
    ['lantern too alfa departure', 'correct'],
    ['lantern two alfa', 'correct'],
    ['lantern 2 alfa', 'correct'],
    ['lantern for alfa', 'negative'],
    ['lantern fore alfa departure', 'negative'],
    ['wicket won bravo', 'negative'],
    ['fell ate', 'negative'],
    ['lantern alfa', 'sayAgain'],
    ['lantern to', 'sayAgain'],
    ['to alfa', 'sayAgain'],
  ])('"%s" is %s', (heard, verdict) => {
    expect(named(heard)).toBe(verdict)
  })

  it('in standard phraseology too: it is how it was written, not how it was said', () => {
    expect(named('lantern to alfa', 'standard')).toBe('correct')
  })

  it('in a clearance, where "to" is a word of others as well', () => {
    const elements: readonly SpokenElement[] = [
      { id: 'limit', response: responseFrom('[cleared] [to] <limit>') },
      { id: 'departure', response: responseFrom('<departure> [departure]') },
      { id: 'level', response: responseFrom('[climb] [to] <level>') },
      { id: 'squawk', response: responseFrom('[squawk] <squawk>') },
    ]
    const states = (heard: string) =>
      Object.values(statesOf(elements, judgeReadBack(elements, { figures: FIGURES, heard: transcriptOf(heard) }))).join(
        ' ',
      )
    const rest = 'climb to seven thousand squawk for to seven one'
    expect(states(`cleared to corrie lantern to alfa ${rest}`)).toBe('ok ok ok ok')
    expect(states(`cleared to corrie lantern too alfa departure ${rest}`)).toBe('ok ok ok ok')
    expect(states(`cleared to corrie lantern for alfa ${rest}`)).toBe('ok wrong ok ok')
    expect(states(`cleared to corrie ${rest}`)).toBe('ok missing ok ok')
    expect(states(`lantern to alfa ${rest}`)).toBe('missing ok ok ok')
  })

  it.each([
    [
      'at the end of a name, where a number follows',
      { it: choice('corrie two', 'melton one') },
      'corrie to seven thousand',
    ],
    ['at the end of a name, where another one ends before it', { it: choice('tarn two', 'tarn') }, 'tarn to'],
  ])('never %s', (_, own, heard) => {
    const figures = { ...own, level: FIGURES.level as Figure }
    expect(judgeText({ response: '<it> [to] [<level>]', figures, heard }).verdict).not.toBe('correct')
  })

  it('and make no number anywhere else less exact', () => {
    const figures = { level: FIGURES.level as Figure, squawk: FIGURES.squawk as Figure }
    const verdict = (heard: string) => judgeText({ response: 'climb <level> squawk <squawk>', figures, heard }).verdict
    expect(verdict('climb seven thousand squawk four two seven one')).toBe('correct')
    expect(verdict('climb seven thousand squawk four two seven two')).toBe('negative')
    expect(verdict('climb to seven thousand squawk four two seven one')).toBe('sayAgain')
    expect(verdict('climb seven thousand squawk four seven one')).not.toBe('correct')
  })
})
