/** Which figures hang together: what one rests on, and what rests on it. */

import type { FigureModel } from './pack.ts'

/**
 * All figures that a figure is computed from, at whatever distance, and all that are computed from it; without
 * itself. The value of one helps to work out the other.
 */
export function dependencyClosure(model: FigureModel, name: string): ReadonlySet<string> {
  const { declarations } = model
  const usesOf = (one: string) => declarations[one]?.derived?.uses ?? []
  const users = (one: string) => Object.keys(declarations).filter((other) => usesOf(other).includes(one))
  const kin = new Set([...reached(name, usesOf), ...reached(name, users)])
  kin.delete(name)
  return kin
}

function reached(from: string, next: (name: string) => readonly string[]): ReadonlySet<string> {
  const found = new Set<string>()
  const open = [from]
  for (let name = open.pop(); name !== undefined; name = open.pop()) {
    for (const one of next(name)) {
      if (found.has(one)) continue
      found.add(one)
      open.push(one)
    }
  }
  return found
}
