/** A telephony designator says what it begins: the call sign, wherever it is said. */

import { describe, expect, it } from 'vitest'
import type { Figures } from '../../../src/kernel/kinds/kind.ts'
import { judgeText } from '../../corpus/judgeText.ts'

const figures: Figures = {
  level: { kind: 'altitude', unit: 'ft', value: 5000 },
  sign: { kind: 'callsign', telephony: ['saltmarsh'], value: 'SALTMARSH 421' },
}
const judged = (response: string, heard: string) => {
  const { verdict, parts } = judgeText({ response, figures, heard })
  return `${verdict}: ${parts.map(({ name, state }) => `${name} ${state}`).join(', ')}`
}

describe('of a level and a call sign', () => {
  it.each([
    ['five thousand saltmarsh four two one', 'correct: level ok, sign ok'],
    ['saltmarsh four two one', 'incomplete: level missing, sign ok'],
    ['saltmarsh four two two', 'negative: level missing, sign wrong'],
    ['five thousand', 'incomplete: level ok, sign missing'],
    ['five thousand saltmarsh four two two correction saltmarsh four two one', 'correct: level ok, sign ok'],
    ['six thousand saltmarsh four two one correction five thousand', 'correct: level ok, sign ok'],
  ])('"%s" is %s', (heard, outcome) => {
    expect(judged('<level> <sign>', heard)).toBe(outcome)
  })
})
