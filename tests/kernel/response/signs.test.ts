/** Signs that are typed beside a number and make something else of it. */

import { expect, it } from 'vitest'
import { hypothesesOf } from '../../../src/kernel/response/hypotheses.ts'
import { judge } from '../../../src/kernel/response/judge.ts'
import { responseFrom } from '../../../src/kernel/response/response.ts'

const verdict = (text: string) =>
  judge({
    ...hypothesesOf({ text }),
    response: responseFrom('<fuel> [kilograms]'),
    figures: { fuel: { kind: 'weight', unit: 'kg', value: 1400 } },
    challenge: 'fuel on board',
  }).verdict

it.each([
  ...['- 1400', '− 1400', '-1400', '1400-', '<1400', '< 1400', '>1400', '≠1400', '!1400', '1400?', '1400 ?', '~1400'],
  ...['1400 ✗', '1400 ❌', '±1400', '1400*2', '1400^2', 'fuel on board <1400'],
])('"%s" is not right', (text) => {
  expect(verdict(text)).not.toBe('correct')
})

it.each(['1400', '1400!', '1,400 kg', 'fuel on board - 1400', 'fuel on board: 1400', '1400.'])(
  '"%s" is right',
  (text) => {
    expect(verdict(text)).toBe('correct')
  },
)
