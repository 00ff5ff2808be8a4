/** New figures come in: the voice says what that opens again, never a value (law 4). */

import { holds } from '../../figures/condition.ts'
import type { Pack } from '../../pack/checklist.ts'
import { findItem, flowsOf } from '../../pack/place.ts'
import { restsOf } from '../../pack/rests.ts'
import { exchangesOf, findTurn } from '../talk/talk.ts'
import { afterWatch } from './announce.ts'
import type { RunEvent } from './events.ts'
import { holdBack, isHeldBack } from './lateCatch.ts'
import { enter, sayAndListen } from './listening.ts'
import { isGivenFirst, nextFloor } from './moving.ts'
import { ownToAsk } from './ownQuestion.ts'
import { papersCalled, withSheet } from './papersCame.ts'
import { say } from './phrases.ts'
import { reopenMoved } from './reopening.ts'
import type { RunState, Step } from './state.ts'

type Revised = RunEvent<'figuresRevised'>

/** Takes new figures in, opens again what rested on changed ones, says which, and puts the open place again. */
export function revised(pack: Pack, before: RunState, event: Revised): Step {
  const first = before.figureStatus === undefined
  const label = event.label || event.status
  const moved = event.changes.filter((change) => change.spoken).map((change) => change.figure)
  const entered: RunState = {
    ...(event.sheet ? withSheet(before, event.sheet) : before),
    revision: event.revision,
    figureStatus: event.status,
    values: event.values,
    inputs: event.inputs,
    fromStations: fromStationsAfter(pack, before, event),
    // What was said before belongs to other figures.
    last: event.takenDown === undefined ? undefined : before.last,
    warnings: event.warnings,
    ownToAsk: isHeldBack(pack, before, event) ? [] : ownToAsk(pack, before, event),
    warned: event.warned ?? [],
    history: [
      ...before.history,
      {
        revision: event.revision,
        label,
        values: event.values,
        ...(event.takenDown !== undefined && { isGiven: true }),
      },
    ],
  }
  if (first) return enter(pack, entered, nextFloor(pack, entered))
  const came = whatCame(pack, before, event, event.sheet ? papersCalled(pack, entered) : '')
  if (isHeldBack(pack, before, event)) return putAgain(pack, holdBack(before, entered, moved), event, came)
  const { state, words } = reopenMoved(pack, entered, moved, before.inputs)
  const isQuiet = words.length === 0 && moved.length === 0 && !event.crossChecked && !event.takenDown
  const news = [...came, ...words, isQuiet ? say.nothingChanges() : '']
  return (isQuiet && isUnmoved(state) && asItWas(pack, state, news)) || putAgain(pack, state, event, news)
}

/** At once, or when an engine start is over. */
function putAgain(pack: Pack, state: RunState, event: Revised, words: readonly string[]): Step {
  const waits = afterWatch(pack, state, words)
  if (waits) return waits
  // It was read back, and the pilot has called a list meanwhile: what was asked of that still is.
  if (event.takenDown !== undefined && state.question?.about === 'outOfOrder') {
    return sayAndListen(pack, state, words, { prompt: true })
  }
  if (event.takenDown !== undefined) return enter(pack, state, nextFloor(pack, state), { words })
  return interject(pack, { ...state, standingBy: false }, words)
}

/** Neither an item, whose answer may be in mid-air, nor a question is open, nor a wait: nothing has to be put again. */
const isUnmoved = ({ floor, question, ownToAsk, standingBy }: RunState): boolean =>
  floor.at !== 'item' && floor.at !== 'line' && question === undefined && ownToAsk.length === 0 && !standingBy

/** The open place was put before, and is as it was: it is not said twice. */
const asItWas = (pack: Pack, state: RunState, words: readonly string[]): Step =>
  afterWatch(pack, state, words) ?? sayAndListen(pack, { ...state, standingBy: false }, words)

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
function whatCame(pack: Pack, before: RunState, event: Revised, papers: string): string[] {
  const { crossChecked, takenDown } = event
  // What a station gave was just said: no need to say that it is in.
  if (takenDown !== undefined) return []
  if (crossChecked === undefined) {
    const isNews = event.status !== before.figureStatus
    return [papers, isNews ? say.figuresIn(event.status) : papers ? '' : say.figuresChanged()]
  }
  const label = pack.figures.declarations[crossChecked]?.label ?? crossChecked
  return [event.values[crossChecked] === undefined ? say.differs(label) : say.agrees(label)]
}

/** Says it and puts the open place again: an answer in mid-air belongs to the figures of before. */
function interject(pack: Pack, state: RunState, words: readonly string[]): Step {
  const { floor, question } = state
  const waitsForFinal = question?.about === 'finalFiguresIn' && state.figureStatus !== 'preliminary'
  const goesOn = (floor.at === 'item' || floor.at === 'line') && !isSetFirst(pack, state) && isLeft(pack, state)
  const target = goesOn && !waitsForFinal ? floor : nextFloor(pack, state)
  const step = enter(pack, state, target, { words })
  const revisedItem = floor.at === 'item' ? floor.item : undefined
  return { ...step, state: { ...step.state, revisedListenId: step.state.floorListenId, revisedItem } }
}

/** With these figures an item may be none of its list any more. */
function isLeft(pack: Pack, state: RunState): boolean {
  const { floor } = state
  return floor.at !== 'item' || holds(findItem(pack, floor.item).item.when, state)
}

/** A step, an order or a clearance that sets what the open item says, and is open again, comes before it. */
function isSetFirst(pack: Pack, state: RunState): boolean {
  const { floor } = state
  if (floor.at !== 'item') return false
  const sets = flowsOf(pack).flatMap(({ steps }) => steps.filter(({ id }) => state.stepsAgain.includes(id)))
  const rests = new Set(restsOf(findItem(pack, floor.item).item, state))
  const orders = exchangesOf(pack).flatMap(({ turns }) => turns.filter(({ id }) => state.turns[id]?.again))
  return (
    sets.some((step) => step.sets.some((name) => rests.has(name))) ||
    orders.some(({ calls }) => calls?.figures.some((name) => rests.has(name))) ||
    isGivenFirst(pack, state, floor.item)
  )
}
