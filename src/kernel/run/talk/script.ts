/**
 * What the voices outside the crew will say in a run: written before it begins, so that the same seed and inputs give
 * the same clearances, and the figures that only a station gives stay unknown until it has said them.
 */

import { holds } from '../../figures/condition.ts'
import { drawNumber } from '../../figures/deal.ts'
import type { Inputs } from '../../figures/model.ts'
import type { FigureDeclaration } from '../../figures/pack.ts'
import type { Value } from '../../kinds/kind.ts'
import { plausibleMistake } from '../../kinds/table.ts'
import type { Pack } from '../../pack/checklist.ts'
import type { Element, Exchange, ExchangeTurn, Wording } from '../../pack/exchange.ts'
import { type Seeded, seeded } from '../../seeded.ts'
import type { Script, ScriptedBy, Slip } from '../core/events.ts'
import type { RunState } from '../core/state.ts'
import { scriptedWith } from './said.ts'
import { drawStationValues } from './stationValues.ts'

export interface ScriptOptions {
  /** Once in the run a controller errs, and the pilot is meant to notice. */
  readonly slips?: boolean
  /** Other revisions of this departure that may be in force when a station speaks. */
  readonly others?: readonly Inputs[]
}

/** Same pack, inputs and seed, same script, whatever the final figures will be: what goes by another figure is drawn for all its values. */
export function scriptFor(pack: Pack, inputs: Inputs, seed: number, options: ScriptOptions = {}): Script {
  const chance = seeded(seed)
  const values: Record<string, Value> = {}
  const by: Record<string, ScriptedBy> = {}
  for (const { name, given } of Object.values(pack.figures.declarations)) {
    const said = inputs.said?.[name]
    const entered = given && inputs.values[name]
    if (given && 'by' in given) {
      const drawn = drawEach(given.of, chance)
      const other = inputs.said?.[given.by] ?? inputs.values[given.by]
      if (entered !== undefined && other !== undefined) drawn[String(other)] = entered
      if (said === undefined) by[name] = { figure: given.by, values: drawn }
    }
    const drawn = given && !('by' in given) ? draw(given, chance) : undefined
    const value = said ?? (name in by ? undefined : (entered ?? drawn))
    if (value !== undefined) values[name] = value
  }
  Object.assign(values, drawStationValues(pack, inputs, figuresOfStations(pack), chance, options.others))
  const script: Script = { values, ...(Object.keys(by).length > 0 && { by }) }
  const all = { ...inputs.values, ...scriptedWith(script, inputs.values) }
  const slip = options.slips ? drawSlip(pack, all, inputs.situation ?? {}, chance) : undefined
  return { ...script, ...(slip && { slip }) }
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
  return [...icao.figures, ...faa.figures]
}

type Given = NonNullable<FigureDeclaration['given']>

function draw(given: Exclude<Given, { readonly by: string }>, chance: Seeded): Value | undefined {
  return 'min' in given ? drawNumber(given, chance) : given[Math.floor(chance.next() * given.length)]
}

/** One number for all cases: how many there are does not change what is drawn for the next figure. */
function drawEach(of: Readonly<Record<string, readonly Value[]>>, chance: Seeded): Record<string, Value> {
  const picked = chance.next()
  return Object.fromEntries(
    Object.entries(of).flatMap(([key, values]) => {
      const value = values[Math.floor(picked * values.length)]
      return value === undefined ? [] : [[key, value]]
    }),
  )
}

/** A figure that a controller says and wants read back, and that could be taken for another. */
function drawSlip(
  pack: Pack,
  values: Readonly<Record<string, Value>>,
  situation: Readonly<Record<string, string>>,
  chance: Seeded,
): Slip | undefined {
  const initial = Object.fromEntries(pack.situations.map((one) => [one.name, one.initial]))
  const applies = ({ when }: Pick<ExchangeTurn | Element | Exchange, 'when'>) =>
    holds(when, { situation: { ...initial, ...situation }, values })
  const chances = stationsOf(pack)
    .filter((exchange) => exchange.station.role === 'controller' && applies(exchange))
    .flatMap(({ turns }) => turns.filter(applies))
    .flatMap((turn) => turn.elements.filter(applies).flatMap((element) => slipsIn(pack, turn, element, values)))
  if (chances.length === 0) return undefined
  const kind = chance.pick(['acceptsWrong', 'saysAnother'] as const)
  return { ...chance.pick(chances), kind, seed: chance.below(2 ** 31) }
}

/** Where a controller may err in this turn. */
export function slipsOf(
  pack: Pack,
  turn: ExchangeTurn,
  state: Pick<RunState, 'situation' | 'values'>,
  values: Readonly<Record<string, Value>>,
): Pick<Slip, 'turn' | 'figure'>[] {
  return turn.elements.filter(({ when }) => holds(when, state)).flatMap((one) => slipsIn(pack, turn, one, values))
}

function slipsIn(
  pack: Pack,
  turn: ExchangeTurn,
  { says, readBack }: Element,
  values: Readonly<Record<string, Value>>,
): Pick<Slip, 'turn' | 'figure'>[] {
  return (readBack?.icao.figures ?? []).flatMap((figure) => {
    const [spec, right] = [pack.figures.declarations[figure]?.spec, values[figure]]
    if (!spec || right === undefined || ![says.icao, says.faa].every(({ figures }) => figures.includes(figure)))
      return []
    return plausibleMistake(spec, right, seeded(0)) === undefined ? [] : [{ turn: turn.id, figure }]
  })
}
