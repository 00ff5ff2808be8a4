/**
 * Elements of read-backs as pilots say them: some made up here, and those of a pack in every way that its notation
 * allows. Words before a number are left out only where the element cannot be mistaken for another.
 */

import type { Figure, Figures, KindSpec, Value } from '../../src/kernel/kinds/kind.ts'
import type { Expansion } from '../../src/kernel/response/expansion.ts'
import { type Response, responseFrom } from '../../src/kernel/response/response.ts'
import type { Random } from './case.ts'
import { pronounce } from './checkingValues.ts'
import { anotherValue } from './neighbours.ts'

export interface Draw {
  readonly id: string
  readonly response: Response
  readonly draw: (random: Random) => Figures
  /** One figure changed; undefined where the element has none. */
  readonly another: (figures: Figures, random: Random) => Figures | undefined
  /** `labelled`: with words of its own even where it could do without them. */
  readonly say: (figures: Figures, random: Random, labelled: boolean) => string
}

/** Label and unit are said by the notation, or by the list of labels. */
const bare = (figure: Figure, random: Random) =>
  pronounce(figure, random)
    .replace(/^(squawk|code|QNH|runway|altimeter|heading|course|via|taxiway)\s+/i, '')
    .trim()

const choice = (...names: readonly string[]): KindSpec => ({
  kind: 'choice',
  options: Object.fromEntries(names.map((name) => [name, [name]])),
})
const between = (random: Random, low: number, high: number) => low + random.below(high - low + 1)
const oneOf = (spec: KindSpec) => (random: Random) =>
  random.of(spec.kind === 'choice' ? Object.keys(spec.options) : []) as Value

/** Of one figure that has the element's name. */
function single(
  id: string,
  response: string,
  labels: readonly string[],
  spec: KindSpec,
  value: (random: Random) => Value = oneOf(spec),
): Draw {
  return {
    id,
    response: responseFrom(response),
    draw: (random) => ({ [id]: { ...spec, value: value(random) } as Figure }),
    another: (figures, random) => changed(figures, id, random),
    say: (figures, random, labelled) => {
      const label = random.of(labelled ? labels.filter((text) => text !== '') : labels) ?? ''
      const behind = id === 'departure' && random.chance(0.5) ? ' departure' : ''
      return `${label} ${bare(figures[id] as Figure, random)}${behind}`.trim()
    },
  }
}

function changed(figures: Figures, name: string, random: Random): Figures | undefined {
  const figure = figures[name]
  const value = figure && anotherValue(figure, figure.value, random)
  return value === undefined || value === figure?.value
    ? undefined
    : { ...figures, [name]: { ...figure, value } as Figure }
}

const LIMITS = choice('corrie', 'melton', 'harbour', 'stanton', 'milford')
const DEPARTURES = choice('tarn two alfa', 'tarn two bravo', 'tarn one alfa', 'loch three charlie', 'fell four delta')

export const MADE: readonly Draw[] = [
  single('limit', '[cleared] [to] <limit>', ['cleared to', 'cleared', ''], LIMITS),
  single('departure', '<departure> [departure]', [''], DEPARTURES),
  single(
    'level',
    '[climb | climbing] [to] <level>',
    ['climb', 'climbing to', 'climb to'],
    { kind: 'altitude', unit: 'ft' },
    (random) => between(random, 20, 99) * 100,
  ),
  single('squawk', '[squawk] <squawk>', ['squawk', 'squawking'], { kind: 'digits', length: 4 }, (random) =>
    between(random, 0, 4095).toString(8).padStart(4, '0'),
  ),
  single('qnh', '[Q N H] <qnh>', ['QNH'], { kind: 'altimeter', unit: 'hPa' }, (random) => between(random, 960, 1045)),
  single(
    'runway',
    '[runway] <runway>',
    ['runway'],
    { kind: 'runway' },
    (random) => `${String(between(random, 1, 36)).padStart(2, '0')}${random.of(['', 'L', 'R'])}`,
  ),
  single(
    'frequency',
    '[contact] [ground | departure] [on] <frequency>',
    ['ground', 'contact ground', 'contact ground on'],
    { kind: 'frequency' },
    (random) => between(random, 1180, 1369) / 10,
  ),
  single(
    'hold',
    '(hold short | holding short) {hold} [of] [runway | holding point] <hold>',
    ['hold short of', 'holding short of', 'hold short'],
    { kind: 'identifier' },
    (random) => `${random.of(['A', 'B', 'C', 'D'])}${between(random, 1, 9)}`,
  ),
  single('route', '[taxi] [via] <route>', ['via', 'taxi via'], { kind: 'route' }, (random) =>
    Array.from({ length: between(random, 1, 4) }, () => random.of(['E', 'F', 'G', 'H', 'K', 'M2', 'N'])).join(' '),
  ),
]

/** An element as a pack words it; `valuesOf` gives a figure's kind and its possible values. */
export function drawOf(id: string, response: Response, figureOf: (name: string, random: Random) => Figure): Draw {
  const names = response.figures
  return {
    id,
    response,
    draw: (random) => Object.fromEntries(names.map((name) => [name, figureOf(name, random)])),
    another: (figures, random) => (names.length === 0 ? undefined : changed(figures, random.of(names), random)),
    say: (figures, random) => sayNotation(response, figures, random),
  }
}

interface Piece {
  readonly text: string
  readonly figure?: Figure
}

/** Say nothing of what comes behind them. */
const LITTLE = new Set(['to', 'and', 'at', 'of', 'on', 'feet'])

function sayNotation(response: Response, figures: Figures, random: Random): string {
  const write = (name: string): Piece => {
    const figure = figures[name] as Figure
    const text = bare(figure, random).replace(/(°| (degrees|magnetic|knots|kt|feet|ft|hectopascals))$/, '')
    return { text, figure }
  }
  for (let tried = 0; tried < 30; tried++) {
    const pieces = walk(response.tree, write, random, tried === 29)
    if (isClear(pieces)) return pieces.map(({ text }) => text).join(' ')
  }
  throw new Error('nothing in the notation says what this is')
}

/** A number has a word before it that says whose it is, and two of them have one between. */
function isClear(pieces: readonly Piece[]): boolean {
  const at = pieces.findIndex(({ figure }) => figure)
  const named = pieces.slice(0, Math.max(at, 0)).some(({ text }) => text.split(' ').some((word) => !LITTLE.has(word)))
  const isNumber = pieces[at]?.figure?.kind !== 'choice'
  const apart = pieces.every(({ figure }, index) => !figure || !pieces[index + 1]?.figure)
  return apart && (at < 0 || !isNumber || named)
}

function walk(node: Expansion, write: (name: string) => Piece, random: Random, all: boolean): Piece[] {
  switch (node.type) {
    case 'words':
      return [{ text: node.words.join(' ') }]
    case 'figure':
      return [write(node.name)]
    case 'optional':
      return all || random.chance(0.5) ? walk(node.part, write, random, all) : []
    case 'either':
      return walk(random.of(node.options), write, random, all)
    case 'sequence':
      return node.parts.flatMap((part) => walk(part, write, random, all))
  }
}
