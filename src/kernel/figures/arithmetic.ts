/** Sums, differences and plain conversions. */

import type { Calculator } from './calculator.ts'
import { number, numbers, shown, shownEach } from './work.ts'

const sum: Calculator = {
  about: 'Figures added up.',
  takes: { of: { unit: 'same', many: true } },
  gives: 'same',
  run: (work) => ({
    value: numbers(work, 'of').reduce((total, value) => total + value, 0),
    why: [{ text: shownEach(work, 'of').join(' + '), uses: [] }],
  }),
}

const difference: Calculator = {
  about: 'One figure less others.',
  takes: { of: { unit: 'same' }, less: { unit: 'same', many: true } },
  gives: 'same',
  run: (work) => ({
    value: numbers(work, 'less').reduce((left, value) => left - value, number(work, 'of')),
    why: [{ text: [shown(work, 'of'), ...shownEach(work, 'less')].join(' - '), uses: [] }],
  }),
}

const same: Calculator = {
  about: 'The same value in another unit, or rounded otherwise.',
  takes: { of: { unit: 'same' } },
  gives: 'same',
  run: (work) => ({ value: number(work, 'of'), why: [{ text: shown(work, 'of'), uses: [] }] }),
}

export const ARITHMETIC = { sum, difference, same } as const satisfies Record<string, Calculator>
