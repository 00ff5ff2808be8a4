/** Performance beyond plain table look-ups: the temperature that thrust is set for. */

import { type Calculator, failed } from './calculator.ts'
import { maybe, number, shown } from './work.ts'

const thrustTemperature: Calculator = {
  about: 'The temperature to look thrust up by: the assumed one where one is given, else the outside one.',
  takes: {
    outside: { unit: 'C' },
    assumed: { unit: 'C', optional: true },
    most: { unit: 'C' },
  },
  gives: 'C',
  run(work) {
    const [outside, assumed] = [number(work, 'outside'), maybe(work, 'assumed')]
    if (assumed === undefined)
      return { value: outside, why: [{ text: `${shown(work, 'outside')}, none assumed`, uses: [] }] }
    // Thrust may be taken down by assuming warmer air, never up by assuming colder.
    if (assumed < outside) {
      return failed(
        'limit.assumed',
        `${shown(work, 'assumed')} is below ${shown(work, 'outside')}; assume a higher one or none`,
      )
    }
    if (assumed > number(work, 'most')) {
      return failed(
        'limit.assumed',
        `${shown(work, 'assumed')} is above the highest that may be assumed, ${shown(work, 'most')}`,
      )
    }
    return { value: assumed, why: [{ text: `${shown(work, 'assumed')} assumed, ${shown(work, 'outside')}`, uses: [] }] }
  },
}

export const PERFORMANCE = { thrustTemperature } as const satisfies Record<string, Calculator>
