/**
 * Whose value each number of a transmission is. All ways to give the numbers to the elements are tried, and what each
 * needs to be taken so is counted: a number right after its name needs nothing, a bare one its kind's form and its turn,
 * one after another's name a lot. The way that needs least is meant, where it is the only one. Names, kinds, forms and
 * places decide, and never a value (law 2): there is none here.
 */

import { affixesOf } from '../kinds/table.ts'
import { readNumber } from '../numbers/readings.ts'
import { isHomophone, isLittle, type Token } from '../numbers/tokens.ts'
import { isOwnWord, type Lexeme, lexemesOf, type Named } from './lexemes.ts'
import { costBare, costNamed, isSoundPiece, mostNumbers } from './pieceForms.ts'
import type { Place, PlacePlan } from './placePlan.ts'
import { BEFORE_A_LATE_NAME, BETWEEN_A_PAIR, NAMING_NOTHING, SPOILING } from './radioWords.ts'

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
type Names = readonly (readonly Token[])[]

/** One way to take all up to a token. */
interface Way {
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

const START: Way = {
  ...{ cost: 0, last: undefined, signature: '', named: undefined, names: [], hinted: undefined, filled: 0 },
  ...{ lastPlace: -1, lastElement: -1, correcting: false, isDoubtful: false, hasStray: false },
}

const COSTS = {
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
  otherNamed: 2.5,
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
const CLOSE = 0.15
/** No way that needs so much more comes to be the best. */
const FAR = 4
const MOST_WAYS = 8
const LONGEST_PIECE = 16
/** Places are counted in bits. */
const MOST_PLACES = 30
/** Longer transmissions are left to be judged otherwise. */
const LONGEST = 100
/** No flight number has more. */
const LONGEST_FLIGHT = 4

export interface PlacingOptions {
  /** Places said in an earlier breath. */
  readonly held: ReadonlySet<number>
  /** Digits of the own flight number: everybody knows them, and nobody asks for them. */
  readonly callSignLength: number | undefined
  /** What need not be said may be said without its name. */
  readonly mayBeBare: boolean
  readonly isPlain: boolean
}

interface Search extends PlacingOptions {
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

/** What was said; `stray` where a number in it is nobody's, undefined where nobody can be certain. */
export function placed(
  plan: PlacePlan,
  tokens: readonly Token[],
  options: PlacingOptions,
): readonly Said[] | 'stray' | undefined {
  if (tokens.length === 0 || tokens.length > LONGEST || plan.places.length > MOST_PLACES) return undefined
  if (tokens.some(({ text }) => SPOILING.has(text) && !isOwnWord(plan, text))) return undefined
  const lexemes = lexemesOf(plan, tokens)
  const ways = Array.from({ length: tokens.length + 1 }, () => new Map<string, Way>())
  const search = { ...options, plan, tokens, lexemes, ways, forms: new Map(), ...bodyOf(lexemes) }
  ways[0]?.set('', START)
  for (let at = 0; at < tokens.length; at++) for (const way of bestOf(ways[at])) goOn(search, way, at)
  const [best, ...others] = bestOf(ways[tokens.length])
  if (best?.hasStray) return 'stray'
  if (!best || best.isDoubtful || best.correcting) return undefined
  const isOnly = others.every((other) => other.cost - best.cost >= CLOSE || other.signature === best.signature)
  return isOnly ? saidIn(unnamed(search, best)) : undefined
}

function bodyOf(lexemes: readonly Lexeme[]): { begin: number; end: number } {
  let begin = 0
  while ((lexemes[begin]?.courtesy ?? 0) > begin) begin = lexemes[begin]?.courtesy as number
  let end = lexemes.length
  for (let at = end - 1; at >= 0; at--) if (lexemes[at]?.courtesy === end) end = at
  return { begin, end }
}

function bestOf(ways: ReadonlyMap<string, Way> = new Map()): readonly Way[] {
  if (ways.size < 2) return [...ways.values()]
  const sorted = [...ways.values()].sort((one, other) => one.cost - other.cost).slice(0, MOST_WAYS)
  const most = (sorted[0] as Way).cost + FAR
  return sorted.filter(({ cost }) => cost <= most)
}

function add({ ways }: Search, at: number, way: Way): void {
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

const after = (way: Way, said: Said): Way => ({ ...way, last: { said, before: way.last } })

function goOn(search: Search, way: Way, at: number): void {
  const { lexemes, tokens } = search
  const { token, correction, courtesy, cue, cueEnd, name, lead, type } = lexemes[at] as Lexeme
  if (correction > at) {
    const next = { ...after(way, { type: 'correction', token }), correcting: true, named: undefined, names: [] }
    add(search, correction, way.last ? next : way)
    return
  }
  const nameEnd = name?.end ?? at
  const longest = Math.max(cueEnd, nameEnd)
  if (courtesy > longest && courtesy > at + 1) {
    add(search, courtesy, { ...way, hinted: undefined })
    return
  }
  if (cue && cueEnd >= nameEnd) fromCue(search, way, at, nameEnd === cueEnd ? (name?.places ?? []) : [])
  else if (name) fromName(search, way, at, nameEnd, name.places)
  const isLed = lead !== undefined && lead.end > longest
  if (isLed) add(search, lead.end, { ...way, hinted: lead.places, names: [...way.names, tokens.slice(at, lead.end)] })
  if (token.text === 'in') overMinutes(search, way, at + 1, true)
  if (type !== 'word' && !(type === 'letter' && nameEnd > at + 1)) fromPieces(search, way, at)
  if (isLed || (longest > at && type !== 'number')) return
  if (courtesy > at) add(search, courtesy, { ...way, names: [...way.names, tokens.slice(at, courtesy)] })
  else if (type === 'number' || type === 'letter') {
    const next = after(way, { type: 'other', token })
    add(search, at + 1, { ...next, cost: way.cost + COSTS.unplaced, hasStray: true })
  } else add(search, at + 1, { ...after(way, { type: 'other', token }), cost: way.cost + COSTS.unknownWord })
}

const placeOf = ({ places }: PlacePlan, element: number, part: string) =>
  places.findIndex((place) => place.element === element && place.part === part)

/** Words of the elements' own responses, or the name of a value. */
function fromCue(search: Search, way: Way, at: number, also: readonly number[]): void {
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
function fromName(search: Search, way: Way, at: number, end: number, places: readonly number[]): void {
  const own = search.tokens.slice(at, end)
  const both = way.named?.filter((place) => places.includes(place)) ?? []
  if (both.length > 0) add(search, end, { ...way, named: both, names: [...way.names, own], hinted: undefined })
  else add(search, end, { ...unnamed(search, way), named: places, names: [own], hinted: undefined })
}

/** A name whose number never came is still said. */
function unnamed({ plan }: Search, way: Way): Way {
  const [only, ...more] = way.named ?? []
  const element = only === undefined ? undefined : plan.places[only]?.element
  const own = way.names.filter((name) => name.every(({ text }) => plan.vocabularies[element ?? -1]?.has(text)))
  const without = { ...way, named: undefined, names: [] }
  if (element === undefined || more.length > 0 || own.length === 0) return without
  return after(without, { type: 'words', element, tokens: own.flat(), opens: [] })
}

const isOpen = ({ held }: Search, { filled }: Way, place: number) => (filled & (1 << place)) === 0 && !held.has(place)

/** A designator and as many digits as the own flight number has. */
function callSign(search: Search, way: Way, at: number, begin: number, place: number): void {
  const { tokens, callSignLength = LONGEST_FLIGHT } = search
  let end = begin
  for (let to = begin + 1; to <= tokens.length && isCharacter(tokens[to - 1] as Token); to++) {
    if (charactersOf(tokens.slice(begin, to)) > callSignLength) break
    end = to
  }
  while (tokens[end]?.text === 'heavy' || tokens[end]?.text === 'super') end++
  claim(search, way, place, tokens.slice(at, end), end, 0)
}

const CHARACTERS: ReadonlySet<string> = new Set(['digit', 'teen', 'tens', 'numeral', 'hundred'])
const isCharacter = (token: Token) =>
  token.number !== undefined && CHARACTERS.has(token.number.type) && !isLittle(token)
const charactersOf = (tokens: readonly Token[]) => readNumber(tokens)[0]?.whole.length ?? 0

/** A bare number at either end that has the length of the own flight number. */
function shortCallSign(search: Search, way: Way, at: number): void {
  const { plan, tokens, callSignLength, begin, end: last } = search
  if (plan.callSign === undefined || callSignLength === undefined || callSignLength < 2) return
  if (way.named || !isOpen(search, way, plan.callSign)) return
  for (let end = at + 1; end <= tokens.length && isCharacter(tokens[end - 1] as Token); end++) {
    if (at !== begin && end !== last) continue
    const piece = tokens.slice(at, end)
    if (charactersOf(piece) === callSignLength) claim(search, way, plan.callSign, piece, end, COSTS.callSignAlone)
  }
}

/** Numbers and letters that begin here, for every place that they can be for. */
function fromPieces(search: Search, way: Way, at: number): void {
  const { plan, lexemes, tokens } = search
  shortCallSign(search, way, at)
  overMinutes(search, way, at, false)
  let hasContent = false
  let places = plan.callSign === undefined ? ~0 : ~(1 << plan.callSign)
  let numbers = 0
  let joints = 0
  for (let end = at + 1; end <= Math.min(tokens.length, at + LONGEST_PIECE); end++) {
    const { type, token, name, cue, mayBeIn } = lexemes[end - 1] as Lexeme
    const joins =
      end - 1 > at && (token.text === 'and' || plan.joins.has(token.text) || isHundredAhead(tokens, end - 1))
    if (type === 'word' && !joins) break
    places &= mayBeIn
    if (end - 1 > at && type !== 'number' && type !== 'sound' && (name || cue))
      places &= plan.joins.get(token.text) ?? 0
    if (places === 0) break
    if (joins && name) joints++
    if (token.number) numbers++
    hasContent ||= type !== 'affix' && type !== 'word'
    if (!hasContent || joins) continue
    const piece = tokens.slice(at, end)
    for (let place = 0; place < plan.places.length; place++) {
      if ((places & (1 << place)) !== 0) fromPiece(search, way, { place, at, end, piece, numbers, joints })
    }
  }
}

/** "Six thousand a hundred". */
const isHundredAhead = (tokens: readonly Token[], at: number) =>
  tokens[at]?.text === 'a' && tokens[at + 1]?.number?.type === 'hundred'

interface PieceAt {
  readonly place: number
  readonly at: number
  readonly end: number
  readonly piece: readonly Token[]
  /** How many of its tokens are numbers. */
  readonly numbers: number
  /** How many of them are names of their own: "alfa via bravo" may be two values. */
  readonly joints: number
}

function fromPiece(search: Search, way: Way, found: PieceAt): void {
  const { plan, mayBeBare } = search
  const { place, end, piece } = found
  const { spec, required, needsWords } = plan.places[place] as Place
  if (roleOf(piece[0], spec) === 'unit') return
  const { sound, named, bare } = formOf(search, found)
  const isFree = isOpen(search, way, place)
  const alike = piece.filter(isHomophone).length * COSTS.soundsLikeDigit
  const take = (cost: number, from = way, to = end) => claim(search, from, place, piece, to, cost + alike)
  if (way.named?.includes(place)) {
    const sooner = way.named.some((other) => other !== place && isSooner(search, way, other, place))
    const again = isFree || way.correcting ? 0 : COSTS.again
    const isBare = needsWords && way.named.length > 1
    take(named + again + (sooner ? COSTS.sameKindLater : 0) + (isBare ? COSTS.withoutItsWords : 0))
    return
  }
  if (way.correcting) {
    const isLast = way.lastPlace === place
    if ((way.filled & (1 << place)) === 0 || !(isLast || sound)) return
    take((sound ? 0 : COSTS.badCorrection) + (isLast ? 0 : COSTS.correctsEarlier))
    return
  }
  if (!sound) return
  const late = way.named ? undefined : lateName(search, end, place)
  if (late) take(named + (isFree ? 0 : COSTS.again), { ...way, named: [place], names: late.names }, late.end)
  const isHinted = way.hinted?.includes(place) === true
  // Of what need not be said only a time of day is known by its unit: "fourteen twenty zulu".
  const isSign = spec.kind === 'callsign' && (found.at === search.begin || end === search.end)
  const isLater = plan.places[place - 1]?.element === plan.places[place]?.element
  // "Cloud few | three thousand": its element's other value was just said.
  const isNext = isLater && way.lastPlace === place - 1
  const isKnown =
    spec.kind === 'callsign'
      ? isSign
      : isNext || required || mayBeBare || isHinted || (spec.kind === 'time' && hasUnit(piece, spec))
  const form = bare ?? (isHinted ? named : undefined)
  if (form === undefined || !isKnown) return
  // "Bravo via echo" may be a holding point and a route, or a route.
  const isPerhapsRoute = !isHinted && spec.kind === 'identifier' && end - found.at === 1 && plan.hasRoute
  let cost = COSTS.bare + form + (found.joints > 0 ? COSTS.joinedBare : 0)
  if (isPerhapsRoute) cost += COSTS.perhapsRoute
  if (way.named) cost += COSTS.otherNamed
  if (way.hinted) cost += isHinted ? COSTS.hinted : COSTS.againstHint
  if (!required && mayBeBare) cost += COSTS.notNamed
  if (needsWords) cost += COSTS.withoutItsWords
  if (!isFree) cost += COSTS.againBare
  if (way.lastPlace > place && !isHinted && !isSign) cost += COSTS.outOfTurn
  if (isLater && way.lastPlace !== place - 1) cost += COSTS.withoutItsFirst
  if (plan.places.some((_, other) => isSooner(search, way, other, place))) cost += COSTS.sameKindLater
  take(cost)
}

const roleOf = (token: Token | undefined, spec: Place['spec']) => affixesOf(spec).get(token?.text ?? '')?.role
const hasUnit = (tokens: readonly Token[], spec: Place['spec']) =>
  tokens.some((token) => roleOf(token, spec) === 'unit')

/** Of the same kind, not said yet, and before it. */
function isSooner(search: Search, way: Way, other: number, place: number): boolean {
  const { places } = search.plan
  return other < place && places[other]?.spec.kind === places[place]?.spec.kind && isOpen(search, way, other)
}

interface Form {
  readonly sound: boolean
  readonly named: number
  readonly bare: number | undefined
}

/** How well a piece fits a place. */
function formOf({ forms, plan, isPlain }: Search, { place, at, end, piece, numbers }: PieceAt): Form {
  const key = (at * LONGEST_PIECE + end - at - 1) * MOST_PLACES + place
  const known = forms.get(key)
  if (known) return known
  const { spec } = plan.places[place] as Place
  const sound = numbers <= mostNumbers(spec) && isSoundPiece(piece, spec, isPlain)
  const made = sound ? { sound, named: costNamed(piece, spec), bare: costBare(piece, spec) } : UNSOUND
  forms.set(key, made)
  return made
}

const UNSOUND: Form = { sound: false, named: COSTS.badForm, bare: undefined }

/** "For departure", "on the squawk", "in use": the name of a place after its value, and where it ends. */
function lateName(
  { plan, lexemes, tokens }: Search,
  at: number,
  place: number,
): { readonly end: number; readonly names: Names } | undefined {
  const isFor = (named: Named | undefined) => named?.places.includes(place) === true
  const follow = lexemes[at]?.follow
  if (follow && isFor(follow)) return { end: follow.end, names: [] }
  let begin = at
  while (begin - at < 3 && BEFORE_A_LATE_NAME.has(tokens[begin]?.text ?? '')) begin++
  const name = begin > at ? lexemes[begin]?.name : undefined
  if (name && isFor(name)) return { end: name.end, names: [tokens.slice(begin, name.end)] }
  if (plan.pair?.[0] !== place) return undefined
  const isDew = lexemes[at]?.name?.places.join() === String(plan.pair[1])
  return isDew || betweenPair(lexemes, at) ? { end: at, names: [] } : undefined
}

const betweenPair = (lexemes: readonly Lexeme[], at: number) =>
  BETWEEN_A_PAIR.has(lexemes[at]?.token.text ?? '') && lexemes[at + 1]?.type === 'number'

function claim(search: Search, way: Way, place: number, tokens: readonly Token[], end: number, cost: number): void {
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

const MINUTES_AFTER: readonly (readonly string[])[] = [
  ['minutes', 'minute'],
  ['after'],
  ['departure', 'takeoff', 'airborne'],
]

/** "In ten", "one zero minutes after departure": how long after departure, where the response has it. */
function overMinutes(search: Search, way: Way, at: number, isLed: boolean): void {
  const { plan, tokens } = search
  if (plan.minutes.size === 0) return
  for (let end = at + 1; end <= Math.min(tokens.length, at + 2) && tokens[end - 1]?.number; end++) {
    const isSaid = readNumber(tokens.slice(at, end)).some(({ whole, fraction }) => !fraction && plan.minutes.has(whole))
    if (!isSaid) continue
    let last = end
    for (const options of MINUTES_AFTER) if (options.includes(tokens[last]?.text ?? '')) last++
    if (last > end || isLed) {
      add(search, last, { ...way, cost: way.cost + COSTS.bare, names: [], hinted: undefined })
    }
  }
}

function saidIn({ last }: Way): readonly Said[] {
  const all: Said[] = []
  for (let each = last; each; each = each.before) all.push(each.said)
  return all.reverse()
}

export function elementOf({ places }: PlacePlan, said: Said): number | undefined {
  if (said.type === 'words') return said.element
  return said.type === 'value' ? places[said.place]?.element : undefined
}
