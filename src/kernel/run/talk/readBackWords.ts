/**
 * What Otherseat's side reads back to a controller: the controller's own words of what must be read back, in the
 * phraseology in force, and the call sign at its end (ICAO Doc 9432 has it there, from memory; FAA AIM 4-2-1 b wants it,
 * looked up).
 */

import { capital } from '../../capital.ts'
import { sayOnRadio } from '../../kinds/table.ts'
import type { Pack } from '../../pack/checklist.ts'
import type { Exchange, ExchangeTurn } from '../../pack/exchange.ts'
import { figuresFor } from '../../pack/place.ts'
import { fillTemplate } from '../../pack/template.ts'
import { partNames } from '../../response/readBack.ts'
import { outlineOf } from '../../response/sentence.ts'
import type { RunState } from '../core/state.ts'
import { callSignFor } from './callSign.ts'
import { readBacksOf, type Speech } from './radio.ts'
import { saidValues } from './said.ts'

type Values = RunState['values']

/** Elements that have to be read back. */
export const requiredOf = (turn: ExchangeTurn, state: RunState) =>
  readBacksOf(turn, state).filter((element) => partNames(element).required.size > 0)

/** One element as it is read back. */
export function elementWords(
  pack: Pack,
  state: RunState,
  { says, response }: ReturnType<typeof readBacksOf>[number],
  values: Values = saidValues(state),
): string {
  const { radio = 'icao' } = state.settings
  const write = (name: string) => {
    const figure = figuresFor(pack, values, [name])[name]
    return figure ? sayOnRadio(figure, radio) : ''
  }
  // A station may show what it wants read back, and say nothing.
  return fillTemplate(says[radio], write) || outlineOf(response, write)
}

/** `values`: with what is said wrongly; `without`: an element that is left out. */
export function readBackWords(
  pack: Pack,
  state: RunState,
  { exchange, turn }: { readonly exchange: Exchange; readonly turn: ExchangeTurn },
  { values, without }: { readonly values?: Values; readonly without?: string } = {},
): Speech[] {
  const elements = requiredOf(turn, state).filter(({ id }) => id !== without)
  const words = elements.map((element) => elementWords(pack, state, element, values))
  return toStation(pack, state, exchange, words)
}

/** The right version of one element, once more. */
export function correctedWords(
  pack: Pack,
  state: RunState,
  { exchange, turn }: { readonly exchange: Exchange; readonly turn: ExchangeTurn },
  id: string | undefined,
): Speech[] {
  const element = requiredOf(turn, state).find((one) => one.id === id)
  return element ? toStation(pack, state, exchange, ['correction', elementWords(pack, state, element)]) : []
}

function toStation(pack: Pack, state: RunState, exchange: Exchange, words: readonly string[]): Speech[] {
  const name = callSignFor(pack, exchange)
  const figure = name === undefined ? undefined : figuresFor(pack, saidValues(state), [name])[name]
  const callSign = figure ? [sayOnRadio(figure, state.settings.radio ?? 'icao')] : []
  return [{ role: 'otherseat', text: `${capital([...words, ...callSign].join(', '))}.`, onRadio: true }]
}
