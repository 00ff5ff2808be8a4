/** The exchanges of a pack as the source of read-backs: each turn's own elements, with the values that its stations give. */

import { holds } from '../../src/kernel/figures/condition.ts'
import type { Figure, KindSpec, Value } from '../../src/kernel/kinds/kind.ts'
import { RADIOS } from '../../src/kernel/kinds/radio.ts'
import type { Pack } from '../../src/kernel/pack/checklist.ts'

import type { Exchange, ExchangeTurn } from '../../src/kernel/pack/exchange.ts'
import type { Random } from './case.ts'
import { drawOf } from './readElements.ts'
import type { Source } from './transmissions.ts'

/** Turns of a pack that are read back, and to whom. */
function readBackTurns({ phases }: Pack): { readonly turn: ExchangeTurn; readonly exchange: Exchange }[] {
  return phases
    .flatMap(({ activities }) => activities)
    .filter((one): one is Exchange => one.type === 'exchange')
    .flatMap((exchange) => exchange.turns.map((turn) => ({ turn, exchange })))
    .filter(({ turn }) => turn.elements.some(({ readBack }) => readBack !== undefined))
}

/** One turn after the other, as they come. */
export function sourceOf(pack: Pack): (random: Random) => Source {
  const turns = readBackTurns(pack)
  const specOf = (name: string) => pack.figures.declarations[name]?.spec as KindSpec
  const figureOf = (name: string, random: Random) =>
    ({ ...specOf(name), value: givenBy(specOf(name), random) }) as Figure
  return (random) => {
    const { turn, exchange } = random.of(turns)
    const radio = random.of(RADIOS)
    const draws = turn.elements
      .filter(({ when }) => holds(when, { situation: { radio }, values: {} }))
      .flatMap(({ id, readBack }) =>
        // What may be left out owes nothing.
        readBack === undefined || /^\[[^\]]*\]$/.test(readBack[radio].text)
          ? []
          : [drawOf(id, readBack[radio], figureOf)],
      )
    // A controller is answered with the call sign.
    const [callSign] = exchange.station.role === 'controller' ? ['callsign'] : []
    const value = pack.figures.declarations[callSign ?? '']?.constant
    return {
      draws,
      ...(turn.states && { states: turn.states }),
      ...(exchange.station.role === 'controller' && { station: exchange.station.name.toLowerCase() }),
      ...(value !== undefined && { callSign: { ...specOf(callSign ?? ''), value } as Figure }),
    }
  }
}

const of = (random: Random, low: number, high: number, step = 1) => low + step * random.below((high - low) / step + 1)

/** What a station could give. */
function givenBy(spec: KindSpec, random: Random): Value {
  switch (spec.kind) {
    case 'choice':
      return random.of(Object.keys(spec.options))
    case 'altitude':
      return of(random, 2000, 9000, 500)
    case 'digits':
      return of(random, 0, 4095).toString(8).padStart(4, '0')
    case 'altimeter':
      return spec.unit === 'hPa' ? of(random, 960, 1045) : of(random, 2840, 3085) / 100
    case 'flightLevel':
      return of(random, 200, 410, 10)
    case 'runway':
      return random.of(['06', '24', '33'])
    case 'frequency':
      return random.of([119.35, 121.1, 124.675, 127.9, 118.025, 135.5])
    case 'identifier':
      return spec.form === 'letter' ? random.of([...'BDFHKMPRTX']) : random.of(['A1', 'A2', 'C3', 'C4', 'D1', 'B'])
    case 'route':
      return random.of(['B A', 'E B A', 'E C', 'B E C', 'B C', 'E D', 'B D', 'C'])
    case 'heading':
      return of(random, 10, 360, 10)
    case 'speed':
      return of(random, 2, 24)
    default:
      throw new Error(`no station gives a ${spec.kind}`)
  }
}
