import { describe, expect, it } from 'vitest'
import { judgeText, type TextInput } from '../../corpus/judgeText.ts'

const verdictOf = (item: Omit<TextInput, 'heard'>, heard: string) => judgeText({ ...item, heard }).verdict

const OAT = { response: '<t> [degrees]', figures: { t: { kind: 'temperature', unit: 'C', value: -4 } } } as const
const VOLTS = { response: '<v> [volts]', figures: { v: { kind: 'decimal', decimals: 1, value: 27.5 } } } as const
const WHOLE = { response: '<v> [volts]', figures: { v: { kind: 'integer', value: 28, min: 0, max: 40 } } } as const
const SHEET = {
  response: 'edition <e> <p> on board',
  figures: { e: { kind: 'integer', value: 2, min: 1, max: 9 }, p: { kind: 'integer', value: 71, min: 1, max: 200 } },
} as const
const OIL = {
  response: 'left <l> right <r>',
  figures: { l: { kind: 'integer', value: 62, min: 0 }, r: { kind: 'integer', value: 64, min: 0 } },
} as const
const GUARD = { challenge: 'guard', response: 'guard down switch off', figures: {}, states: [['on'], ['off']] }
const PUMPS = {
  challenge: 'hydraulic pumps',
  response: '(four | all) [pumps] on',
  figures: {},
  states: [['on'], ['off']],
}
const STANDBY = { challenge: 'transponder', response: 'standby', figures: {}, states: [['standby'], ['on']] }
const BELTS = {
  challenge: 'harness and doors',
  response: 'fastened {h} locked {d}',
  figures: {},
  states: [['fastened'], ['loose'], ['locked'], ['unlocked']],
}

describe('values in other forms', () => {
  it.each<readonly [Omit<TextInput, 'heard'>, string, string]>([
    [OAT, 'four degrees below zero', 'correct'],
    [OAT, 'four below', 'correct'],
    [OAT, 'five below zero', 'negative'],
    [OAT, 'four, below the limit', 'negative'],
    [VOLTS, 'twenty seven and a half', 'correct'],
    [{ ...WHOLE, figures: { v: { ...WHOLE.figures.v, value: 27 } } }, 'twenty seven and a half', 'negative'],
    [SHEET, 'seventy one on board, second edition', 'correct'],
    [SHEET, 'seventy one on board, third edition', 'negative'],
    [OIL, 'left side is sixty two psi, right side sixty four psi', 'correct'],
    [OIL, 'sixty two on the left one and sixty four on the right one', 'correct'],
    [OIL, 'sixty four on the left one and sixty two on the right one', 'negative'],
    [WHOLE, '28 volts', 'correct'],
    [WHOLE, '28 A', 'sayAgain'],
  ])('%o: "%s" is %s', (item, heard, verdict) => {
    expect(verdictOf(item, heard)).toBe(verdict)
  })
})

describe('words in their scope', () => {
  it.each<readonly [Omit<TextInput, 'heard'>, string, string]>([
    [STANDBY, 'standby', 'correct'],
    [STANDBY, 'stand by', 'command'],
    [GUARD, 'guard down, switch off', 'correct'],
    [GUARD, 'off', 'sayAgain'],
    [PUMPS, 'one, two, three and four on', 'correct'],
    [PUMPS, 'one two and four on', 'sayAgain'],
    [PUMPS, "number four's on", 'sayAgain'],
    [BELTS, 'my harness is fastened, doors locked', 'correct'],
    [BELTS, 'my harness is fastened, my door locked', 'incomplete'],
    [{ challenge: 'order', response: 'as soon as possible', figures: {} }, 'as soon as possible', 'correct'],
    [{ challenge: 'chocks', response: 'removed', figures: {} }, 'ground, chocks removed please', 'sayAgain'],
  ])('%o: "%s" is %s', (item, heard, verdict) => {
    expect(verdictOf(item, heard)).toBe(verdict)
  })
})
