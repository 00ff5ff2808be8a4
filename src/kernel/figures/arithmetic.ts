/** Sums, products, and the least and the most of figures. */

import { type Calculator, failed, type Work } from './calculator.ts'
import { factors, number, numberIn, numbers, shown, shownEach } from './work.ts'
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

const most: Calculator = {
  about: 'The most of several figures.',
  takes: { of: { unit: 'same', many: true } },
  gives: 'same',
  run(work) {
    const value = Math.max(...numbers(work, 'of'))
    return { value, why: [{ text: `the most of ${shownEach(work, 'of').join(', ')}`, uses: [] }] }
  },
}

const absolute: Calculator = {
  about: 'A figure without its sign: how far two sides are apart.',
  takes: { of: { unit: 'same' } },
  gives: 'same',
  run(work) {
    const value = Math.abs(number(work, 'of'))
    return { value, why: [{ text: `${shown(work, 'of')} without its sign`, uses: [] }] }
  },
}

const product: Calculator = {
  about:
    'A figure times factors, numbers or figures; one in percent counts as a share: 5 percent of it are 0.05 times it.',
  takes: { of: { unit: 'same' }, times: { unit: 'any', many: true } },
  gives: 'same',
  run(work) {
    const value = factors(work, 'times').reduce((all, one) => all * one, number(work, 'of'))
    return { value, why: [{ text: [shown(work, 'of'), ...shownEach(work, 'times')].join(' x '), uses: [] }] }
  },
}

const ratio: Calculator = {
  about: 'One figure divided by another of the same sort; in percent where the figure is.',
  takes: { of: { unit: 'any' }, over: { unit: 'any' } },
  gives: 'same',
  run(work) {
    const [of, over] = [number(work, 'of'), numberIn(work, 'over', 'of')]
    if (over === 0)
      return failed(
        'figure.noNumber',
        `${work.figure.label}: ${shown(work, 'over')} is zero; nothing can be divided by it`,
      )
    const share = work.figure.unit === 'percent' ? 100 : 1
    return {
      value: (share * of) / over,
      unit: work.figure.unit,
      why: [{ text: `${shown(work, 'of')} by ${shown(work, 'over')}`, uses: [] }],
    }
  },
}

export const ARITHMETIC = { sum, difference, same, least, most, absolute, product, ratio } as const satisfies Record<
  string,
  Calculator
>
