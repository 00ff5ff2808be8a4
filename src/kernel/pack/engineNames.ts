/** How pilots name the engine that a watch is about: by its side or by its number. Number one is the left one of two. */

import type { Watch } from './checklist.ts'

const SIDES = { left: 'one', right: 'two' } as const
const NUMBERS = ['one', 'two', 'three', 'four']
type Side = keyof typeof SIDES
const isSide = (word: string): word is Side => word in SIDES

const wordsOf = ({ name }: Watch): string[] => name.toLowerCase().split(' ')
const sideOf = (watch: Watch): Side | undefined => wordsOf(watch).find(isSide)
const numberOf = (watch: Watch): string | undefined => wordsOf(watch).find((word) => NUMBERS.includes(word))

export interface EngineNames {
  readonly side?: string
  readonly number?: string
  /** Names that cannot be of anything else, longer ones first, so that none is taken for a part of itself. */
  readonly full: readonly string[]
}

/** Empty where the watch names no engine, as that of a single one does not. `watches`: all of the pack. */
export function engineNames(watches: readonly Watch[], watch: Watch): EngineNames {
  const hasBothSides = (['left', 'right'] as const).every((side) => watches.some((one) => sideOf(one) === side))
  const isOfTwo = watches.every((one) => !['three', 'four'].includes(numberOf(one) ?? ''))
  const ownNumber = numberOf(watch)
  const ofNumber = isOfTwo ? (['left', 'right'] as const).find((one) => SIDES[one] === ownNumber) : undefined
  const side = sideOf(watch) ?? ofNumber
  const number = ownNumber ?? (side && hasBothSides ? SIDES[side] : undefined)
  const numbered =
    number === undefined ? [] : [`engine number ${number}`, `number ${number} engine`, `number ${number}`]
  const sided = side === undefined ? [] : [`${side} hand engine`, `${side} engine`]
  return {
    ...(side !== undefined && { side }),
    ...(number !== undefined && { number }),
    full: [...numbered, ...sided, ...(number === undefined ? [] : [`engine ${number}`])],
  }
}
