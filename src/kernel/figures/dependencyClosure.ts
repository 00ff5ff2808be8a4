/** Which figures a figure depends on, and which depend on it. */

import type { FigureModel } from './pack.ts'

/**
 * Names of all figures that a figure is computed from, directly or through others, and of all that are computed from it;
 * without itself. Whoever knows one of them can work out something of the other.
 */
export function dependencyClosure(model: FigureModel, name: string): ReadonlySet<string> {
  const { declarations } = model
  const usesOf = (one: string) => declarations[one]?.derived?.uses ?? []
  const users = (one: string) => Object.keys(declarations).filter((other) => usesOf(other).includes(one))
  const closure = new Set([...reachable(name, usesOf), ...reachable(name, users)])
  closure.delete(name)
  return closure
}

/** Names of all figures that a figure is computed from, directly or through others. */
export function restsUnder({ declarations }: FigureModel, name: string): ReadonlySet<string> {
  return reachable(name, (one) => declarations[one]?.derived?.uses ?? [])
}

function reachable(from: string, next: (name: string) => readonly string[]): ReadonlySet<string> {
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
