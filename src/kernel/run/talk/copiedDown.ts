/** What stations have given, as a pilot copies it down: a line for each of their transmissions. */

import { capital } from '../../capital.ts'
import { shownAs } from '../../figures/shown.ts'
import type { Pack } from '../../pack/checklist.ts'
import type { ExchangeTurn } from '../../pack/exchange.ts'
import type { RunState } from '../core/state.ts'
import { elementsOf } from './radio.ts'
import { saidValues } from './said.ts'
import { findTurn } from './talk.ts'

/** "Departure clearance: level 5,000 ft, squawk 2613"; a turn in which no value is said has no line. */
export function copiedDown(pack: Pack, state: RunState, turns: readonly ExchangeTurn[]): readonly string[] {
  return turns
    .filter(({ id }) => findTurn(pack, id).exchange.station.role !== 'otherseat')
    .map((turn) => [turn.label, elementsCopied(pack, state, turn)] as const)
    .filter(([, elements]) => elements.length > 0)
    .map(([label, elements]) => `${capital(label)}: ${elements.join(', ')}`)
}

function elementsCopied(pack: Pack, state: RunState, turn: ExchangeTurn): string[] {
  const said = saidValues(state)
  const written = new Set<string>()
  return elementsOf(turn, state).flatMap(({ label, says }) => {
    const values = says[state.settings.radio ?? 'icao'].figures.flatMap((name) => {
      const [declaration, value] = [pack.figures.declarations[name], said[name]]
      if (!declaration || value === undefined || written.has(name)) return []
      written.add(name)
      return shownAs(declaration, value)
    })
    return values.length > 0 ? [`${label} ${values.join(' ')}`] : []
  })
}
