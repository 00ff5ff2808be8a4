/** A condition as it is typed into a form: one demand a line, all of which must hold. */

import { isJoint } from '../conditions.ts'
import { isNamed } from './things.ts'
import { numberTyped } from './typed.ts'

type Size = { readonly [bound in Bound]?: number }
export type Demand = string | readonly string[] | Size
export type Demands = { readonly [name: string]: Demand }

const BOUNDS = { below: 'below', above: 'above', atLeast: 'at least', atMost: 'at most' } as const
type Bound = keyof typeof BOUNDS
const bounds = Object.keys(BOUNDS) as Bound[]

/** Without any, all and not: those stand in the text alone. */
export function isDemands(value: unknown): value is Demands {
  return isNamed(value) && Object.entries(value).every(([name, demand]) => !isJoint(name) && isDemand(demand))
}

function isDemand(value: unknown): value is Demand {
  if (isNamed(value))
    return Object.entries(value).every(([bound, number]) => bound in BOUNDS && typeof number === 'number')
  return [value].flat().every((one) => typeof one === 'string' && !one.includes(','))
}

/** "icing: yes", "runway: wet, slippery", "oat: at least 0, below 5", one a line. */
export function demandsText(demands: Demands): string {
  return Object.entries(demands)
    .map(([name, demand]) => `${name}: ${demandText(demand)}`)
    .join('\n')
}

function demandText(demand: Demand): string {
  if (typeof demand === 'string') return demand
  if (Array.isArray(demand)) return demand.join(', ')
  const size = demand as Size
  return bounds.flatMap((bound) => (size[bound] === undefined ? [] : [`${BOUNDS[bound]} ${size[bound]}`])).join(', ')
}

/** Undefined where a line is no demand, yet. */
export function demandsTyped(lines: readonly string[]): Demands | undefined {
  const demands: Record<string, Demand> = {}
  for (const line of lines) {
    const [, name, rest] = /^([A-Za-z][A-Za-z0-9]*)\s*:\s*(\S.*)$/.exec(line) ?? []
    if (name === undefined || rest === undefined || isJoint(name) || Object.hasOwn(demands, name)) return undefined
    const values = rest.split(',').map((one) => one.trim())
    if (values.some((one) => one === '')) return undefined
    const sizes = values.map(sizeTyped)
    if (sizes.some((one) => one !== undefined)) {
      if (sizes.some((one) => one === undefined)) return undefined
      demands[name] = Object.assign({}, ...sizes)
    } else demands[name] = values.length === 1 ? (values[0] ?? '') : values
  }
  return demands
}

/** "below 5" -> { below: 5 }. */
function sizeTyped(text: string): Size | undefined {
  const bound = bounds.find((one) => text.toLowerCase().startsWith(`${BOUNDS[one]} `))
  const number = bound && numberTyped(text.slice(BOUNDS[bound].length))
  return bound && number !== undefined ? { [bound]: number } : undefined
}
