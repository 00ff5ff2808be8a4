/** Fuel by tank: how a total lies in the tanks, and its moment with arms that change with the quantity. */

import { type Calculator, failed, type Outcome, type Work } from './calculator.ts'
import { formatNumber } from './format.ts'
import type { Tank } from './pack.ts'
import { number, shown } from './work.ts'
import { product, sumExplanation, type Term } from './workings.ts'

/**
 * A total spread over the tanks: group after group, the tanks of one group in proportion to what they hold.
 * Burned in the reverse order, so that a total says where the fuel is at any time. Undefined where it does not fit.
 */
export function spread(groups: readonly (readonly Tank[])[], total: number): ReadonlyMap<string, number> | undefined {
  const quantities = new Map<string, number>()
  let left = total
  for (const group of groups) {
    const capacity = group.reduce((sum, tank) => sum + tank.capacity, 0)
    const here = Math.min(left, capacity)
    for (const tank of group) quantities.set(tank.name, capacity > 0 ? (here * tank.capacity) / capacity : 0)
    left -= here
  }
  return left > 1e-6 || total < 0 ? undefined : quantities
}

/** The arm at a quantity, between the tank's entries; the first and last entry hold to both ends (0 and full). */
export function armAt(tank: Tank, quantity: number): number {
  const high = tank.arms.findIndex((entry) => entry.quantity >= quantity)
  const above = tank.arms[high] ?? tank.arms.at(-1)
  const below = tank.arms[high - 1] ?? above
  if (!above || !below) throw new Error(`tank ${tank.name} has no arm`)
  if (above === below || above.quantity === below.quantity) return above.arm
  return below.arm + ((quantity - below.quantity) / (above.quantity - below.quantity)) * (above.arm - below.arm)
}

/** All tanks together, or one of them. */
function tooMuch(work: Work, total: number, tanks: readonly Tank[] = work.basis.tanks.flat()): Outcome {
  const capacity = tanks.reduce((sum, tank) => sum + tank.capacity, 0)
  const { weight } = work.basis.units
  return failed(
    'limit.fuel',
    `${work.figure.label}: ${formatNumber(total)} ${weight} of fuel, the tanks hold ${formatNumber(capacity)} ${weight}`,
  )
}

const fuelMoment: Calculator = {
  about: 'The moment of a total of fuel, spread over the tanks in their order.',
  takes: { fuel: { unit: 'weight' } },
  needs: ['tanks'],
  gives: 'moment',
  run(work) {
    const tanks = work.basis.tanks.flat()
    const total = number(work, 'fuel')
    const quantities = spread(work.basis.tanks, total)
    if (!quantities) return tooMuch(work, total)
    let value = 0
    const parts: Term[] = []
    for (const tank of tanks) {
      const quantity = quantities.get(tank.name) ?? 0
      if (quantity === 0) continue
      const arm = armAt(tank, quantity)
      value += quantity * arm
      parts.push(product(work, tank.label, quantity, arm))
    }
    return { value, why: [{ text: parts.length > 0 ? sumExplanation(work, parts, value) : 'no fuel', uses: [] }] }
  },
}

/** The tank that a derivation names. */
function tankOf(work: Work): Tank {
  const tank = work.basis.tanks.flat().find(({ name }) => name === work.derivation.tank)
  if (!tank) throw new Error(`${work.figure.name} needs a tank`)
  return tank
}

const tankQuantity: Calculator = {
  about: 'How much of a total of fuel is in one tank.',
  takes: { fuel: { unit: 'weight' } },
  needs: ['tanks', 'tank'],
  gives: 'weight',
  run(work) {
    const tank = tankOf(work)
    const total = number(work, 'fuel')
    const quantities = spread(work.basis.tanks, total)
    if (!quantities) return tooMuch(work, total)
    return {
      value: quantities.get(tank.name) ?? 0,
      why: [{ text: `${shown(work, 'fuel')}, in the order of the tanks`, uses: [] }],
    }
  },
}

const tankMoment: Calculator = {
  about: 'The moment of the fuel in one tank, at its arm for that quantity.',
  takes: { quantity: { unit: 'weight' } },
  needs: ['tanks', 'tank'],
  gives: 'moment',
  run(work) {
    const tank = tankOf(work)
    const quantity = number(work, 'quantity')
    if (quantity > tank.capacity + 1e-6) return tooMuch(work, quantity, [tank])
    const arm = armAt(tank, quantity)
    return { value: quantity * arm, why: [{ text: `${shown(work, 'quantity')} x ${formatNumber(arm)}`, uses: [] }] }
  },
}

const fuelWeight: Calculator = {
  about: 'The weight of a volume of fuel at a density.',
  takes: { volume: { unit: 'l' }, density: { unit: 'kg/l' } },
  gives: 'kg',
  run: (work) => ({
    value: number(work, 'volume') * number(work, 'density'),
    why: [{ text: `${shown(work, 'volume')} x ${shown(work, 'density')}`, uses: [] }],
  }),
}

export const FUEL = { fuelMoment, tankQuantity, tankMoment, fuelWeight } as const satisfies Record<string, Calculator>
