/** From an exact value to the one that is spoken: to a step, nearest, up or down. */

import type { KindSpec } from '../kinds/kind.ts'
import type { FigureDeclaration, Rounding } from './pack.ts'

/** A step counts as reached within this share of it: 5.2 computed as 5.200000000001 is not rounded up to 5.3. */
const SLACK = 1e-9

/** Rounds to a step; halves go away from zero. */
export function roundTo(value: number, { step, direction }: Rounding): number {
  const steps = value / step
  const whole = Math.round(steps)
  const near = Math.abs(steps - whole) < SLACK * Math.max(1, Math.abs(steps))
  const count = near ? whole : rounded(steps, direction)
  // Through decimal text, so that 52 steps of 0.1 are 5.2 and not 5.2000000000000002; plus zero turns -0 into 0.
  return Number((count * step).toFixed(decimalsOf(step))) + 0
}

function rounded(steps: number, direction: Rounding['direction']): number {
  switch (direction) {
    case 'nearest':
      // The sum of inputs such as 0.15 / 0.1 falls just short of the half.
      return Math.sign(steps) * Math.floor(Math.abs(steps) + 0.5 + SLACK)
    case 'up':
      return Math.ceil(steps)
    case 'down':
      return Math.floor(steps)
  }
}

/** Steps are few; their decimals are worked out once. */
const DECIMALS = new Map<number, number>()

function decimalsOf(step: number): number {
  const known = DECIMALS.get(step)
  if (known !== undefined) return known
  const [mantissa = '', exponent = '0'] = String(step).split('e')
  const decimals = Math.max(0, (mantissa.split('.')[1]?.length ?? 0) - Number(exponent))
  DECIMALS.set(step, decimals)
  return decimals
}

/** How a figure is rounded: as the pack says, else to the step of its kind; not at all for text. */
export function roundingOf({ round, spec }: Pick<FigureDeclaration, 'round' | 'spec'>): Rounding | undefined {
  if (round) return round
  const step = stepOf(spec)
  return step === undefined ? undefined : { step, direction: 'nearest' }
}

/** The step in which a kind is spoken where the pack names none. */
function stepOf(spec: KindSpec): number | undefined {
  switch (spec.kind) {
    case 'decimal':
    case 'trim':
      // Not a power of ten: 10 ** -4 comes out as 0.00009999999999999999 in V8.
      return Number(`1e-${spec.decimals}`)
    case 'altimeter':
      return spec.unit === 'inHg' ? 0.01 : 1
    case 'integer':
    case 'speed':
    case 'weight':
    case 'temperature':
    case 'heading':
    case 'altitude':
    case 'flightLevel':
      return 1
    case 'frequency':
      return 0.005
    case 'digits':
    case 'runway':
    case 'time':
    case 'identifier':
    case 'callsign':
    case 'wind':
    case 'route':
    case 'choice':
      return undefined
  }
}
