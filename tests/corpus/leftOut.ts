/**
 * Read-backs of three to seven elements, right in all but that one is left out; each of them in turn. Of stations made up
 * here, with wordings of their own, and of a pack's exchanges. A value is said without words of its own only where nobody
 * could take it for another one. `LEFT_OUT_TUNING` was looked at.
 */

import type { Figure, Figures, KindSpec, Value } from '../../src/kernel/kinds/kind.ts'
import { tokensOf, transcriptOf } from '../../src/kernel/numbers/tokens.ts'
import type { Judgement } from '../../src/kernel/response/model.ts'
import { judgeReadBack, partNames, statesOf, withoutAddress } from '../../src/kernel/response/readBack.ts'
import { type Response, responseFrom } from '../../src/kernel/response/response.ts'
import type { SpokenElement } from '../../src/kernel/response/spokenElement.ts'
import { type Random, seeded } from './case.ts'
import { pronounce } from './checkingValues.ts'
import type { Source } from './transmissions.ts'

export const LEFT_OUT_TUNING = 4_203

export interface LeftOut {
  readonly elements: readonly SpokenElement[]
  readonly figures: Figures
  readonly station?: string
  readonly heard: string
  /** The element that was not said. */
  readonly left: string
}

interface Said {
  readonly id: string
  readonly response: Response
  readonly figures: Figures
  readonly text: string
  /** Without words of its own, where it cannot be taken for another; not right beside another number. */
  readonly alone?: string
}

/** What a station gives, and how pilots say it: `#` stands for the value. */
interface Given {
  readonly id: string
  readonly response: Response
  readonly ways: readonly string[]
  readonly draw?: (random: Random) => Figure
}

const of = (random: Random, low: number, high: number, step = 1) => low + step * random.below((high - low) / step + 1)
const two = (number: number) => String(number).padStart(2, '0')

function given(
  id: string,
  response: string,
  ways: readonly string[],
  spec?: KindSpec,
  value: (random: Random) => Value = (random) => (spec?.kind === 'choice' ? random.of(Object.keys(spec.options)) : ''),
): Given {
  const draw = spec && ((random: Random) => ({ ...spec, value: value(random) }) as Figure)
  return { id, response: responseFrom(response), ways, ...(draw && { draw }) }
}

const choice = (...names: readonly string[]): KindSpec => ({
  kind: 'choice',
  options: Object.fromEntries(names.map((name) => [name, [name]])),
})

/** In the order in which they are given. */
const CLEARANCE: readonly Given[] = [
  given(
    'limit',
    '[cleared] [to] <limit>',
    ['cleared to #', 'cleared #', '#', 'cleared to #'],
    choice('penhallow', 'corrie', 'long haven', 'stanton', 'east mere'),
  ),
  given(
    'sid',
    '[via] [the] <sid> [departure]',
    ['# departure', '#', 'the # departure', 'via #'],
    choice('lantern two alfa', 'lantern four bravo', 'wicket one charlie', 'fell three delta'),
  ),
  given(
    'takeoffRunway',
    '[departure] [runway] <takeoffRunway>',
    ['runway #', 'departure runway #', '#'],
    { kind: 'runway' },
    (random) => `${two(of(random, 1, 36))}${random.of(['', '', 'L', 'R'])}`,
  ),
  given(
    'level',
    '[climb | climbing] [to] [altitude] <level> [feet]',
    ['climb #', 'climb to #', 'climbing to #', 'climb to altitude #', 'altitude #', '#'],
    { kind: 'altitude', unit: 'ft' },
    (random) => of(random, 2000, 9500, 500),
  ),
  given(
    'firstHeading',
    '[fly | turn right | turn left] [heading] <firstHeading>',
    ['heading #', 'fly heading #', 'turn left heading #', 'turn right heading #'],
    { kind: 'heading' },
    (random) => of(random, 10, 360, 10),
  ),
  given(
    'nextFrequency',
    '[departure] [frequency] [on] <nextFrequency>',
    ['frequency #', 'departure frequency #', 'departure on #', '#'],
    { kind: 'frequency' },
    (random) => of(random, 1180, 1369) / 10,
  ),
  given('code', '[squawk | squawking] <code>', ['squawk #', 'squawking #'], { kind: 'digits', length: 4 }, (random) =>
    of(random, 0, 4095).toString(8).padStart(4, '0'),
  ),
  given(
    'slotTime',
    '[slot] [time] <slotTime>',
    ['slot #', 'slot time #'],
    { kind: 'time' },
    (random) => `${two(of(random, 0, 23))}${two(of(random, 0, 59))}`,
  ),
  given('qnh', '[Q N H] <qnh>', ['QNH #'], { kind: 'altimeter', unit: 'hPa' }, (random) => of(random, 960, 1045)),
  given('letter', '[information] <letter>', ['information #'], { kind: 'identifier', form: 'letter' }, (random) =>
    random.of([...'BCDFGHKLMPRSTX']),
  ),
]

const TAXI: readonly Given[] = [
  given('push', 'push [and start] approved', ['push approved', 'push and start approved']),
  given('direction', '[face | facing] <direction>', ['facing #', 'face #'], choice('north', 'south', 'the pier')),
  given(
    'holdingPoint',
    '[taxi] [to] [holding point] <holdingPoint>',
    ['taxi to holding point #', 'holding point #', 'taxi holding point #'],
    { kind: 'identifier' },
    (random) => `${random.of([...'ABCD'])}${of(random, 1, 9)}`,
  ),
  given('taxiRoute', '[via] <taxiRoute>', ['via #'], { kind: 'route' }, (random) =>
    Array.from({ length: of(random, 1, 3) }, () => random.of(['E', 'F', 'G', 'H', 'K', 'M2', 'N'])).join(' '),
  ),
  given(
    'crossing',
    '(hold short | holding short) {hold} [of] [runway] <crossing>',
    ['hold short of runway #', 'holding short of runway #', 'hold short runway #', 'hold short of #'],
    { kind: 'runway' },
    (random) => `${two(of(random, 1, 36))}${random.of(['', 'L', 'R'])}`,
  ),
  given(
    'parking',
    '[stand] <parking>',
    ['stand #'],
    { kind: 'identifier' },
    (random) => `${random.of([...'PQRS'])}${of(random, 1, 9)}`,
  ),
  given(
    'inches',
    '[altimeter] <inches>',
    ['altimeter #'],
    { kind: 'altimeter', unit: 'inHg' },
    (random) => of(random, 2890, 3060) / 100,
  ),
  given(
    'towerFrequency',
    '[contact | monitor] [tower | ground] [on] <towerFrequency>',
    ['contact tower #', 'tower #', 'monitor ground #', 'contact tower on #', 'ground on #'],
    { kind: 'frequency' },
    (random) => of(random, 1180, 1369) / 10,
  ),
  given('brakes', 'brakes (set | parked)', ['brakes set', 'brakes parked']),
]

const CALLSIGN: Figure = { kind: 'callsign', telephony: ['Sandbar', 'Curlew'], value: 'SANDBAR 37' }
const SIGNED = responseFrom('[<callsign>]')

/** Words of an element's own are in the way it is said. */
const bare = (figure: Figure, random: Random) =>
  pronounce(figure, random).replace(/^(squawk|code|QNH|runway|altimeter|heading|course|via|taxiway)\s+/i, '')

/** Values that nobody takes for another one even where no word says whose they are. */
const UNMISTAKABLE: Readonly<Partial<Record<KindSpec['kind'], RegExp>>> = {
  altitude: /thousand|feet|ft/,
  frequency: /decimal|point|\./,
  runway: /left|right|[LR]$/,
}

function sayGiven({ id, response, ways, draw }: Given, random: Random): Said {
  const figure = draw?.(random)
  const value = figure ? bare(figure, random) : ''
  const way = random.of(ways)
  const text = (way === '#' && figure?.kind !== 'choice' ? (ways[0] ?? '') : way).replace('#', value)
  const isAlone = way === '#' && figure && UNMISTAKABLE[figure.kind]?.test(value)
  return { id, response, figures: figure ? { [id]: figure } : {}, text, ...(isAlone && { alone: value }) }
}

/** Some of them in their order. */
function someOf<T>(all: readonly T[], length: number, random: Random): T[] {
  const some = [...all]
  while (some.length > length) some.splice(random.below(some.length), 1)
  return some
}

/** Every read-back with each of its elements left out, `count` in all. */
export function* leftOut(count: number, seed: number, source?: (random: Random) => Source): Generator<LeftOut> {
  const random = seeded(seed)
  for (let done = 0; done < count; ) {
    const { said, station, callSign } = source ? ofSource(source(random), random) : ofStation(random)
    if (said.length < 3) continue
    for (const { id } of said) {
      if (done++ >= count) return
      yield without(id, said, callSign, station, random)
    }
  }
}

interface ReadBack {
  readonly said: readonly Said[]
  readonly callSign: Figure | undefined
  readonly station: string | undefined
}

function ofStation(random: Random): ReadBack {
  const all = random.of([CLEARANCE, CLEARANCE, TAXI])
  const said = someOf(all, of(random, 3, 7), random).map((one) => sayGiven(one, random))
  return {
    said,
    callSign: { ...CALLSIGN, value: `${random.of(['SANDBAR', 'CURLEW'])} ${of(random, 10, 999)}` } as Figure,
    station: 'harbour delivery',
  }
}

function ofSource({ draws, callSign, station }: Source, random: Random): ReadBack {
  const said = someOf(draws, of(random, 3, 7), random).map((draw): Said => {
    const figures = draw.draw(random)
    return { id: draw.id, response: draw.response, figures, text: draw.say(figures, random, false) }
  })
  return { said, callSign, station }
}

function without(
  left: string,
  said: readonly Said[],
  callSign: Figure | undefined,
  station: string | undefined,
  random: Random,
): LeftOut {
  const rest = inOrder(
    said.filter(({ id }) => id !== left),
    random,
  )
  const texts = rest.map(({ text, alone }, at) => (alone === undefined || isNumberBeside(rest, at) ? text : alone))
  const body = `${random.of(BEGINNINGS)}${texts.join(random.of([' ', ', ', ', ', ' uh ']))}`
  const signed = callSign ? signedBy(body, pronounce(callSign, random), random) : body
  const address = station !== undefined && random.chance(0.1) ? `${station}, ` : ''
  const elements = said.map(({ id, response }): SpokenElement => ({ id, response }))
  return {
    elements: callSign ? [...elements, { id: 'callSign', response: SIGNED }] : elements,
    figures: { ...Object.assign({}, ...said.map(({ figures }) => figures)), ...(callSign && { callsign: callSign }) },
    ...(station !== undefined && { station }),
    heard: `${address}${signed}`,
    left,
  }
}

const BEGINNINGS = ['', '', '', '', '', 'roger ', 'copied, ', 'okay '] as const

/** As they were given, or two neighbours the other way round. */
function inOrder<T>(all: readonly T[], random: Random): readonly T[] {
  const at = random.below(all.length - 1)
  const [one, other] = [all[at], all[at + 1]]
  if (one === undefined || other === undefined || random.chance(0.8)) return all
  return all.toSpliced(at, 2, other, one)
}

/** A call sign in front ends in a number as well. */
function isNumberBeside(said: readonly Said[], at: number): boolean {
  const [before, behind] = [said[at - 1], said[at + 1]]
  const last = before && tokensOf(before.text).at(-1)
  const next = behind && tokensOf(behind.alone ?? behind.text)[0]
  return at === 0 || last?.number !== undefined || next?.number !== undefined
}

function signedBy(body: string, callSign: string, random: Random): string {
  switch (random.of(['end', 'end', 'end', 'front', 'none'] as const)) {
    case 'end':
      return `${body}, ${callSign}`
    case 'front':
      return `${callSign}, ${body}`
    case 'none':
      return body
  }
}

export const judgementOfLeftOut = ({ elements, figures, station = '', heard }: LeftOut): Judgement =>
  judgeReadBack(elements, { figures, heard: withoutAddress(transcriptOf(heard), station) })

/** Asked for by its name: the one element and no other. */
export function isAskedFor({ elements, left }: LeftOut, judgement: Judgement): boolean {
  if (judgement.verdict !== 'incomplete') return false
  const owed = elements.filter((element) => partNames(element).required.size > 0)
  const states = statesOf(owed, judgement)
  return owed.every(({ id }) => (states[id] === 'missing') === (id === left) && states[id] !== 'wrong')
}
