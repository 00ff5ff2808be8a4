import { describe, expect, it } from 'vitest'
import { hasAnswerShape } from '../../../src/kernel/hearing/answerShape.ts'
import type { KindSpec } from '../../../src/kernel/kinds/kind.ts'

const TRIM: readonly KindSpec[] = [{ kind: 'trim', decimals: 1 }]
const SPEEDS: readonly KindSpec[] = [
  { kind: 'speed', unit: 'kt' },
  { kind: 'speed', unit: 'kt' },
]
const WEIGHT: readonly KindSpec[] = [{ kind: 'weight', unit: 'kg' }]
const ALTIMETER: readonly KindSpec[] = [{ kind: 'altimeter', unit: 'hPa' }]
const FLAP: readonly KindSpec[] = [{ kind: 'choice', options: ['7', '12'] } as unknown as KindSpec]

describe('an answer with values', () => {
  it.each([
    [TRIM, 'takeoff trim', 'takeoff trim five point two units nose up set and checked'],
    [TRIM, 'takeoff trim', 'five point two up correction five point three up'],
    [TRIM, 'takeoff trim', 'five point two five point two up'],
    [SPEEDS, 'takeoff speeds', 'v one one two eight and rotate one three four set'],
    [SPEEDS, 'takeoff speeds', 'one hundred and twenty eight rotate one hundred thirty four'],
    [SPEEDS, 'takeoff speeds', 'one twenty eight one thirty four'],
    [SPEEDS, 'takeoff speeds', 'a hundred twenty eight and rotate one thirty four'],
    [TRIM, 'takeoff trim', 'five point two up sorry five point three up'],
    [WEIGHT, 'fuel on board', 'five thousand six hundred and forty kilograms'],
    [WEIGHT, 'fuel on board', 'twenty four thousand six hundred twenty'],
    [ALTIMETER, 'altimeters', 'one thousand and thirteen hectopascals set'],
    [ALTIMETER, 'altimeters', 'double nine eight'],
    [FLAP, 'flap', 'flap twelve twelve set'],
    [[], 'parking brake', 'brake set one two three four five six seven eight'],
    [TRIM, 'takeoff trim', 'say again'],
  ])('of %j may go "%s": "%s"', (shapes, challenge, text) => {
    expect(hasAnswerShape(shapes, challenge, text)).toBe(true)
  })

  // What the recogniser made of narration that was bent onto numbers.
  it.each([
    [TRIM, 'takeoff trim', 'set ninety lantern down six minus nineteen'],
    [TRIM, 'takeoff trim', 'ninety eight three four decimal eight'],
    [ALTIMETER, 'altimeters', 'ten ninety lantern delta fife nine eighteen'],
    [ALTIMETER, 'altimeters', 'ninety eight three four thousand lake'],
    [WEIGHT, 'fuel on board', 'three willow and and ninety engine lake ten three eight'],
    [SPEEDS, 'takeoff speeds', 'eight v seven rotate nine'],
    [ALTIMETER, 'altimeters', 'lake eight seven left and down checked bravo engine'],
  ])('of %j does not go "%s": "%s"', (shapes, challenge, text) => {
    expect(hasAnswerShape(shapes, challenge, text)).toBe(false)
  })

  it('does not depend on values: every code of four digits has it, and none with five', () => {
    const shapes: readonly KindSpec[] = [{ kind: 'digits', length: 4 }]
    const digits = ['zero', 'one', 'two', 'three', 'four', 'five', 'six', 'seven', 'eight', 'niner']
    for (let code = 0; code < 10_000; code += 37) {
      const said = [...String(code).padStart(4, '0')].map((digit) => digits[Number(digit)]).join(' ')
      expect(hasAnswerShape(shapes, 'transponder', `code ${said}`), said).toBe(true)
      expect(hasAnswerShape(shapes, 'transponder', `${said} ${digits[code % 10]}`), said).toBe(false)
    }
  })
})
