/** What Otherseat says to put the open place: its question, item, line, flow, list or call. Never a value (law 4). */

import { sourceWords } from '../../figures/sources.ts'
import type { Flow, Item, Pack } from '../../pack/checklist.ts'
import { activityName, findItem, findLine, itemsOf, listById, listsOf } from '../../pack/place.ts'
import { flowAt, openSteps } from '../list/flowSteps.ts'
import { pilotChallenges } from '../partner/partner.ts'
import { canAnswer } from '../partner/seat.ts'
import { callableTurns, exchangeAt, exchangesOf, talkAt } from '../talk/talk.ts'
import { askFor, valueWords } from '../watch/callValue.ts'
import { nextCall, watchAt, watchById, watchState } from '../watch/watchTiming.ts'
import { listName, say } from './phrases.ts'
import { isClosed, isFromMemory, isGivenByStation, isToldOfDifference, missingNames, unsettledIn } from './progress.ts'
import type { RunState } from './state.ts'
import { uncomputed } from './whyMissing.ts'

function flowWords(flow: Flow, state: RunState): string {
  const open = openSteps(flow, state)
  const isAgain = open.some(({ id }) => state.stepsAgain.includes(id))
  const isFromMemory = state.settings.flows === 'memory'
  if (state.readingFlow && open[0]) return say.step(open[0].text)
  if (isAgain) return say.stepsAgain(flow.name, isFromMemory ? [] : open.map(({ text, short }) => short ?? text))
  const words = say.flow(flow.name)
  return state.settings.flows === 'spoken' && open[0] ? `${words} ${say.step(open[0].text)}` : words
}

function watchWords(pack: Pack, state: RunState): string {
  const watch = watchAt(pack, state.floor, state)
  if (!watch) return ''
  const own = watchState(state, watch.id)
  if (own.status === 'stopped') return say.wayBack()
  const awaited = watch.calls.find(({ id }) => id === own.pending?.call)
  if (awaited) return askFor(awaited)
  const next = own.status === 'running' ? nextCall(watch, own) : undefined
  return next ? say.challenge(next.call.label) : say.readyFor(watch.name)
}

/** Why no answer can be right yet; undefined where one can, or where the pilot is to find that out. */
function blockedWords(pack: Pack, state: RunState, item: Item): string | undefined {
  const unsettled = unsettledIn(pack, state, item)
  if (unsettled) return isToldOfDifference(state, item.id) ? say.differs(unsettled.label) : undefined
  const [missing] = missingNames(pack, state, item)
  if (missing === undefined) return undefined
  const label = pack.figures.declarations[missing]?.label ?? missing
  if (uncomputed(pack, state, missing)) return say.notComputed(label)
  return isGivenByStation(pack, state, missing) ? say.notGiven(label) : say.noFigure(label)
}

/** Put as the first of its list; after that the pilot goes on. */
function memoryWords(pack: Pack, state: RunState): string {
  const items = state.floor.at === 'item' ? itemsOf(listById(pack, state.floor.list), state) : []
  return items.some(({ id, memory }) => memory && isClosed(state, id)) ? '' : say.fromMemory()
}

function floorWords(pack: Pack, state: RunState): string {
  const { floor } = state
  switch (floor.at) {
    case 'flow': {
      const flow = flowAt(pack, floor)
      return flow ? flowWords(flow, state) : ''
    }
    case 'call':
      return say.callFor(pack.phases[floor.phase]?.activities[floor.activity]?.name ?? '')
    case 'item': {
      const { item } = findItem(pack, floor.item)
      // Where the pilot challenges, the next word is the pilot's.
      if (pilotChallenges(state) && canAnswer(pack, state, item)) return ''
      return (
        blockedWords(pack, state, item) ??
        (isFromMemory(item, state) ? memoryWords(pack, state) : say.challenge(item.challenge))
      )
    }
    case 'line': {
      const list = listById(pack, floor.list)
      return `${say.toTheLine(list.name)} ${say.waitingFor(findLine(list, floor.line).label)}`
    }
    case 'watch':
      return watchWords(pack, state)
    case 'exchange': {
      const exchange = exchangeAt(pack, floor)
      const open = exchange ? callableTurns(exchange, state) : []
      return say.watch(open.length === 1 ? (open[0]?.label ?? '') : (exchange?.name ?? ''))
    }
    case 'briefing':
      return say.watch(talkAt(pack, floor)?.name ?? '')
    case 'end':
      // A drill ends with an account of its own, and has no lists but the one that was made for it.
      return state.drill ? '' : say.allComplete()
  }
}

const labelOf = (pack: Pack, watch: string, id: string) =>
  watchById(pack, watch).calls.find((call) => call.id === id)?.label ?? id

/** Whether a list or a briefing, or an exchange that was begun, is done first. */
function firstWords(pack: Pack, id: string): string {
  const name = activityName(pack, id)
  if (exchangesOf(pack).some((exchange) => exchange.id === id)) return say.notFinished(name)
  return say.outOfOrder(listsOf(pack).some((list) => list.id === id) ? listName(name) : name)
}

function questionWords(pack: Pack, state: RunState): string | undefined {
  const { question } = state
  switch (question?.about) {
    case undefined:
      return undefined
    case 'outOfOrder':
      return firstWords(pack, question.next)
    case 'finalFiguresIn':
      return say.finalFiguresIn()
    case 'reading': {
      const label = pack.figures.declarations[question.figure]?.label ?? question.figure
      return say.readMe(label, sourceWords(question.source))
    }
    case 'ownValue':
      return say.yours(pack.figures.declarations[question.figure]?.label ?? question.figure)
    case 'brakes':
      return say.brakesSet()
    case 'warnings':
      return say.warnings(state.warned)
    case 'order':
      return say.orderDiffers(question.heard)
    case 'callOrder': {
      const { watch, call, missing } = question
      return say.callOrder(labelOf(pack, watch, call.id), labelOf(pack, watch, missing))
    }
    case 'callEarly':
      return say.already(labelOf(pack, question.watch, question.call.id))
    case 'callValue': {
      const { value } = watchById(pack, question.watch, state).calls.find(({ id }) => id === question.call.id) ?? {}
      return value && question.call.value !== undefined ? say.outOfRange(valueWords(value, question.call.value)) : ''
    }
    case 'passReason':
      return say.reasons()
    case 'pass':
      if (question.affirmed) return say.onceMore()
      return say.pass(findItem(pack, question.item).item.challenge, question.reason)
  }
}

/** What Otherseat says to put the open question, item, line, flow or list. */
export function promptWords(pack: Pack, state: RunState): string {
  return questionWords(pack, state) ?? floorWords(pack, state)
}
