/** Name -> calculator: all that a pack may derive a figure by. */

import { AIR } from './air.ts'
import { ARITHMETIC } from './arithmetic.ts'
import type { Calculator } from './calculator.ts'
import { FUEL } from './fuel.ts'
import { LAST_MINUTE } from './lastMinute.ts'
import { LOADING } from './loading.ts'
import { lookUp } from './lookup.ts'
import { PERFORMANCE } from './performance.ts'
import { SHIFTING } from './shifting.ts'

export const CALCULATORS: Readonly<Record<string, Calculator>> = {
  ...LOADING,
  ...FUEL,
  ...ARITHMETIC,
  ...LAST_MINUTE,
  ...SHIFTING,
  ...AIR,
  ...PERFORMANCE,
  lookUp: {
    about: 'A table looked up, linear between its entries or read at one of them, never outside them.',
    takes: {},
    needs: ['table'],
    gives: 'any',
    run: lookUp,
  },
}

/** A calculator by name; packs are checked, so an unknown one is a bug. */
export function calculatorFor(name: string): Calculator {
  const found = Object.hasOwn(CALCULATORS, name) ? CALCULATORS[name] : undefined
  if (!found) throw new Error(`no calculator is called ${name}`)
  return found
}
