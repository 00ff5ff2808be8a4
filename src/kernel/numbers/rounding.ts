/** From an exact number to a step: nearest, up or down. */

export interface Rounding {
  /** Above zero. */
  readonly step: number
  readonly direction: 'nearest' | 'up' | 'down'
  /** What rests on the value uses the rounded one, as a crew works from what is printed. */
  readonly carried?: boolean
}

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

/** More than this JavaScript does not write. */
const MOST_DECIMALS = 100

function decimalsOf(step: number): number {
  const known = DECIMALS.get(step)
  if (known !== undefined) return known
  const [mantissa = '', exponent = '0'] = String(step).split('e')
  const decimals = (mantissa.split('.')[1]?.length ?? 0) - Number(exponent)
  const within = Math.min(MOST_DECIMALS, Math.max(0, decimals))
  DECIMALS.set(step, within)
  return within
}
