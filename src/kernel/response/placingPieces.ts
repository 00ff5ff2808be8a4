/** Numbers and letters, as a way gives them to the places that they can be for. */

import { affixesOf } from '../kinds/table.ts'
import { readNumber } from '../numbers/readings.ts'
import { isHomophone, type Token } from '../numbers/tokens.ts'
import type { Lexeme, Named } from './lexemes.ts'
import { NAMES_OF_NUMBERS } from './lexicon.ts'
import { costBare, costNamed, isSoundPiece, mostNumbers } from './pieceForms.ts'
import type { Place } from './placePlan.ts'
import { shortCallSign } from './placingCallSign.ts'
import {
  add,
  betweenPair,
  COSTS,
  claim,
  type Form,
  isOpen,
  LONGEST_PIECE,
  MOST_PLACES,
  type Names,
  type Search,
  type Way,
} from './placingWays.ts'
import { BEFORE_A_LATE_NAME } from './radioWords.ts'

/** Numbers and letters that begin here, for every place that they can be for. */
export function fromPieces(search: Search, way: Way, at: number): void {
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
  const isBehindName = NAMES_OF_NUMBERS.has(search.tokens[found.at - 1]?.text ?? '')
  const alike = (isBehindName ? piece.slice(1) : piece).filter(isHomophone).length * COSTS.soundsLikeDigit
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

const MINUTES_AFTER: readonly (readonly string[])[] = [
  ['minutes', 'minute'],
  ['after'],
  ['departure', 'takeoff', 'airborne'],
]

/** "In ten", "one zero minutes after departure": how long after departure, where the response has it. */
export function overMinutes(search: Search, way: Way, at: number, isLed: boolean): void {
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
