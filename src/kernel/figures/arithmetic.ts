/** Sums, differences and plain conversions. */

import type { Calculator } from './calculator.ts'

const sum: Calculator = {
  about: 'Figures added up.',
  takes: { of: { unit: 'same', many: true } },
  gives: 'same',
  run: (work) => ({
    value: work.numbers('of').reduce((total, value) => total + value, 0),
    why: [{ text: work.shownEach('of').join(' + '), uses: [] }],
  }),
}

const difference: Calculator = {
  about: 'One figure less others.',
  takes: { of: { unit: 'same' }, less: { unit: 'same', many: true } },
  gives: 'same',
  run: (work) => ({
    value: work.numbers('less').reduce((left, value) => left - value, work.number('of')),
    why: [{ text: [work.shown('of'), ...work.shownEach('less')].join(' - '), uses: [] }],
  }),
}

const same: Calculator = {
  about: 'The same value in another unit, or rounded otherwise.',
  takes: { of: { unit: 'same' } },
  gives: 'same',
  run: (work) => ({ value: work.number('of'), why: [{ text: work.shown('of'), uses: [] }] }),
}

export const ARITHMETIC = { sum, difference, same } as const satisfies Record<string, Calculator>
