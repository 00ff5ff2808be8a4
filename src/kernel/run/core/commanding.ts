/** What the standard phrases do, spoken or pressed. */

import { dependencyClosure } from '../../figures/dependencyClosure.ts'
import { sayValue } from '../../kinds/table.ts'
import type { Pack } from '../../pack/checklist.ts'
import { figuresFor, findItem, itemsOf, listById, listsOf, saidFigures } from '../../pack/place.ts'
import { quirkIn } from '../../pack/quirks.ts'
import { restsOf } from '../../pack/rests.ts'
import { closeItem } from '../list/answering.ts'
import { answerTo } from '../talk/exchanging.ts'
import { stationWords } from '../talk/radio.ts'
import { exchangeAt, findTurn, pendingTurn, reopenTurn, withTurn } from '../talk/talk.ts'
import { noCall, restarted, seenBefore } from '../watch/watching.ts'
import { runningWatch, watchState } from '../watch/watchTiming.ts'
import { aside } from './aside.ts'
import type { RunEvent } from './events.ts'
import { corrected, goneBack } from './goingBack.ts'
import { advance, callList, nextFloor, nextInList, openChallenges } from './moving.ts'
import { PASS_REASONS, say } from './phrases.ts'
import type { RunState } from './state.ts'
import { enter, flowAt, itemState, openSteps, promptWords, type Step, turn, withItem, withList } from './turn.ts'

type Commanded = Extract<RunEvent, { type: 'commanded' }>

/** An engine that is being started is not left for something else. */
const NOT_IN_A_WATCH: ReadonlySet<string> = new Set(['goBack', 'correction', 'crossCheck'])

export function commanded(pack: Pack, state: RunState, event: Commanded): Step {
  const { command, argument = '' } = event
  const watch = runningWatch(pack, state)
  if (watch && NOT_IN_A_WATCH.has(command)) return turn(pack, state, [say.firstComplete(watch.name)])
  switch (command) {
    case 'sayAgain':
      return sayAgain(pack, state, argument)
    case 'standBy':
      return standBy(pack, state)
    case 'continue':
      return turn(pack, { ...afresh(state), standingBy: false }, [], { prompt: true })
    case 'disregard':
      return disregarded(pack, state)
    case 'correction':
      return corrected(pack, state, argument)
    case 'goBack':
      return goneBack(pack, state)
    case 'fromTop':
      return fromTop(pack, state)
    case 'whatIsLeft':
      return whatIsLeft(pack, state)
    case 'leaveOpen':
      return leaveOpen(pack, state)
    case 'pass':
      return pass(pack, state, argument)
    case 'confirm':
      return confirm(pack, state, argument)
    case 'remark':
      return remarked(pack, state, argument || event.evidence.text)
    case 'radioCheck':
      return aside(pack, state, [say.readingYou()])
    case 'affirm':
      return affirmed(pack, state, event)
    case 'negative':
      return refused(pack, state)
    default:
      return { state, effects: [] }
  }
}

/** What was said of the open item before a break has to be said again. */
function afresh(state: RunState): RunState {
  const { floor, standingBy } = state
  return standingBy && floor.at === 'item' ? withItem(state, floor.item, { held: [], begun: {} }) : state
}

function remarked(pack: Pack, state: RunState, text: string): Step {
  const quirk = quirkIn(pack, text)
  return turn(pack, state, [say.remark(), quirk ? say.quirk(quirk.say) : ''])
}

/** Whoever waits says so: the station whose read-back is owed, else Otherseat. */
function standBy(pack: Pack, state: RunState): Step {
  const waiting = { ...state, standingBy: true }
  const exchange = state.question ? undefined : exchangeAt(pack, state.floor)
  const role = exchange && pendingTurn(exchange, state) ? exchange.station.role : 'otherseat'
  const text = say.standingBy()
  return role === 'controller' || role === 'groundCrew'
    ? turn(pack, waiting, [], { stations: [{ role, text }] })
    : turn(pack, waiting, [text])
}

/** In an exchange the station says it again, or the one element that was asked for. */
function sayAgain(pack: Pack, state: RunState, element: string): Step {
  const exchange = state.question ? undefined : exchangeAt(pack, state.floor)
  const pending = exchange && pendingTurn(exchange, state)
  if (!exchange || !pending) return turn(pack, state, [state.said || promptWords(pack, state)])
  const stations = stationWords(pack, state, exchange, pending).again(element || undefined)
  return turn(pack, { ...state, standingBy: false }, [], { stations })
}

function disregarded(pack: Pack, state: RunState): Step {
  const { floor } = state
  const exchange = exchangeAt(pack, floor)
  const pending = exchange && pendingTurn(exchange, state)
  const cleared =
    floor.at === 'item'
      ? withItem(state, floor.item, { held: [], begun: {} })
      : pending
        ? withTurn(state, pending.id, { held: [], begun: {} })
        : state
  return turn(pack, { ...cleared, question: undefined }, [], { prompt: true })
}

function fromTop(pack: Pack, state: RunState): Step {
  const { floor } = state
  const activity = floor.at === 'watch' ? pack.phases[floor.phase]?.activities[floor.activity] : undefined
  if (activity) return restarted(pack, state, activity.id)
  const exchange = exchangeAt(pack, floor)
  if (exchange) {
    const begun = exchange.turns.filter(({ id }) => state.turns[id])
    const again = begun.reduce((next, one) => reopenTurn(next, one, { status: 'ahead' }), state)
    return enter(pack, again, floor, [])
  }
  if (floor.at !== 'item' && floor.at !== 'line') return turn(pack, state, [], { prompt: true })
  const list = listById(pack, floor.list)
  let next = state
  for (const item of itemsOf(list, state.situation))
    next = withItem(next, item.id, { status: 'open', held: [], begun: {} })
  return advance(pack, next, list.id, [say.list(list.name)])
}

function whatIsLeft(pack: Pack, state: RunState): Step {
  const names = namesLeft(pack, state)
  return turn(pack, state, [say.left(sayValue({ kind: 'integer', value: names.length }, 'plain'), names)], {
    prompt: true,
  })
}

function namesLeft(pack: Pack, state: RunState): string[] {
  const { floor } = state
  if (floor.at === 'item' || floor.at === 'line') return openChallenges(pack, state, floor.list)
  const flow = flowAt(pack, floor)
  // From memory: how many steps there are, not which.
  if (flow && state.settings.flows !== 'memory') return openSteps(flow, state).map(({ text }) => text)
  const watch = runningWatch(pack, state)
  if (watch) {
    const { calls } = watchState(state, watch.id)
    return watch.calls.filter(({ id }) => calls[id] === undefined).map(({ label }) => label)
  }
  return listsOf(pack)
    .filter((list) => !state.lists[list.id]?.complete)
    .map((list) => list.name)
}

/** Left open once more when nothing else is open: the list is gone on from, and is not complete. */
function leaveOpen(pack: Pack, state: RunState): Step {
  const { floor } = state
  if (floor.at !== 'item') return turn(pack, state, [], { prompt: true })
  const again = itemState(state, floor.item).status === 'leftOpen'
  const left = withItem(state, floor.item, { status: 'leftOpen' })
  const next = nextInList(pack, left, floor.list)
  const nothingElse = next?.at === 'item' && itemState(left, next.item).status === 'leftOpen'
  if (!again || !nothingElse) return advance(pack, left, floor.list)
  const suspended = withList(left, floor.list, { suspended: true })
  const list = listById(pack, floor.list)
  return enter(pack, suspended, nextFloor(pack, suspended), [
    say.notComplete(list.name, openChallenges(pack, left, list.id)),
  ])
}

function pass(pack: Pack, state: RunState, reason: string): Step {
  const { floor } = state
  if (floor.at !== 'item') return turn(pack, state, [], { prompt: true })
  if (!(PASS_REASONS as readonly string[]).includes(reason)) return turn(pack, state, [say.reasons()])
  return turn(pack, { ...state, question: { about: 'pass', item: floor.item, reason } }, [], { prompt: true })
}

/** A value on request: what rests on it, or could be worked out by it, is marked as given for good. */
function confirm(pack: Pack, state: RunState, figure: string): Step {
  const { floor } = state
  const open = floor.at === 'item' ? saidFigures(findItem(pack, floor.item).item, state.situation) : []
  const names = figure ? [figure] : open
  const figures = figuresFor(pack, state.values, names)
  let next: RunState = { ...state, told: [...new Set([...state.told, ...names])] }
  const items = listsOf(pack).flatMap((list) => itemsOf(list, state.situation))
  const restingOn = (given: ReadonlySet<string>) =>
    items.filter((item) => restsOf(item, state.situation).some((name) => given.has(name)))
  for (const name of names) {
    const own = restingOn(new Set([name]))
    // A working that no item says ("altimeter in inches") tells of those that items do say.
    const given = own.length > 0 ? own : restingOn(dependencyClosure(pack.figures, name))
    for (const item of given) next = withItem(next, item.id, { given: true })
  }
  const words = names.map((name) => {
    const label = pack.figures.declarations[name]?.label ?? name
    const value = figures[name]
    if (value) return say.value(label, sayValue(value, state.settings.phraseology))
    const isStations = state.script !== undefined && pack.figures.declarations[name]?.given !== undefined
    return isStations ? say.notGiven(label) : say.noFigure(label)
  })
  return turn(pack, next, words, { prompt: true })
}

/** A warning that is not acknowledged leaves its list to be called again; any other question is just dropped. */
function refused(pack: Pack, state: RunState): Step {
  const free = { ...state, question: undefined }
  if (state.question?.about === 'callOrder') return noCall(pack, free, state.question.watch, state.question.missing)
  return state.question?.about === 'warnings'
    ? enter(pack, free, nextFloor(pack, free), [])
    : turn(pack, free, [], { prompt: true })
}

function affirmed(pack: Pack, state: RunState, event: Commanded): Step {
  const { question } = state
  switch (question?.about) {
    case undefined:
    case 'reading':
      return { state, effects: [] }
    case 'order': {
      const { exchange, turn: order } = findTurn(pack, question.turn)
      return answerTo(pack, { ...state, question: undefined }, exchange, order, question.heard)
    }
    case 'callOrder':
      return seenBefore(pack, state, question)
    case 'pass': {
      const { item, list } = findItem(pack, question.item)
      const { reason } = question
      if (item.critical && !question.affirmed) {
        return turn(pack, { ...state, question: { ...question, affirmed: true } }, [], { prompt: true })
      }
      const passed = closeItem(state, item, {
        status: 'passed',
        by: event.evidence.by,
        reason,
        revision: state.revision,
      })
      return advance(pack, passed, list.id, [say.passed(item.challenge)])
    }
    case 'warnings':
      return advance(pack, { ...state, question: undefined, warnings: [] }, question.list)
    case 'outOfOrder':
    case 'finalFiguresIn':
      return callList(pack, state, question.list)
  }
}
