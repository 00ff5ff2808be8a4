import { describe, expect, it } from 'vitest'
import type { Figures } from '../../../src/kernel/kinds/kind.ts'
import { responseFrom } from '../../../src/kernel/response/response.ts'
import { outlineOf, outlineOfAll, sayResponse, usualWording } from '../../../src/kernel/response/sentence.ts'
import { judgeText } from '../../corpus/judgeText.ts'

const FIGURES: Figures = {
  trim: { kind: 'trim', decimals: 1, value: 5.2 },
  v1: { kind: 'speed', value: 128 },
  vr: { kind: 'speed', value: 131 },
  v2: { kind: 'speed', value: 138 },
}

describe('the answer of the other pilot', () => {
  it.each([
    ['<trim> [set]', 'five point two up set'],
    ['(armed | on)', 'armed'],
    ['V one <v1> rotate <vr> V two <v2>', 'V one one two eight rotate one three one V two one three eight'],
    ['full left {left} full right {right}', 'full left full right'],
    ['<gone> set', 'set'],
    ['(<gone> | [<v1>])', 'one two eight'],
    ['(<gone> | [<gone>])', ''],
    ['a set <gone> b set z set', 'a set B set Z set'],
  ])('%s', (text, said) => {
    expect(sayResponse(responseFrom(text), FIGURES, 'plain')).toBe(said)
  })

  it.each(['plain', 'standard', 'verbatim'] as const)(
    'what it says would be judged correct in %s phraseology',
    (phraseology) => {
      for (const text of ['<trim> [set]', '(armed | on)', 'V one <v1> rotate <vr> V two <v2>', 'checked <trim> set']) {
        const heard = sayResponse(responseFrom(text), FIGURES, phraseology)
        expect([text, judgeText({ response: text, figures: FIGURES, heard, phraseology }).verdict]).toEqual([
          text,
          'correct',
        ])
      }
    },
  )
})

it('the usual way to say something is its first, with all that may be said and no value', () => {
  expect(usualWording(responseFrom('[engine] stable <value> [percent] | stable'))).toBe('engine stable … percent')
})

it('writes the figures of the way that is said, and of no other', () => {
  const written: string[] = []
  const text = outlineOf(responseFrom('<hpa> set | <inches> set'), (name) => {
    written.push(name)
    return name
  })
  expect([text, written]).toEqual(['hpa set', ['hpa']])
})

it('on a card has both of two answers that cannot both be so, and one of those that mean the same', () => {
  const card = (text: string) => outlineOfAll(responseFrom(text), () => '')
  expect(card('left | right')).toBe('left or right')
  expect(card('set | applied')).toBe('set')
  expect(card('[mixture] (rich | leaned)')).toBe('mixture rich or leaned')
  expect(card('(up | ten | twenty five)')).toBe('up or ten or twenty five')
  expect(card('(normal | bypass)')).toBe('normal or bypass')
  expect(card('(main tank | wing tank)')).toBe('main tank or wing tank')
  expect(card('both latched | both doors latched')).toBe('both latched')
  expect(card('close both throttles | both throttles closed')).toBe('close both throttles')
  expect(card('[best rate | blue line] set')).toBe('best rate set')
  expect(card('(not armed | armed)')).toBe('not armed or armed')
  expect(card('[left | right] set')).toBe('left or right set')
  const values = outlineOfAll(responseFrom('(<hpa> | <inches> | standard) [set]'), (name) => `(${name})`)
  expect(values).toBe('(hpa) or (inches) or standard set')
})

it('says a unit once', () => {
  const thrust = { thrust: { kind: 'decimal', decimals: 1, unit: 'percent', value: 90.2 } } as const
  expect(sayResponse(responseFrom('<thrust> [percent]'), thrust, 'plain')).toMatch(/[^t] percent$/)
})
