/**
 * Stations made up here, what they give, and how pilots read it back: wordings of their own. A value is said without words
 * of its own only where nobody could take it for another one.
 */

import type { Figure, Figures, KindSpec, Value } from '../../src/kernel/kinds/kind.ts'
import { type Response, responseFrom } from '../../src/kernel/response/response.ts'
import type { Random } from './case.ts'
import { pronounce } from './checkingValues.ts'
import { anotherValue } from './neighbours.ts'

/** An element as it was read back. */
export interface Said {
  readonly id: string
  readonly response: Response
  readonly figures: Figures
  readonly words: Words
  /** With another value; absent where it has none. */
  readonly wrong?: Words
}

export interface Words {
  readonly text: string
  /** The value without words of its own, where it cannot be taken for another; not right beside another number. */
  readonly alone?: string
}

/** What a station gives, and how pilots say it: `#` stands for the value. */
export interface Given {
  readonly id: string
  readonly response: Response
  readonly ways: readonly string[]
  readonly draw?: (random: Random) => Figure
}

export const of = (random: Random, low: number, high: number, step = 1) =>
  low + step * random.below((high - low) / step + 1)
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
export const CLEARANCE: readonly Given[] = [
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

export const TAXI: readonly Given[] = [
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

/** Words of an element's own are in the way it is said. */
const bare = (figure: Figure, random: Random) =>
  pronounce(figure, random).replace(/^(squawk|code|QNH|runway|altimeter|heading|course|via|taxiway)\s+/i, '')

/** Values that nobody takes for another one even where no word says whose they are. */
const UNMISTAKABLE: Readonly<Partial<Record<KindSpec['kind'], RegExp>>> = {
  altitude: /thousand|feet|ft/,
  frequency: /decimal|point|\./,
  runway: /left|right|[LR]$/,
}

/** Some value of the element in one of its ways, and another value in the same one. */
export function sayGiven({ id, response, ways, draw }: Given, random: Random): Said {
  const figure = draw?.(random)
  const way = random.of(ways)
  const words = (said: Figure | undefined): Words => {
    const value = said ? bare(said, random) : ''
    const labelled = way === '#' && said?.kind !== 'choice' ? (ways[0] ?? '') : way
    const isAlone = way === '#' && said && UNMISTAKABLE[said.kind]?.test(value)
    return { text: labelled.replace('#', value), ...(isAlone && { alone: value }) }
  }
  const other = figure && anotherValue(figure, figure.value, random)
  return {
    ...{ id, response, figures: figure ? { [id]: figure } : {}, words: words(figure) },
    ...(other !== undefined && { wrong: words({ ...figure, value: other } as Figure) }),
  }
}
