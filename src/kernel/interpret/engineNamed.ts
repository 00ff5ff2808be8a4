/** A call that names its engine: "right engine stable at five nine", "starting number two". */

import { type Token, type Transcript, tokensOf } from '../numbers/tokens.ts'

interface Place {
  readonly from: number
  readonly to: number
}

/**
 * Where one of the names is said. A number may not go on behind it: "engine two four percent" may be the engine or the
 * reading. "Number one, fifty eight" is the engine and its reading.
 */
function placeOf(tokens: readonly Token[], names: readonly string[]): Place | undefined {
  for (const name of names) {
    const words = tokensOf(name)
    const from = tokens.findIndex((_, at) => words.every(({ canon }, index) => tokens[at + index]?.canon === canon))
    const to = from + words.length
    const isOpen = words.at(-1)?.number !== undefined && !words.some(({ text }) => text === 'number')
    const goesOn = isOpen && tokens[to]?.number !== undefined
    if (from >= 0 && !goesOn) return { from, to }
  }
  return undefined
}

function replaced({ tokens, ...rest }: Transcript, { from, to }: Place, by: readonly Token[]): Transcript {
  return { ...rest, tokens: [...tokens.slice(0, from), ...by, ...tokens.slice(to)] }
}

/**
 * What is left without the name: with and without "on" or "in" before it, which may be the call's own ("fuel on, right
 * engine"). As it was said where no name was.
 */
export function withoutEngine(heard: Transcript, names: readonly string[]): Transcript[] {
  const place = placeOf(heard.tokens, names)
  if (!place) return [heard]
  const isBefore = (word: string, at: number) => heard.tokens[at - 1]?.text === word
  const from = isBefore('the', place.from) ? place.from - 1 : place.from
  // "Number two is stable": without its subject that would be a question.
  const to = BEING.has(heard.tokens[place.to]?.text ?? '') ? place.to + 1 : place.to
  const ways = isBefore('on', from) || isBefore('in', from) ? [from, from - 1] : [from]
  return ways.map((begin) => replaced(heard, { from: begin, to }, []))
}

const BEING: ReadonlySet<string> = new Set(['is', 'has'])

/** The same with each of the others in place of the name that was said; none where none was. */
export function namedOtherwise(heard: Transcript, names: readonly string[], others = names): Transcript[] {
  const place = placeOf(heard.tokens, names)
  return place ? others.map((name) => replaced(heard, place, tokensOf(name))) : []
}
