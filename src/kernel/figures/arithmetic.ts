/** Sums, differences and plain conversions. */

import type { Calculator, Work } from './calculator.ts'
import { number, numbers, shown, shownEach } from './work.ts'
import { part, sumExplanation } from './workings.ts'

function termsOf(work: Work, parameter: string) {
  const amounts = numbers(work, parameter)
  return shownEach(work, parameter).map((text, index) => part(work, text, amounts[index] ?? Number.NaN))
}

const sum: Calculator = {
  about: 'Figures added up.',
  takes: { of: { unit: 'same', many: true } },
  gives: 'same',
  run(work) {
    const value = numbers(work, 'of').reduce((total, one) => total + one, 0)
    return { value, why: [{ text: sumExplanation(work, termsOf(work, 'of'), value), uses: [] }] }
  },
}

const difference: Calculator = {
  about: 'One figure less others.',
  takes: { of: { unit: 'same' }, less: { unit: 'same', many: true } },
  gives: 'same',
  run(work) {
    const value = numbers(work, 'less').reduce((left, one) => left - one, number(work, 'of'))
    const terms = [...termsOf(work, 'of'), ...termsOf(work, 'less')]
    return { value, why: [{ text: sumExplanation(work, terms, value, '-'), uses: [] }] }
  },
}

const same: Calculator = {
  about: 'The same value in another unit, or rounded otherwise.',
  takes: { of: { unit: 'same' } },
  gives: 'same',
  run: (work) => ({ value: number(work, 'of'), why: [{ text: shown(work, 'of'), uses: [] }] }),
}

/** V one is never above the rotate speed (14 CFR 25.107(e)(1)(i)): the lesser of what its table gives and that. */
const least: Calculator = {
  about: 'The least of several figures.',
  takes: { of: { unit: 'same', many: true } },
  gives: 'same',
  run(work) {
    const value = Math.min(...numbers(work, 'of'))
    return { value, why: [{ text: `the least of ${shownEach(work, 'of').join(', ')}`, uses: [] }] }
  },
}

export const ARITHMETIC = { sum, difference, same, least } as const satisfies Record<string, Calculator>
