/**
 * Read-backs made by a script: right ones in order, in another order, with a correction; ones with a value changed, said
 * twice with two values, with "cross" for "hold short" or another state, with an element left out; with the name of
 * the station in front or not; with the call sign in front, at the end, both or not at all. Values are said in the ways of the check corpus, which is written apart from how
 * the app says them. `TUNING_SEED` was looked at, `CHECK_SEED` was not.
 */

import type { Figure, Figures } from '../../src/kernel/kinds/kind.ts'
import { transcriptOf } from '../../src/kernel/numbers/tokens.ts'
import type { Judgement } from '../../src/kernel/response/model.ts'
import { judgeReadBack, partNames, statesOf, withoutAddress } from '../../src/kernel/response/readBack.ts'
import { responseFrom } from '../../src/kernel/response/response.ts'
import type { SpokenElement } from '../../src/kernel/response/spokenElement.ts'
import { type Random, seeded } from './case.ts'
import { pronounce } from './checkingValues.ts'
import { anotherValue } from './neighbours.ts'
import { type Draw, MADE } from './readElements.ts'

export const TUNING_SEED = 51
export const CHECK_SEED = 280_655

export interface Transmission {
  readonly elements: readonly SpokenElement[]
  readonly figures: Figures
  readonly station?: string
  /** What is read back could be in other states. */
  readonly states?: readonly (readonly string[])[]
  /** Parts that were right in an earlier breath. */
  readonly held: readonly string[]
  readonly heard: string
  readonly truth: 'right' | 'wrong' | 'leftOut'
  /** The element that was said wrong or left out. */
  readonly element?: string
  readonly why: string
}

/** What one exchange gives, and who it is given to. */
export interface Source {
  readonly draws: readonly Draw[]
  readonly callSign?: Figure
  /** The name of a station that is on the radio. */
  readonly station?: string
  readonly states?: readonly (readonly string[])[]
}

const CALLSIGN: Figure = { kind: 'callsign', telephony: ['Curlew', 'Sandbar'], value: 'CURLEW 421' }

/** One to seven elements of those made up. */
const made = (random: Random): Source => {
  const draws = [...MADE]
  const length = 1 + random.below(7)
  while (draws.length > length) draws.splice(random.below(draws.length), 1)
  const flight = String(100 + random.below(900))
  return { draws, callSign: { ...CALLSIGN, value: `${random.of(['CURLEW', 'SANDBAR'])} ${flight}` } as Figure }
}

export function* transmissions(
  count: number,
  seed: number,
  source: (random: Random) => Source = made,
): Generator<Transmission> {
  const random = seeded(seed)
  for (let done = 0; done < count; done++) yield transmission(source(random), random)
}

const CALL_SIGN = 'callSign'
const SIGNED = responseFrom('[<callsign>]')
const WAYS = [
  ...(['right', 'right', 'moved', 'corrected', 'wrong', 'wrong', 'twice', 'twice'] as const),
  ...(['denied', 'denied', 'leftOut', 'otherFlight'] as const),
]

interface Drawn {
  readonly draw: Draw
  readonly figures: Figures
}

function transmission({ draws, callSign, station, states }: Source, random: Random): Transmission {
  const all = draws.map((draw): Drawn => ({ draw, figures: draw.draw(random) }))
  // What is owed: all, or what an earlier breath left.
  const owed = random.chance(0.25) ? all.filter(() => random.chance(0.5)) : all
  const drawn = owed.length > 0 ? owed : all
  const at = random.below(drawn.length)
  const { draw, figures } = drawn[at] as Drawn
  const wrong = draw.another(figures, random)
  const denied = deniedWays(draw, figures, random)
  const way = random.of(
    WAYS.filter((one) => {
      if (one === 'leftOut') return drawn.length > 1
      if (one === 'denied') return denied.length > 0
      if (one === 'otherFlight') return callSign !== undefined
      return wrong !== undefined || one === 'right' || one === 'moved'
    }),
  )
  const spoken = drawn.map((one) => one.draw.say(one.figures, random, way === 'moved'))
  const said = bodyOf(way, spoken, at, {
    right: () => draw.say(figures, random, true),
    wrong: () => draw.say(wrong ?? figures, random, true),
    denied: () => random.of(denied),
    random,
  })
  const truth =
    way === 'leftOut' ? 'leftOut' : way === 'right' || way === 'moved' || way === 'corrected' ? 'right' : 'wrong'
  const signed = callSign ? withCallSign(said, callSign, way === 'otherFlight', random) : said
  const elements = all.map((one): SpokenElement => ({ id: one.draw.id, response: one.draw.response }))
  return {
    elements: callSign ? [...elements, { id: CALL_SIGN, response: SIGNED }] : elements,
    ...(station !== undefined && { station }),
    ...(states && { states }),
    figures: { ...Object.assign({}, ...all.map((one) => one.figures)), ...(callSign && { callsign: callSign }) },
    held: all.filter((one) => !drawn.includes(one)).flatMap((one) => [...partNames(one.draw).required]),
    heard: `${station !== undefined && random.chance(0.2) ? `${station} ` : ''}${signed}`,
    truth,
    element: way === 'otherFlight' ? CALL_SIGN : draw.id,
    why: way,
  }
}

interface Ways {
  readonly right: () => string
  readonly wrong: () => string
  readonly denied: () => string
  readonly random: Random
}

function bodyOf(way: (typeof WAYS)[number], spoken: readonly string[], at: number, ways: Ways): string {
  const { right, wrong, denied, random } = ways
  switch (way) {
    case 'right':
    case 'otherFlight':
      return spoken.join(' ')
    case 'moved':
      return shuffled(spoken, random).join(' ')
    case 'corrected':
      return spoken.with(at, `${wrong()} correction ${right()}`).join(' ')
    case 'wrong':
      return spoken.with(at, wrong()).join(' ')
    case 'denied':
      return spoken.with(at, denied()).join(' ')
    case 'leftOut':
      return spoken.toSpliced(at, 1).join(' ')
    case 'twice': {
      const [one, two] = random.chance(0.5) ? [right(), wrong()] : [wrong(), right()]
      const later = at + 1 + random.below(spoken.length - at)
      return spoken.with(at, one).toSpliced(later, 0, two).join(' ')
    }
  }
}

function shuffled(spoken: readonly string[], random: Random): string[] {
  const moved = [...spoken]
  for (let i = moved.length - 1; i > 0; i--) {
    const j = random.below(i + 1)
    const [a, b] = [moved[i] ?? '', moved[j] ?? '']
    moved[i] = b
    moved[j] = a
  }
  return moved
}

/** Another state than the one that was given. */
function deniedWays(draw: Draw, figures: Figures, random: Random): string[] {
  const text = draw.say(figures, random, true)
  if (/^hold(ing)? short/.test(text)) {
    const value = text.replace(/^hold(ing)? short( of)?( (runway|holding point))? /, '')
    const cross = random.of(['cross', 'crossing'])
    return [
      `${cross} runway ${value}`,
      `${cross} ${value}`,
      `hold short then ${cross} runway ${value}`,
      `hold short of runway ${value} ${cross} ${value}`,
      `${cross} runway ${value} hold short of runway ${value}`,
    ]
  }
  if (Object.keys(figures).length > 0) return []
  const words = text.split(' ')
  const not = [...words.slice(0, -1), 'not', words.at(-1)].join(' ')
  return /brakes? set/.test(text) ? [not, text.replace('set', 'released'), 'brakes off'] : [not]
}

function withCallSign(body: string, callSign: Figure, isOther: boolean, random: Random): string {
  const other = isOther ? anotherValue(callSign, callSign.value, random) : callSign.value
  const say = () => pronounce({ ...callSign, value: other } as Figure, random)
  const places = ['front', 'end', 'end', 'both', ...(isOther ? [] : ['none', 'none'])] as const
  const place = random.of(places)
  const front = place === 'front' || place === 'both' ? `${say()} ` : ''
  return `${front}${body}${place === 'end' || place === 'both' ? ` ${say()}` : ''}`
}

export type TransmissionOutcome = 'asItShould' | 'wrongAccepted' | 'rightRefused' | 'notTold'

export const judgementOf = ({ elements, station = '', heard, ...input }: Transmission) =>
  judgeReadBack(elements, { ...input, heard: withoutAddress(transcriptOf(heard), station) })

/** What a judgement means: the element that is wrong or left out must neither pass itself nor let all pass. */
export function outcomeOfTransmission(each: Transmission, judgement: Judgement): TransmissionOutcome {
  if (each.truth === 'right') return judgement.verdict === 'correct' ? 'asItShould' : 'rightRefused'
  const state = statesOf(each.elements, judgement)[each.element ?? '']
  if (judgement.verdict === 'correct' || state === 'ok') return 'wrongAccepted'
  const told = each.truth === 'wrong' ? 'wrong' : 'missing'
  return judgement.verdict !== 'sayAgain' && state === told ? 'asItShould' : 'notTold'
}
