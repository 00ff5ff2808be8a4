import { describe, expect, it } from 'vitest'
import type { Figures } from '../../../src/kernel/kinds/kind.ts'
import { judge } from '../../../src/kernel/response/judge.ts'
import { parseResponse } from '../../../src/kernel/response/parse.ts'
import { sayResponse, showResponse } from '../../../src/kernel/response/sentence.ts'

const FIGURES: Figures = {
  trim: { kind: 'trim', decimals: 1, value: 5.2 },
  v1: { kind: 'speed', value: 128 },
  vr: { kind: 'speed', value: 131 },
  v2: { kind: 'speed', value: 138 },
}

describe('the answer of the other pilot, and the line on the card', () => {
  it.each([
    ['<trim> [set]', 'five point two up set', '5.2 up set'],
    ['(armed | on)', 'armed', 'armed'],
    [
      'V one <v1> rotate <vr> V two <v2>',
      'V one one two eight rotate one three one V two one three eight',
      'V one 128 kt rotate 131 kt V two 138 kt',
    ],
    ['full left {left} full right {right}', 'full left full right', 'full left full right'],
    ['<gone> set', 'set', 'set'],
  ])('%s', (text, said, shown) => {
    const parsed = parseResponse(text)
    if (!('response' in parsed)) throw new Error(text)
    expect(sayResponse(parsed.response, FIGURES, 'plain')).toBe(said)
    expect(showResponse(parsed.response, FIGURES)).toBe(shown)
  })

  it.each(['plain', 'standard', 'verbatim'] as const)(
    'what it says would be judged correct in %s phraseology',
    (phraseology) => {
      for (const text of ['<trim> [set]', '(armed | on)', 'V one <v1> rotate <vr> V two <v2>', 'checked <trim> set']) {
        const parsed = parseResponse(text)
        if (!('response' in parsed)) throw new Error(text)
        const heard = sayResponse(parsed.response, FIGURES, phraseology)
        expect([text, judge({ response: text, figures: FIGURES, heard, phraseology }).verdict]).toEqual([
          text,
          'correct',
        ])
      }
    },
  )
})
