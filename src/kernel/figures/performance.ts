/** Performance beyond plain table look-ups: the temperature that thrust is set for. */

import { type Calculator, failed } from './calculator.ts'

const thrustTemperature: Calculator = {
  about: 'The temperature to look thrust up by: the assumed one where one is given, else the outside one.',
  takes: {
    outside: { unit: 'C' },
    assumed: { unit: 'C', optional: true },
    most: { unit: 'C' },
  },
  gives: 'C',
  run(work) {
    const [outside, assumed] = [work.number('outside'), work.maybe('assumed')]
    if (assumed === undefined)
      return { value: outside, why: [{ text: `${work.shown('outside')}, none assumed`, uses: [] }] }
    // Thrust may be taken down by assuming warmer air, never up by assuming colder.
    if (assumed < outside) {
      return failed(
        'limit.assumed',
        `${work.shown('assumed')} is below ${work.shown('outside')}; assume a higher one or none`,
      )
    }
    if (assumed > work.number('most')) {
      return failed(
        'limit.assumed',
        `${work.shown('assumed')} is above the highest that may be assumed, ${work.shown('most')}`,
      )
    }
    return { value: assumed, why: [{ text: `${work.shown('assumed')} assumed, ${work.shown('outside')}`, uses: [] }] }
  },
}

export const PERFORMANCE = { thrustTemperature } as const satisfies Record<string, Calculator>
