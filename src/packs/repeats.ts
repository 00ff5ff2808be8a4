/** An item that is asked several times, or for each of several things: the names and challenges of all of them. */

import { sayBelowHundred } from '../kernel/numbers/say.ts'
import type { ItemText } from './proceduresSchema.ts'

export interface Repeat {
  readonly id: string
  readonly challenge: string
}

/** Itself, where it is asked once. */
export function repeats({ item, challenge, times, each }: ItemText): Repeat[] {
  if (each) {
    return each.map((name) => ({
      id: `${item}.${idOf(name)}`,
      challenge: named(challenge, name, `${name} ${challenge}`),
    }))
  }
  return Array.from({ length: times ?? 1 }, (_, index) => {
    const number = sayBelowHundred(index + 1)
    const id = times === undefined ? item : `${item}.${index + 1}`
    return { id, challenge: times === undefined ? challenge : named(challenge, number, `${challenge} ${number}`) }
  })
}

const named = (challenge: string, name: string, otherwise: string) =>
  challenge.includes('*') ? challenge.replaceAll('*', name) : otherwise

/** "left wing" is leftWing. */
const idOf = (name: string) =>
  name
    .toLowerCase()
    .replace(/[^a-z0-9]+(.)?/g, (_, letter: string | undefined) => letter?.toUpperCase() ?? '')
    .replace(/^[^a-z0-9]+/i, '')
