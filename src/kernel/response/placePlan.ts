/** What must be known of some elements to say whose value each number of a transmission is. It holds no value. */

import type { KindName, KindSpec, Specs } from '../kinds/kind.ts'
import { affixesOf } from '../kinds/table.ts'
import { readNumber } from '../numbers/readings.ts'
import { isNumberToken, soundOf, type Token, tokensOf } from '../numbers/tokens.ts'
import { ownOf } from '../own.ts'
import { type Cue, type Cues, cuesOfResponses, isSaidAt } from './cues.ts'
import { madeOnce } from './memo.ts'
import { mayBeNumber } from './options.ts'
import type { FigureSlot, Path, Slot } from './path.ts'
import { phraseStatesOf } from './phraseStates.ts'
import { FOLLOWED_BY, LED_BY, NAMED_BY, SAID_OF_ONESELF } from './radioWords.ts'
import type { Response } from './response.ts'

/** A value that may be said. */
export interface Place {
  readonly element: number
  /** Name of its part. */
  readonly part: string
  readonly spec: KindSpec
  readonly required: boolean
  /** Words must be said before it: the runway of "hold short of runway two four". */
  readonly needsWords: boolean
  /** Words that say which it is, where its element has several. */
  readonly label: readonly Token[]
}

/** Phrases by their first word, longest first, each with the values that it may be about. */
export type PhraseTable = ReadonlyMap<
  string,
  readonly { readonly words: readonly string[]; readonly places: number[] }[]
>

export interface PlacePlan {
  readonly cues: Cues
  /** By their first word, longest first. */
  readonly cuesByWord: ReadonlyMap<string, readonly Cue[]>
  readonly places: readonly Place[]
  /** All words of each element's response. */
  readonly vocabularies: readonly ReadonlySet<string>[]
  readonly names: PhraseTable
  readonly leads: PhraseTable
  readonly follows: PhraseTable
  /** Words that stand in values, numbers aside: letters, and others. */
  readonly affixes: ReadonlyMap<string, 'letter' | 'affix'>
  /** Word -> places in whose values it may stand, and places that may have a number; one bit each. */
  readonly standsIn: ReadonlyMap<string, number>
  readonly numbersIn: number
  /** Words that join two pieces of a value -> its places. */
  readonly joins: ReadonlyMap<string, number>
  /** A temperature and the dew point after it. */
  readonly pair: readonly [number, number] | undefined
  /** How many minutes are part of a wording: "ten minutes after departure". */
  readonly minutes: ReadonlySet<string>
  /** The telephony designators' own value, if there is one. */
  readonly callSign: number | undefined
  readonly hasRoute: boolean
}

export const placePlanOf = madeOnce((_whole, specs, responses: readonly Response[]): PlacePlan => {
  const places = responses.flatMap(({ paths }, element) => placesOf(paths, element, specs))
  const temperatures = places.flatMap(({ spec }, place) => (spec.kind === 'temperature' ? [place] : []))
  const [first, second, ...more] = temperatures
  const callSign = places.findIndex(({ spec }) => spec.kind === 'callsign' && (spec.telephony ?? []).length > 0)
  const cues = cuesOfResponses(responses, specs)
  return {
    cues,
    cuesByWord: byFirstWord(cues.all),
    places,
    vocabularies: responses.map(({ paths }) => new Set(paths.flat().flatMap(wordsOfSlot))),
    names: tableOf(places, NAMED_BY, ownNames(responses, places)),
    leads: tableOf(places, LED_BY, ownLeads(responses, places)),
    follows: tableOf(places, FOLLOWED_BY),
    ...wordsIn(places),
    pair: first !== undefined && second === first + 1 && more.length === 0 ? [first, second] : undefined,
    minutes: new Set(responses.flatMap(({ paths }) => paths.flat().flatMap(minutesOf))),
    callSign: callSign < 0 ? undefined : callSign,
    hasRoute: places.some(({ spec }) => spec.kind === 'route'),
  }
})

function byFirstWord(cues: readonly Cue[]): ReadonlyMap<string, readonly Cue[]> {
  const table = new Map<string, Cue[]>()
  for (const cue of cues) table.set(cue.words[0] ?? '', [...(table.get(cue.words[0] ?? '') ?? []), cue])
  return table
}

function wordsIn(places: readonly Place[]): Pick<PlacePlan, 'affixes' | 'standsIn' | 'numbersIn' | 'joins'> {
  const affixes = new Map<string, 'letter' | 'affix'>()
  const standsIn = new Map<string, number>([
    ['and', ~0],
    ['a', ~0],
  ])
  const joins = new Map<string, number>()
  let numbersIn = 0
  for (const [place, { spec }] of places.entries()) {
    const bit = 1 << place
    if (mayBeNumber(spec)) numbersIn |= bit
    for (const [word, { role }] of affixesOf(spec)) {
      if (affixes.get(word) !== 'letter') affixes.set(word, role === 'letter' ? 'letter' : 'affix')
      standsIn.set(word, (standsIn.get(word) ?? 0) | bit)
      if (role === 'joint') joins.set(word, (joins.get(word) ?? 0) | bit)
    }
  }
  return { affixes, standsIn, numbersIn, joins }
}

function placesOf(paths: readonly Path[], element: number, specs: Specs): Place[] {
  const found = new Map<string, Place>()
  for (const path of paths) {
    for (const [index, slot] of path.entries()) {
      const spec = slot.type === 'figure' ? ownOf(specs, slot.figure) : undefined
      if (!spec || found.has(slot.name)) continue
      const before = path.slice(0, index)
      const needsWords = before.some(({ type, required }) => required && type === 'word')
      const [name] = slot.type === 'figure' ? slot.labels : []
      const label = name && path.filter(({ type }) => type === 'figure').length > 1 ? tokensOf(name.text) : []
      found.set(slot.name, { element, part: slot.name, spec, required: slot.required, needsWords, label })
    }
  }
  return [...found.values()]
}

function wordsOfSlot(slot: Slot): readonly string[] {
  const own = (slot.type === 'word' ? slot.wordings : [...slot.labels, ...slot.units]).map(({ words }) => words)
  const states = own.map(phraseStatesOf)
  return [...own, ...states.flatMap(({ same, against }) => [...same, ...against])].flat()
}

type Named = readonly (readonly [readonly string[], number])[]

const isLittle = (words: readonly string[]) => words.every((word) => LITTLE.has(word))

const ownNames = (responses: readonly Response[], places: readonly Place[]): Named =>
  ownLabels(responses, places).filter(([words]) => !isLittle(words))

const ownLeads = (responses: readonly Response[], places: readonly Place[]): Named =>
  ownLabels(responses, places).flatMap(([words, place]): Named => {
    if (isLittle(words)) return [[words, place]]
    // "With kilo" is the information, whatever else has letters.
    return words.includes('information')
      ? [
          [['with'], place],
          [['got'], place],
        ]
      : []
  })

const ownLabels = (responses: readonly Response[], places: readonly Place[]): Named =>
  responses.flatMap(({ paths }, element) =>
    paths
      .flat()
      .filter((slot): slot is FigureSlot => slot.type === 'figure')
      .flatMap((slot) => {
        const place = places.findIndex((each) => each.element === element && each.part === slot.name)
        const labels = slot.labels.flatMap(({ words }) => [
          words,
          words.map((word) => SAID_OF_ONESELF.get(word) ?? word),
        ])
        return labels.map((words) => [words, place] as const)
      }),
  )

const LITTLE = new Set(['to', 'of', 'on', 'at', 'for', 'point', 'and', 'the'])

function tableOf(
  places: readonly Place[],
  byKind: Readonly<Partial<Record<KindName, readonly (readonly string[])[]>>>,
  more: Named = [],
): PhraseTable {
  const table = new Map<string, { words: readonly string[]; places: number[] }[]>()
  const add = (words: readonly string[], place: number) => {
    const [first = ''] = words
    const list = table.get(first) ?? []
    table.set(first, list)
    const known = list.find((each) => each.words.join(' ') === words.join(' '))
    if (!known) list.push({ words, places: [place] })
    else if (!known.places.includes(place)) known.places.push(place)
  }
  for (const [place, { spec }] of places.entries()) for (const words of byKind[spec.kind] ?? []) add(words, place)
  for (const [words, place] of more) if (place >= 0) add(words, place)
  for (const list of table.values()) list.sort((one, other) => other.words.length - one.words.length)
  return table
}

/** "One zero" of an optional "one zero minutes after departure". */
function minutesOf(slot: Slot): readonly string[] {
  if (slot.type !== 'word' || slot.required) return []
  return slot.wordings.flatMap(({ text }) => {
    const tokens = tokensOf(text)
    const at = tokens.findIndex((token) => token.text === 'minutes')
    const number = tokens.slice(0, Math.max(0, at))
    return number.length > 0 && number.every(isNumberToken) ? readNumber(number).map(({ whole }) => whole) : []
  })
}

/** The longest cue that begins at a token. */
export function cueIn({ cuesByWord }: PlacePlan, tokens: readonly Token[], at: number): Cue | undefined {
  const token = tokens[at]
  if (!token) return undefined
  const isHere = ({ words, isValue }: Cue) => isSaidAt(words, isValue, tokens, at)
  const own = cuesByWord.get(token.text)?.find(isHere)
  const sound = soundOf(token)
  const other = sound === token.text ? undefined : cuesByWord.get(sound)?.find(isHere)
  return other && other.words.length > (own?.words.length ?? 0) ? other : own
}

/** The phrase of a table that begins at a token. */
export function phraseIn(table: PhraseTable, tokens: readonly Token[], at: number) {
  return table.get(tokens[at]?.text ?? '')?.find(({ words }) => isAt(words, tokens, at))
}

export const isAt = (words: readonly string[], tokens: readonly Token[], at: number): boolean =>
  words.every((word, index) => tokens[at + index]?.text === word)
