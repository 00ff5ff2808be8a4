/** A changed figure reopens what rested on it (law 5), and the voice says which, never the new value. */

import type { Pack } from '../../pack/checklist.ts'
import { findItem, flowsOf, itemsOf, listsOf, responseOf } from '../../pack/place.ts'
import { restsOf } from '../../pack/rests.ts'
import { stepsToRepeat } from '../list/flows.ts'
import { reopenAgreed } from '../talk/agreed.ts'
import { exchangesOf, findTurn, reopenOrders } from '../talk/talk.ts'
import { afterWatch } from './announce.ts'
import type { RunEvent } from './events.ts'
import { enter } from './listening.ts'
import { isGivenFirst, nextFloor, openChallenges } from './moving.ts'
import { papersCalled, withSheet } from './papersCame.ts'
import { say } from './phrases.ts'
import { itemState, listState, withItem, withList } from './progress.ts'
import type { RunState, Step } from './state.ts'

type Revised = RunEvent<'figuresRevised'>

/**
 * Items closed on a spoken value, or in a wording, that has changed since, or on one of the values that are `gone`
 * though nobody has given another yet. A passed item rests on none of them.
 */
function overtaken(pack: Pack, state: RunState, gone: readonly string[]): { id: string; challenge: string }[] {
  return listsOf(pack)
    .flatMap((list) => itemsOf(list, state.situation))
    .filter((item) => {
      const { status, expected, response } = itemState(state, item.id)
      const isOther = (name: string) => expected[name] !== state.values[name] || gone.includes(name)
      const moved = restsOf(item, state.situation).some(isOther)
      return status === 'done' && (moved || response !== responseOf(item, state.situation).text)
    })
}

/**
 * Opens them again, and takes back the completion of every list that is no longer closed throughout. A list that was
 * gone on from is due again: something is open in it besides what was left.
 */
export function reopen(
  pack: Pack,
  before: RunState,
  gone: readonly string[] = [],
): { state: RunState; challenges: string[]; lists: string[] } {
  const items = overtaken(pack, before, gone)
  let state = before
  for (const { id } of items) {
    state = withItem(state, id, { status: 'reopened', partsSoFar: [], misses: 0, sayAgains: 0 })
    state = withList(state, findItem(pack, id).list.id, { suspended: false })
  }
  const lists: string[] = []
  for (const list of listsOf(pack)) {
    if (!listState(state, list.id).complete || openChallenges(pack, state, list.id).length === 0) continue
    state = withList(state, list.id, { complete: false, revoked: true })
    lists.push(list.name)
  }
  return { state, challenges: items.map((item) => item.challenge), lists }
}

/** Takes new figures in, opens again what rested on changed ones, says which, and puts the open place again. */
export function revised(pack: Pack, before: RunState, event: Revised): Step {
  const first = before.figureStatus === undefined
  const label = event.label || event.status
  const moved = event.changes.filter((change) => change.spoken).map((change) => change.figure)
  // A value that is gone sets nothing: the step comes with the new one.
  const set = moved.filter((name) => event.values[name] !== undefined)
  const again = stepsToRepeat(pack, before, set).map(({ id }) => id)
  const entered: RunState = {
    ...(event.sheet ? withSheet(before, event.sheet) : before),
    revision: event.revision,
    figureStatus: event.status,
    values: event.values,
    inputs: event.inputs,
    fromStations: fromStationsAfter(pack, before, event),
    warnings: event.warnings,
    warned: event.warned ?? [],
    history: [...before.history, { revision: event.revision, label, values: event.values }],
    stepsDone: before.stepsDone.filter((id) => !again.includes(id)),
    stepsAgain: [...new Set([...before.stepsAgain, ...again])],
  }
  if (first) return enter(pack, entered, nextFloor(pack, entered))
  const agreed = reopenAgreed(pack, before, entered, moved)
  const { state, challenges, lists } = reopen(pack, reopenOrders(pack, agreed.state, set), agreed.gone)
  const words = [
    ...whatCame(pack, event, event.sheet ? papersCalled(pack, entered) : ''),
    say.changed(agreed.figures.map((name) => pack.figures.declarations[name]?.label ?? name)),
    agreed.names.length > 0 ? say.openAgain(agreed.names) : '',
    challenges.length > 0
      ? say.openAgain(challenges)
      : moved.length === 0 && !event.crossChecked && !event.takenDown
        ? say.nothingChanges()
        : '',
    ...lists.map((list) => say.revoked(list)),
  ]
  const waits = afterWatch(pack, state, words)
  if (waits) return waits
  if (event.takenDown !== undefined) return enter(pack, state, nextFloor(pack, state), { words })
  return interject(pack, { ...state, standingBy: false }, words)
}

/** What a turn gave holds until another turn, or somebody who has seen it, puts another value in its place. */
function fromStationsAfter(pack: Pack, before: RunState, { inputs, takenDown }: Revised): RunState['fromStations'] {
  const old = before.inputs?.values ?? {}
  const kept = Object.entries(before.fromStations).filter(([name]) => inputs.values[name] === old[name])
  if (takenDown === undefined) return Object.fromEntries(kept)
  const { sets } = findTurn(pack, takenDown).turn
  const given = sets
    .filter((name) => inputs.values[name] !== old[name])
    .map((name) => [name, before.fromStations[name] ?? { over: old[name] }] as const)
  return Object.fromEntries([...kept, ...given])
}

/** New figures, or one that was read aloud and agrees or not: a difference leaves it without a value until it is settled. */
function whatCame(pack: Pack, event: Revised, papers: string): string[] {
  const { crossChecked, takenDown } = event
  // What a station gave was just said: no need to say that it is in.
  if (takenDown !== undefined) return []
  if (crossChecked === undefined) return [papers || say.figuresChanged(), say.figuresIn(event.status)]
  const label = pack.figures.declarations[crossChecked]?.label ?? crossChecked
  return [event.values[crossChecked] === undefined ? say.differs(label) : say.agrees(label)]
}

/** Says it and puts the open place again: an answer in mid-air belongs to the figures of before. */
function interject(pack: Pack, state: RunState, words: readonly string[]): Step {
  const { floor, question } = state
  const waitsForFinal = question?.about === 'finalFiguresIn' && state.figureStatus !== 'preliminary'
  const goesOn = (floor.at === 'item' || floor.at === 'line') && !isSetFirst(pack, state)
  const target = goesOn && !waitsForFinal ? floor : nextFloor(pack, state)
  const step = enter(pack, state, target, { words })
  const revisedItem = floor.at === 'item' ? floor.item : undefined
  return { ...step, state: { ...step.state, revisedListenId: step.state.floorListenId, revisedItem } }
}

/** A step, an order or a clearance that sets what the open item says, and is open again, comes before it. */
function isSetFirst(pack: Pack, state: RunState): boolean {
  const { floor } = state
  if (floor.at !== 'item') return false
  const sets = flowsOf(pack).flatMap(({ steps }) => steps.filter(({ id }) => state.stepsAgain.includes(id)))
  const rests = new Set(restsOf(findItem(pack, floor.item).item, state.situation))
  const orders = exchangesOf(pack).flatMap(({ turns }) => turns.filter(({ id }) => state.turns[id]?.again))
  return (
    sets.some((step) => step.sets.some((name) => rests.has(name))) ||
    orders.some(({ calls }) => calls?.figures.some((name) => rests.has(name))) ||
    isGivenFirst(pack, state, floor.item)
  )
}
