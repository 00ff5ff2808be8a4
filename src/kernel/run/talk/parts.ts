/** The parts of a call or a read-back that were judged: which stand, which are wrong, and their names. */

import type { Pack } from '../../pack/checklist.ts'
import type { Exchange, ExchangeTurn } from '../../pack/exchange.ts'
import type { Part } from '../../response/model.ts'
import { partNames } from '../../response/readBack.ts'
import type { RunState } from '../core/state.ts'
import { callSignFor } from './callSign.ts'
import { readBacksOf } from './radio.ts'
import { turnState, withTurn } from './talk.ts'

/** It need not be read back. */
export const isOptional = (elements: ReturnType<typeof readBacksOf>, id: string) =>
  elements.some((element) => element.id === id && partNames(element).required.size === 0)

/** Whether the call sign is among the parts in that state. */
export function isCallSign(pack: Pack, exchange: Exchange, parts: readonly Part[], which: Part['state']): boolean {
  const callSign = callSignFor(pack, exchange)
  return parts.some(({ name, state }) => name === callSign && state === which)
}

/** What is right stands: only the rest is to be said again. What need not be said is not kept, nor who called. */
export function keepParts(
  pack: Pack,
  state: RunState,
  exchange: Exchange,
  turn: ExchangeTurn,
  parts: readonly Part[],
): RunState {
  const free = readBacksOf(turn, state)
    .map(partNames)
    .filter(({ required }) => required.size === 0)
  const isKept = (name: string) => name !== callSignFor(pack, exchange) && !free.some(({ all }) => all.has(name))
  const right = parts
    .filter(({ name, state: part, doubtful }) => part === 'ok' && !doubtful && isKept(name))
    .map(({ name }) => name)
  const wrong = new Set(parts.filter((part) => part.state === 'wrong').map(({ name }) => name))
  const before = turnState(state, turn.id).partsSoFar.filter((name) => !wrong.has(name))
  const begun = Object.fromEntries(
    parts.flatMap(({ name, state: part, heard }) => (part === 'missing' && heard ? [[name, heard]] : [])),
  )
  return withTurn(state, turn.id, { partsSoFar: [...new Set([...before, ...right])], begun, sayAgains: 0 })
}

/** What was heard of the wrong parts. */
export const wrongWords = (parts: readonly Part[]) =>
  parts.flatMap((part) => (part.state === 'wrong' && part.heard ? [part.heard] : [])).join(', ')

/** Parts of a call by the names of their figures, else by its own, never by their values. */
export function labelsOf(pack: Pack, turn: ExchangeTurn, parts: readonly Part[], which: Part['state']): string[] {
  const names = parts.filter((part) => part.state === which || (which === 'missing' && part.doubtful))
  const labels = names.map(
    ({ name, kind }) => (kind === 'figure' ? pack.figures.declarations[name]?.label : undefined) ?? turn.label,
  )
  return [...new Set(labels)]
}
