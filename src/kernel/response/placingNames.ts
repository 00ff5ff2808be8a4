/** Words of the elements and names of their values, as a way goes on over them. */

import type { Token } from '../numbers/tokens.ts'
import type { Lexeme } from './lexemes.ts'
import type { PlacePlan } from './placePlan.ts'
import { callSign } from './placingCallSign.ts'
import { add, after, COSTS, claim, elementOf, isOpen, type Search, saidIn, unnamed, type Way } from './placingWays.ts'
import { NAMING_NOTHING } from './radioWords.ts'

const placeOf = ({ places }: PlacePlan, element: number, part: string) =>
  places.findIndex((place) => place.element === element && place.part === part)

/** Words of the elements' own responses, or the name of a value. */
export function fromCue(search: Search, way: Way, at: number, also: readonly number[]): void {
  const { plan, lexemes, tokens } = search
  const { cue, cueEnd: end } = lexemes[at] as Lexeme
  if (!cue) return
  const own = tokens.slice(at, end)
  const owners = cue.owners.map((owner) => ({ ...owner, place: placeOf(plan, owner.element, owner.part) }))
  if (cue.isValue) {
    for (const { place } of owners) {
      if (place >= 0 && place === plan.callSign) callSign(search, way, at, end, place)
      else if (place >= 0)
        claim(
          search,
          { ...way, hinted: undefined },
          place,
          own,
          end,
          isOpen(search, way, place) || way.correcting ? 0 : COSTS.again,
        )
    }
    return
  }
  const places = owners.flatMap(({ place }) => (place >= 0 ? [place] : []))
  const wordsOnly = owners.filter(({ place }) => place < 0)
  const said = saidIn(way)
  const owner =
    wordsOnly.find(({ element }) => element === way.lastElement) ??
    wordsOnly.find(({ element }) => !said.some((one) => elementOf(plan, one) === element)) ??
    wordsOnly[0]
  if (owner) words(search, unnamed(search, way), owner.element, own, end)
  // The name of a kind gives way to a value's own.
  const isImplied = also.length > 0 && cue.owners.every((one) => one.isImplied)
  const all = [...new Set(places.length > 0 && !isImplied ? places : also)]
  if (all.length === 0) return
  if (own.every(({ text }) => NAMING_NOTHING.has(text))) {
    add(search, end, { ...way, names: [...way.names, own], hinted: undefined })
    return
  }
  const [only] = places
  const first = only === undefined ? undefined : plan.places[only]
  const isState =
    places.length === 1 &&
    first?.needsWords === true &&
    !cue.owners.every(({ part, begins }) => part === first.part && !begins)
  if (isState && first && only !== undefined) words(search, { ...way, named: [only] }, first.element, own, end)
  else fromName(search, way, at, end, all)
}

function words(search: Search, way: Way, element: number, tokens: readonly Token[], end: number): void {
  const opens = way.named ?? []
  const next = after(way, { type: 'words', element, tokens, opens })
  const { places } = search.plan
  // What they correct is open again.
  const again = way.correcting
    ? places.reduce((bits, place, at) => (place.element === element ? bits | (1 << at) : bits), 0)
    : 0
  const filled = way.filled & ~again
  add(search, end, { ...next, names: [], hinted: undefined, lastElement: element, correcting: false, filled })
}

/** The name of a value, in which one before it may go on: "hold short of | runway". */
export function fromName(search: Search, way: Way, at: number, end: number, places: readonly number[]): void {
  const own = search.tokens.slice(at, end)
  const both = way.named?.filter((place) => places.includes(place)) ?? []
  if (both.length > 0) add(search, end, { ...way, named: both, names: [...way.names, own], hinted: undefined })
  else add(search, end, { ...unnamed(search, way), named: places, names: [own], hinted: undefined })
}
