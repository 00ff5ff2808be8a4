/** Ways to take a transmission, what each needs, and how one grows. */

import { affixesOf } from '../kinds/table.ts'
import type { Token } from '../numbers/tokens.ts'
import type { Lexeme } from './lexemes.ts'
import type { Place, PlacePlan } from './placePlan.ts'
import { BETWEEN_A_PAIR } from './radioWords.ts'

/** What was said, one thing after the other. */
export type Said =
  | { readonly type: 'value'; readonly place: number; readonly tokens: readonly Token[]; readonly names: Names }
  | {
      readonly type: 'words'
      readonly element: number
      readonly tokens: readonly Token[]
      /** Places whose value comes after them. */
      readonly opens: readonly number[]
    }
  | { readonly type: 'other'; readonly token: Token }
  | { readonly type: 'correction'; readonly token: Token }

/** Phrases said before a value, or after it. */
export type Names = readonly (readonly Token[])[]

/** One way to take all up to a token. */
export interface Way {
  readonly cost: number
  readonly last: { readonly said: Said; readonly before: Way['last'] } | undefined
  /** Which numbers it gives to which places. */
  readonly signature: string
  /** Places whose name was said, until their number comes. */
  readonly named: readonly number[] | undefined
  readonly names: Names
  /** Places that a little word points to. */
  readonly hinted: readonly number[] | undefined
  /** Places said, one bit each. */
  readonly filled: number
  readonly lastPlace: number
  readonly lastElement: number
  readonly correcting: boolean
  /** Another way needs as little and gives a number to another place. */
  readonly isDoubtful: boolean
  /** A number in it is nobody's. */
  readonly hasStray: boolean
}

export const START: Way = {
  ...{ cost: 0, last: undefined, signature: '', named: undefined, names: [], hinted: undefined, filled: 0 },
  ...{ lastPlace: -1, lastElement: -1, correcting: false, isDoubtful: false, hasStray: false },
}

export const COSTS = {
  bare: 0.1,
  joinedBare: 0.7,
  perhapsRoute: 0.5,
  hinted: -0.05,
  againstHint: 0.3,
  outOfTurn: 0.4,
  sameKindLater: 1,
  notNamed: 0.3,
  withoutItsWords: 2,
  withoutItsFirst: 1,
  otherNamed: 3.6,
  badForm: 3,
  badCorrection: 2,
  again: 1.5,
  againBare: 3.5,
  soundsLikeDigit: 0.6,
  correctsEarlier: 0.8,
  unknownWord: 0.2,
  callSignAlone: 1,
  unplaced: 6,
} as const

/** Ways that differ by less are as good as one another. */
export const CLOSE = 0.15
/** No way that needs so much more comes to be the best. */
const FAR = 4
const MOST_WAYS = 8
export const LONGEST_PIECE = 16
/** Places are counted in bits. */
export const MOST_PLACES = 30
/** Longer transmissions are left to be judged otherwise. */
export const LONGEST = 100
/** No flight number has more. */
export const LONGEST_FLIGHT = 4

export interface PlacingOptions {
  /** Places said in an earlier breath. */
  readonly held: ReadonlySet<number>
  /** Digits of the own flight number: everybody knows them, and nobody asks for them. */
  readonly callSignLength: number | undefined
  /** What need not be said may be said without its name. */
  readonly mayBeBare: boolean
  readonly isPlain: boolean
}

/** How well a piece fits a place. */
export interface Form {
  readonly sound: boolean
  readonly named: number
  readonly bare: number | undefined
}

export interface Search extends PlacingOptions {
  readonly plan: PlacePlan
  readonly tokens: readonly Token[]
  readonly lexemes: readonly Lexeme[]
  /** By the token they have come to. */
  readonly ways: readonly Map<string, Way>[]
  readonly forms: Map<number, Form>
  /** First token that is no courtesy, and the first of the courtesies at the end. */
  readonly begin: number
  readonly end: number
}

export function bestOf(ways: ReadonlyMap<string, Way> = new Map()): readonly Way[] {
  if (ways.size < 2) return [...ways.values()]
  const sorted = [...ways.values()].sort((one, other) => one.cost - other.cost).slice(0, MOST_WAYS)
  const most = (sorted[0] as Way).cost + FAR
  return sorted.filter(({ cost }) => cost <= most)
}

export function add({ ways }: Search, at: number, way: Way): void {
  const key = `${way.filled} ${way.lastPlace} ${way.lastElement} ${way.named ?? ''} ${way.hinted ?? ''} ${way.correcting}`
  const here = ways[at] as Map<string, Way>
  const known = here.get(key)
  if (!known) {
    here.set(key, way)
    return
  }
  const [best, other] = way.cost < known.cost ? [way, known] : [known, way]
  const isClose = other.cost - best.cost < CLOSE && best.signature !== other.signature
  here.set(key, isClose && !best.isDoubtful ? { ...best, isDoubtful: true } : best)
}

export const after = (way: Way, said: Said): Way => ({ ...way, last: { said, before: way.last } })

/** A name whose number never came is still said. */
export function unnamed({ plan }: Search, way: Way): Way {
  const [only, ...more] = way.named ?? []
  const element = only === undefined ? undefined : plan.places[only]?.element
  const own = way.names.filter((name) => name.every(({ text }) => plan.vocabularies[element ?? -1]?.has(text)))
  const without = { ...way, named: undefined, names: [] }
  if (element === undefined || more.length > 0 || own.length === 0) return without
  return after(without, { type: 'words', element, tokens: own.flat(), opens: [] })
}

export const isOpen = ({ held }: Search, { filled }: Way, place: number) =>
  (filled & (1 << place)) === 0 && !held.has(place)

export const betweenPair = (lexemes: readonly Lexeme[], at: number) =>
  BETWEEN_A_PAIR.has(lexemes[at]?.token.text ?? '') && lexemes[at + 1]?.type === 'number'

export function claim(
  search: Search,
  way: Way,
  place: number,
  tokens: readonly Token[],
  end: number,
  cost: number,
): void {
  const { plan, lexemes } = search
  const { element, spec } = plan.places[place] as Place
  const isPair = plan.pair?.[0] === place && betweenPair(lexemes, end)
  const from = way.named && !way.named.includes(place) ? unnamed(search, way) : way
  const next = after(from, { type: 'value', place, tokens, names: from.names })
  add(search, isPair ? end + 1 : end, {
    ...next,
    ...{ cost: way.cost + cost, names: [], hinted: undefined, correcting: false, lastElement: element },
    signature: `${way.signature} ${place}:${contentOf(tokens, spec)}`,
    named: isPair && plan.pair ? [plan.pair[1]] : undefined,
    filled: way.filled | (1 << place),
    lastPlace: spec.kind === 'callsign' ? way.lastPlace : place,
  })
}

/** Where its numbers, letters and directions begin and end. */
function contentOf(tokens: readonly Token[], spec: Place['spec']): string {
  const affixes = affixesOf(spec)
  const content = tokens.filter(
    ({ text, number }) => number || !['noun', 'unit', 'joint'].includes(affixes.get(text)?.role ?? ''),
  )
  return `${content[0]?.start}-${content.at(-1)?.end}`
}

export function saidIn({ last }: Way): readonly Said[] {
  const all: Said[] = []
  for (let each = last; each; each = each.before) all.push(each.said)
  return all.reverse()
}

export function elementOf({ places }: PlacePlan, said: Said): number | undefined {
  if (said.type === 'words') return said.element
  return said.type === 'value' ? places[said.place]?.element : undefined
}
