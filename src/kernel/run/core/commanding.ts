/** What each command does in a run, spoken or pressed. */

import { dependencyClosure } from '../../figures/dependencyClosure.ts'
import { sayValue } from '../../kinds/table.ts'
import type { Pack } from '../../pack/checklist.ts'
import { figuresFor, findItem, itemsOf, listById, listsOf, saidFigures } from '../../pack/place.ts'
import { quirkIn } from '../../pack/quirks.ts'
import { restsOf } from '../../pack/rests.ts'
import { PASS_REASONS } from '../../response/commands.ts'
import { closeItem } from '../list/answering.ts'
import { flowAt, openSteps } from '../list/flowSteps.ts'
import { openTopics } from '../talk/briefing.ts'
import { type Again, stationWords } from '../talk/radio.ts'
import { exchangeAt, pendingTurn, reopenTurn, talkAt, withTurn } from '../talk/talk.ts'
import { readingAgain } from '../watch/calling.ts'
import { restarted, startUnderWay } from '../watch/watching.ts'
import { runningWatch, stoppedWatch, watchState } from '../watch/watchTiming.ts'
import { announce } from './announce.ts'
import type { RunCommand, RunEvent } from './events.ts'
import { corrected, goneBack, rechecked, recheckUnknown } from './goingBack.ts'
import { enter, sayAndListen } from './listening.ts'
import { advance, nextFloor, nextInList } from './moving.ts'
import { unasked } from './ownValue.ts'
import { say } from './phrases.ts'
import { isGivenByStation, itemState, openChallenges, withItem, withList } from './progress.ts'
import { promptWords } from './prompts.ts'
import { affirmed, refused } from './questions.ts'
import type { RunState, Step } from './state.ts'
import { stop } from './stopping.ts'
import { whatToSay } from './whatToSay.ts'
import { uncomputed } from './whyMissing.ts'

type Commanded = RunEvent<'commanded'>

interface Handler {
  readonly act: (pack: Pack, state: RunState, event: Commanded) => Step
  /** Whether it waits while an engine is being started: that is not left for something else. */
  readonly waitsForStart: boolean
}

const atOnce = (act: Handler['act']): Handler => ({ act, waitsForStart: false })
const notInStart = (act: Handler['act']): Handler => ({ act, waitsForStart: true })

const HANDLERS: Readonly<Record<RunCommand, Handler>> = {
  stop: atOnce(stop),
  sayAgain: atOnce((pack, state, { argument }) => sayAgain(pack, state, argument)),
  standBy: atOnce(standBy),
  continue: atOnce((pack, state) => sayAndListen(pack, { ...afresh(state), standingBy: false }, [], { prompt: true })),
  disregard: atOnce(disregarded),
  correction: notInStart((pack, state, { argument = '' }) => corrected(pack, resumed(state), argument)),
  whatIsLeft: atOnce(whatIsLeft),
  whereAreWe: atOnce(whereAreWe),
  whatCanISay: atOnce((pack, state) => announce(pack, state, [say.youCanSay(whatToSay(pack, state))])),
  skip: atOnce(skipped),
  goBack: notInStart((pack, state) => goneBack(pack, resumed(state))),
  // "Fuel off, or recheck": in a start the gauge is read again.
  recheck: atOnce((pack, state, { argument, evidence }) => {
    const inStart = (argument === undefined && readingAgain(pack, state)) || startUnderWay(pack, state)
    if (inStart) return inStart
    return argument === undefined ? recheckUnknown(pack, state, evidence.by) : rechecked(pack, state, argument)
  }),
  fromTop: atOnce((pack, state) => fromTop(pack, resumed(state))),
  leaveOpen: atOnce((pack, state) => leaveOpen(pack, resumed(state))),
  pass: atOnce((pack, state, event) => pass(pack, resumed(state), event)),
  confirm: atOnce((pack, state, { argument }) => confirm(pack, state, argument)),
  remark: atOnce((pack, state, { argument, evidence }) => remarked(pack, state, argument || evidence.text)),
  radioCheck: atOnce((pack, state) => announce(pack, state, [say.readingYou()])),
  affirm: atOnce((pack, state, { evidence }) => affirmed(pack, answering(state), evidence.by)),
  negative: atOnce((pack, state) => refused(pack, answering(state))),
}

/** Throws where the pack does not have the open place. */
export function commanded(pack: Pack, state: RunState, event: Commanded): Step {
  const { act, waitsForStart } = HANDLERS[event.command]
  return (waitsForStart && startUnderWay(pack, state)) || act(pack, state, event)
}

/** Who says where to go on waits no longer. */
const resumed = (state: RunState): RunState => ({ ...state, standingBy: false })
/** An answer to what was asked takes the run up again; without a question it is none. */
const answering = (state: RunState): RunState => (state.question ? resumed(state) : state)

/** What was said of the open item before a break has to be said again. */
function afresh(state: RunState): RunState {
  const { floor, standingBy } = state
  return standingBy && floor.at === 'item' ? withItem(state, floor.item, { partsSoFar: [], begun: {} }) : state
}

function remarked(pack: Pack, state: RunState, text: string): Step {
  const quirk = quirkIn(pack, text)
  return sayAndListen(pack, state, [say.remark(), quirk ? say.quirk(quirk.say) : ''])
}

/** Whoever waits says so: the station whose read-back is owed, else Otherseat. */
function standBy(pack: Pack, state: RunState): Step {
  const waiting = { ...state, standingBy: true }
  const exchange = state.question ? undefined : exchangeAt(pack, state.floor)
  const role = exchange && pendingTurn(exchange, state) ? exchange.station.role : 'otherseat'
  const text = say.standingBy()
  return role === 'controller' || role === 'groundCrew'
    ? sayAndListen(pack, waiting, [], { stations: [{ role, text }] })
    : sayAndListen(pack, waiting, [text])
}

/** In an exchange the station says it again, or the part that was asked for. */
function sayAgain(pack: Pack, state: RunState, element: string | undefined): Step {
  const exchange = state.question ? undefined : exchangeAt(pack, state.floor)
  const pending = exchange && pendingTurn(exchange, state)
  if (!exchange || !pending) return sayAndListen(pack, state, [state.said || promptWords(pack, state)])
  const stations = stationWords(pack, state, exchange, pending).again(
    element === undefined ? undefined : partOf(element),
  )
  return sayAndListen(pack, { ...state, standingBy: false }, [], { stations })
}

/** "squawk", "after squawk" */
function partOf(argument: string): Again {
  const [bound = '', element] = argument.split(' ')
  const which = bound === 'after' || bound === 'before' ? bound : 'only'
  return { which, element: element ?? bound }
}

/** The list that is open, and what it waits for; elsewhere the place names itself as it is put. */
function whereAreWe(pack: Pack, state: RunState): Step {
  const { floor } = state
  const place = 'list' in floor ? say.list(listById(pack, floor.list).name) : ''
  // Nothing is asked while it stands by: no answer would be taken.
  if (state.standingBy)
    return announce(
      pack,
      state,
      [place, say.standingBy()].filter((text) => text),
    )
  // While a start goes on, nothing is put again by itself.
  if (floor.at === 'watch') return announce(pack, state, [promptWords(pack, state)])
  return announce(pack, state, [place], { prompt: true })
}

/** Nothing is skipped: it is left open and blocks, or passed with a reason. */
function skipped(pack: Pack, state: RunState): Step {
  if (state.standingBy) return sayAndListen(pack, state, [say.standingBy()])
  const isItem = state.floor.at === 'item' && !state.question
  return isItem ? sayAndListen(pack, state, [say.openOrPass()]) : sayAndListen(pack, state, [], { prompt: true })
}

function disregarded(pack: Pack, state: RunState): Step {
  if (state.question?.about === 'ownValue') return unasked(pack, state)
  const { floor } = state
  const exchange = exchangeAt(pack, floor)
  const pending = exchange && pendingTurn(exchange, state)
  const cleared =
    floor.at === 'item'
      ? withItem(state, floor.item, { partsSoFar: [], begun: {} })
      : pending
        ? withTurn(state, pending.id, { partsSoFar: [], begun: {} })
        : state
  return sayAndListen(pack, { ...cleared, question: undefined }, [], { prompt: true })
}

function fromTop(pack: Pack, state: RunState): Step {
  const { floor } = state
  const activity = floor.at === 'watch' ? pack.phases[floor.phase]?.activities[floor.activity] : undefined
  if (activity) return restarted(pack, state, activity.id)
  // After a start was stopped that is what is begun again, whatever has the floor by then.
  const stopped = floor.at === 'exchange' ? stoppedWatch(pack, state) : undefined
  if (stopped) return restarted(pack, state, stopped.id)
  const exchange = exchangeAt(pack, floor)
  if (exchange) {
    const begun = exchange.turns.filter(({ id }) => state.turns[id])
    const again = begun.reduce((next, one) => reopenTurn(next, one, { status: 'ahead' }), state)
    return enter(pack, again, floor)
  }
  if (floor.at !== 'item' && floor.at !== 'line') return sayAndListen(pack, state, [], { prompt: true })
  const list = listById(pack, floor.list)
  let next = state
  for (const item of itemsOf(list, state)) next = withItem(next, item.id, { status: 'open', partsSoFar: [], begun: {} })
  return advance(pack, next, list.id, { words: [say.list(list.name)] })
}

function whatIsLeft(pack: Pack, state: RunState): Step {
  const names = namesLeft(pack, state)
  return sayAndListen(pack, state, [say.left(sayValue({ kind: 'integer', value: names.length }, 'plain'), names)], {
    prompt: true,
  })
}

function namesLeft(pack: Pack, state: RunState): string[] {
  const { floor } = state
  if (floor.at === 'item' || floor.at === 'line') return openChallenges(pack, state, floor.list)
  const flow = flowAt(pack, floor)
  // From memory: how many steps there are, not which.
  if (flow && state.settings.flows !== 'memory') return openSteps(flow, state).map(({ text }) => text)
  const talk = talkAt(pack, floor)
  if (talk?.type === 'briefing') return openTopics(talk, state).map(({ label }) => label)
  const watch = runningWatch(pack, state)
  if (watch) {
    const { calls } = watchState(state, watch.id)
    return watch.calls.filter(({ id }) => calls[id] === undefined).map(({ label }) => label)
  }
  return listsOf(pack)
    .filter(({ id, anytime }) => !state.lists[id]?.complete && (!anytime || state.lists[id]?.called))
    .map((list) => list.name)
}

/** Left open once more when nothing else is open: the list is gone on from, and is not complete. */
function leaveOpen(pack: Pack, state: RunState): Step {
  const { floor } = state
  if (state.question?.about === 'ownValue') return unasked(pack, state)
  if (floor.at !== 'item') return sayAndListen(pack, state, [], { prompt: true })
  const again = itemState(state, floor.item).status === 'leftOpen'
  const left = withItem(state, floor.item, { status: 'leftOpen' })
  const next = nextInList(pack, left, floor.list)
  const nothingElse = next?.at === 'item' && itemState(left, next.item).status === 'leftOpen'
  if (!again || !nothingElse) return advance(pack, left, floor.list)
  const suspended = withList(left, floor.list, { suspended: true })
  const list = listById(pack, floor.list)
  return enter(pack, suspended, nextFloor(pack, suspended), {
    words: [say.notComplete(list.name, openChallenges(pack, left, list.id))],
  })
}

/** Passing wants a reason, and affirm; an optional item that does not apply wants neither. */
function pass(pack: Pack, state: RunState, { argument: reason, evidence: { by } }: Commanded): Step {
  const { floor } = state
  if (floor.at !== 'item') return sayAndListen(pack, state, [], { prompt: true })
  const { item } = findItem(pack, floor.item)
  if (item.optional && reason === 'notApplicable') {
    const closed = closeItem(state, item, { status: 'passed', reason, by, revision: state.revision })
    return advance(pack, closed, floor.list, { tone: 'tick' })
  }
  const known = PASS_REASONS.find((one) => one === reason)
  const question = known ? ({ about: 'pass', reason: known } as const) : ({ about: 'passReason' } as const)
  return sayAndListen(pack, { ...state, question: { ...question, item: floor.item } }, [], { prompt: true })
}

/** What the pilot noted is told again; what a gauge shows is not known before it was read. */
function readingWords(pack: Pack, state: RunState, name: string, label: string): string {
  const { spec } = pack.figures.declarations[name] ?? {}
  const value = state.readings[name]
  return spec && value !== undefined
    ? say.value(label, sayValue({ ...spec, value }, state.settings.phraseology))
    : say.readOff(label)
}

/** A value on request: what rests on it, or could be worked out by it, is marked as given for good. */
function confirm(pack: Pack, state: RunState, figure: string | undefined): Step {
  const { floor } = state
  const open = floor.at === 'item' ? saidFigures(findItem(pack, floor.item).item, state) : []
  const names = figure ? [figure] : open
  const told = names.filter((name) => !pack.figures.declarations[name]?.read)
  const figures = figuresFor(pack, state.values, names)
  let next: RunState = { ...state, revealedFigures: [...new Set([...state.revealedFigures, ...told])] }
  const items = listsOf(pack).flatMap((list) => itemsOf(list, state))
  const restingOn = (given: ReadonlySet<string>) =>
    items.filter((item) => restsOf(item, state).some((name) => given.has(name)))
  for (const name of told) {
    const own = restingOn(new Set([name]))
    // A working that no item says ("altimeter in inches") gives away those that items do say.
    const given = own.length > 0 ? own : restingOn(dependencyClosure(pack.figures, name))
    for (const item of given) next = withItem(next, item.id, { revealed: true })
  }
  const words = names.map((name) => {
    const label = pack.figures.declarations[name]?.label ?? name
    const value = figures[name]
    if (value) return say.value(label, sayValue(value, state.settings.phraseology))
    if (pack.figures.declarations[name]?.read) return readingWords(pack, state, name, label)
    if (uncomputed(pack, state, name)) return say.notComputed(label)
    return isGivenByStation(pack, state, name) ? say.notGiven(label) : say.noFigure(label)
  })
  return sayAndListen(pack, next, words, { prompt: true })
}
