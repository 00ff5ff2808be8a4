/**
 * What the voices outside the crew will say in a run: written before it begins, so that the same seed and inputs give
 * the same clearances, and the figures that only a station gives stay unknown until it has said them.
 */

import { drawNumber } from '../figures/deal.ts'
import { mistakenFor } from '../figures/mistaken.ts'
import type { Inputs } from '../figures/model.ts'
import type { FigureDeclaration } from '../figures/pack.ts'
import { type Seeded, seeded } from '../figures/seeded.ts'
import type { Value } from '../kinds/kind.ts'
import { figureNames, figuresOf, parseResponse } from '../response/parse.ts'
import type { Pack } from './checklist.ts'
import type { Script, Slip } from './events.ts'
import type { Element, Exchange, Turn, Wording } from './exchange.ts'
import { holds } from './place.ts'

export interface ScriptOptions {
  /** Once in the run a controller errs, and the pilot is meant to notice. */
  readonly slips?: boolean
}

/** Same pack, inputs and seed, same script. Take the inputs that will be in force when stations speak: the final ones. */
export function scriptFor(pack: Pack, inputs: Inputs, seed: number, options: ScriptOptions = {}): Script {
  const chance = seeded(seed)
  const values: Record<string, Value> = {}
  for (const declaration of Object.values(pack.figures.declarations)) {
    const drawn = draw(declaration, { ...inputs.values, ...inputs.said, ...values }, chance)
    const value = inputs.said?.[declaration.name] ?? (declaration.given && (inputs.values[declaration.name] ?? drawn))
    if (value !== undefined) values[declaration.name] = value
  }
  const slip = options.slips
    ? drawSlip(pack, { ...inputs.values, ...values }, inputs.situation ?? {}, chance)
    : undefined
  return { values, ...(slip && { slip }) }
}

/** Inputs as they are before any station has spoken: without the figures that only stations give. */
export function beforeStations(pack: Pack, inputs: Inputs): Inputs {
  const values = Object.entries(inputs.values).filter(([name]) => !pack.figures.declarations[name]?.given)
  return { ...inputs, values: Object.fromEntries(values) }
}

/** Names of the figures that some station says; orders between the seats are no station's. */
export function figuresOfStations(pack: Pack): string[] {
  const said = stationsOf(pack).flatMap(({ turns }) =>
    turns.flatMap(({ opens, closes, elements }) => [opens, closes, ...elements.map(({ says }) => says)]),
  )
  return [...new Set(said.flatMap((wording) => (wording ? figuresIn(wording) : [])))]
}

function stationsOf(pack: Pack): Exchange[] {
  const exchanges = pack.phases.flatMap(({ activities }) => activities.filter(({ type }) => type === 'exchange'))
  return (exchanges as Exchange[]).filter(({ station }) => station.role !== 'otherseat')
}

function figuresIn({ icao, faa }: Wording): string[] {
  return figureNames(`${icao} ${faa}`)
}

function draw(
  { given }: FigureDeclaration,
  values: Readonly<Record<string, Value>>,
  chance: Seeded,
): Value | undefined {
  if (!given) return undefined
  if ('min' in given) return drawNumber(given, chance)
  const from = 'by' in given ? given.of[String(values[given.by])] : given
  // A number is used up in any case: what is said of one figure does not change what is drawn for the next.
  const picked = chance.next()
  return from?.[Math.floor(picked * from.length)]
}

/** A figure that a controller gives and wants read back, and another value that could be taken for it. */
function drawSlip(
  pack: Pack,
  values: Readonly<Record<string, Value>>,
  situation: Readonly<Record<string, string>>,
  chance: Seeded,
): Slip | undefined {
  const initial = Object.fromEntries(pack.situations.map((one) => [one.name, one.initial]))
  const applies = ({ when }: Pick<Turn | Element | Exchange, 'when'>) => holds(when, { ...initial, ...situation })
  const chances = stationsOf(pack)
    .filter((exchange) => exchange.station.role === 'controller' && applies(exchange))
    .flatMap(({ turns }) => turns.filter(applies))
    .flatMap((turn) => turn.elements.filter(applies).flatMap((element) => slipsIn(pack, turn, element, values, chance)))
  if (chances.length === 0) return undefined
  return { ...chance.pick(chances), kind: chance.pick(['acceptsWrong', 'saysAnother'] as const) }
}

function slipsIn(
  pack: Pack,
  turn: Turn,
  { says, readBack = '' }: Element,
  values: Readonly<Record<string, Value>>,
  chance: Seeded,
): Omit<Slip, 'kind'>[] {
  const parsed = parseResponse(readBack)
  const asked = 'response' in parsed ? figuresOf(parsed.response) : []
  return asked.flatMap((figure) => {
    const [spec, right] = [pack.figures.declarations[figure]?.spec, values[figure]]
    if (!spec || right === undefined || !says.icao.includes(`<${figure}>`)) return []
    const value = mistakenFor(spec, right, chance)
    return value === undefined ? [] : [{ turn: turn.id, figure, value }]
  })
}
