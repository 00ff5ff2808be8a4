/** What an event gives the partner to say that could be wrong: each is a chance, whether a fault is in it or not. */

import type { Pack } from '../../pack/checklist.ts'
import { findItem, itemsOf, listById, listsOf } from '../../pack/place.ts'
import type { RunEvent } from '../core/events.ts'
import { isClosed, itemState, listState } from '../core/progress.ts'
import type { RunState } from '../core/state.ts'
import { requiredOf } from '../talk/readBackWords.ts'
import { hasErred } from '../talk/relaying.ts'
import { saidValues } from '../talk/said.ts'
import { slipsOf } from '../talk/script.ts'
import { findTurn, turnState } from '../talk/talk.ts'
import type { ChanceKind } from './model.ts'
import { isCalledComplete, pilotChallenges } from './partner.ts'
import { canAnswer, figuresSaid } from './seat.ts'

interface Found {
  readonly kind: ChanceKind
  readonly about: string
}

/** In the order in which they are said. */
export function chancesBetween(pack: Pack, before: RunState, after: RunState, event: RunEvent): Found[] {
  return [
    ...answerIn(pack, before, after, event),
    ...(event.type === 'challenged' ? [] : moveIn(pack, before, after)),
    ...completionsIn(pack, before, after),
    ...colleagueIn(pack, before, after, event),
    ...stationIn(pack, before, after, event),
  ]
}

/** The figures that Otherseat's own seat says in answer to this event; none where it says none. */
export function figuresAnswered(pack: Pack, state: RunState, event: RunEvent): string[] {
  if (event.type === 'challenged') {
    const { item } = findItem(pack, event.item)
    return canAnswer(pack, state, item) ? figuresSaid(pack, state, item) : []
  }
  if (event.type !== 'answered' || event.judgement.verdict !== 'correct') return []
  const { item } = findItem(pack, event.item)
  if (item.answers !== 'both') return []
  const said = event.judgement.parts.flatMap(({ kind, name }) => (kind === 'figure' ? [name] : []))
  return figuresSaid(pack, state, item, said)
}

function answerIn(pack: Pack, before: RunState, after: RunState, event: RunEvent): Found[] {
  if (event.type !== 'answered' && event.type !== 'challenged') return []
  if (figuresAnswered(pack, before, event).length === 0) return []
  const isSaid =
    event.type === 'challenged'
      ? after.partner?.answered === event.item
      : !isClosed(before, event.item) && itemState(after, event.item).status === 'done'
  return isSaid ? [{ kind: 'answer', about: event.item }] : []
}

/** From one item of a list to the next one by Otherseat's doing; where the pilot calls them, its end alone can go wrong. */
function moveIn(pack: Pack, before: RunState, after: RunState): Found[] {
  const [from, to] = [before.floor, after.floor]
  if (from.at !== 'item' || to.at !== 'item' || from.list !== to.list || from.item === to.item) return []
  if (!isClosed(after, from.item) || isClosed(before, from.item)) return []
  if (after.question || (pilotChallenges(after) && leftIn(pack, after, to.list) > 2)) return []
  return [{ kind: 'move', about: to.item }]
}

const leftIn = (pack: Pack, state: RunState, list: string) =>
  itemsOf(listById(pack, list), state).filter(({ id }) => !isClosed(state, id)).length

function completionsIn(pack: Pack, before: RunState, after: RunState): Found[] {
  return listsOf(pack).flatMap(({ id }): Found[] => {
    const isNew = listState(after, id).complete && !listState(before, id).complete
    return isNew || (isCalledComplete(after, id) && !isCalledComplete(before, id))
      ? [{ kind: 'completion', about: id }]
      : []
  })
}

/** Otherseat's side has read back something with a figure in it. */
function colleagueIn(pack: Pack, before: RunState, after: RunState, event: RunEvent): Found[] {
  if (event.type !== 'radioed' || event.part !== 'readBack') return []
  const { turn } = findTurn(pack, event.turn)
  if (turnState(before, turn.id).status !== 'relaying' || turnState(after, turn.id).status !== 'relayed') return []
  const hasFigure = requiredOf(turn, before).some(({ response }) => response.figures.length > 0)
  return hasFigure ? [{ kind: 'colleague', about: turn.id }] : []
}

/** A controller has heard a right read-back that holds something to err in. */
function stationIn(pack: Pack, before: RunState, after: RunState, event: RunEvent): Found[] {
  if (event.type !== 'transmitted' && event.type !== 'radioed') return []
  const { exchange, turn } = findTurn(pack, event.turn)
  const { status } = turnState(before, turn.id)
  const isRight =
    event.type === 'radioed'
      ? status === 'relayed' && !hasErred(before, turn.id)
      : event.judgement.verdict === 'correct' && (status === 'said' || status === 'relaying')
  if (!isRight || exchange.station.role !== 'controller' || turnState(after, turn.id).status === status) return []
  return slipsOf(pack, turn, before, saidValues(before)).length > 0 ? [{ kind: 'station', about: turn.id }] : []
}
