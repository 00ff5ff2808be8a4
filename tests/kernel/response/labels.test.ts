/** Which words of a response are the label or the unit of a figure, and may be left out, and which are parts. */

import { describe, expect, it } from 'vitest'
import type { Figures } from '../../../src/kernel/kinds/kind.ts'
import { judgeText } from '../../corpus/judgeText.ts'

const figures: Figures = { n: { kind: 'integer', value: 5 }, m: { kind: 'integer', value: 6 } }
const judged = (response: string, heard: string) => {
  const { verdict, parts } = judgeText({ response, figures, heard })
  return `${verdict}: ${parts.map(({ name, state }) => `${name} ${state}`).join(', ')}`
}

const ROWS: readonly (readonly [what: string, response: string, said: Readonly<Record<string, string>>])[] = [
  [
    'a name before a figure is its label',
    'pump <n>',
    { five: 'correct: n ok', 'pump five': 'correct: n ok', six: 'negative: n wrong' },
  ],
  ['a name with a direction in it, too', 'left pump <n>', { five: 'correct: n ok', 'left pump five': 'correct: n ok' }],
  [
    'a state before the only figure is a part',
    'on <n>',
    {
      five: 'incomplete: on missing, n ok',
      'on five': 'correct: on ok, n ok',
      'off five': 'negative: on wrong, n ok',
    },
  ],
  [
    'a word that reports is a part',
    'armed <n>',
    {
      five: 'incomplete: armed missing, n ok',
      'armed five': 'correct: armed ok, n ok',
      'five armed': 'correct: armed ok, n ok',
    },
  ],
  ['also "checked"', 'checked <n>', { five: 'incomplete: checked missing, n ok' }],
  [
    'also where only one of its wordings reports',
    '(pump | checked) <n>',
    { five: 'incomplete: pump missing, n ok', 'pump five': 'correct: pump ok, n ok' },
  ],
  [
    'also where only one of its wordings is a state',
    '(pump | locked) <n>',
    { five: 'incomplete: pump missing, n ok', 'pump five': 'correct: pump ok, n ok' },
  ],
  [
    'with several figures states are labels',
    'on <n> off <m>',
    { 'on five off six': 'correct: n ok, m ok', 'off six on five': 'correct: n ok, m ok' },
  ],
  [
    'labels say which number is whose',
    'pump <n> valve <m>',
    { 'valve six pump five': 'correct: n ok, m ok', 'valve five pump six': 'negative: n wrong, m wrong' },
  ],
  ['a unit after a figure may be left out', '<n> units', { five: 'correct: n ok', 'five units': 'correct: n ok' }],
  ['a word beside the unit is a part', '<n> units set', { five: 'incomplete: n ok, units set missing' }],
  [
    'a word after a figure is a part',
    '<n> set',
    { five: 'incomplete: n ok, set missing', 'five set': 'correct: n ok, set ok' },
  ],
]

describe.each(ROWS)('%s: "%s"', (_, response, said) => {
  it.each(Object.entries(said))('"%s" is %s', (heard, outcome) => {
    expect(judged(response, heard)).toBe(outcome)
  })
})
