/** The names of sources: whoever states a figure, and our own value among them. */

import type { FigureDeclaration } from './pack.ts'

/** The names that our own value goes by among the sources: worked out here, or typed in. */
export const COMPUTED = 'computed'

export const ENTERED = 'entered'

export function ownSource({ input }: Pick<FigureDeclaration, 'input'>): string {
  return input ? ENTERED : COMPUTED
}

/** A source as people say it: "flightComputer" is the flight computer. */
export function sourceWords(source: string): string {
  return source.replace(/([a-z])([A-Z])/g, '$1 $2').toLowerCase()
}

/** Whose value it is, before the value itself: "worked out here 24,360 kg", "load sheet 24,180 kg". */
export function sourceHere(source: string): string {
  if (source === COMPUTED) return 'worked out here'
  return source === ENTERED ? 'entered here' : sourceWords(source)
}

/** As the one that was chosen: "the load sheet", "the value worked out here". */
export const sourceChosen = (source: string): string =>
  source === COMPUTED || source === ENTERED ? `the value ${sourceHere(source)}` : `the ${sourceWords(source)}`

/** Read off where no source is named: what is set in the aircraft goes before papers (common practice, no source). */
export function sourceAloud(sources: readonly string[]): string {
  return sources.find((source) => source === 'flightComputer') ?? sources[0] ?? ''
}
