/** What Otherseat says to put the open place: its question, item, line, flow, list or call. Never a value (law 4). */

import { sourceWords } from '../../figures/sources.ts'
import type { Flow, Pack } from '../../pack/checklist.ts'
import { findItem, findLine, listById } from '../../pack/place.ts'
import { flowAt, openSteps } from '../list/flowSteps.ts'
import { callableTurns, exchangeAt, talkAt } from '../talk/talk.ts'
import { nextCall, watchAt, watchById, watchState } from '../watch/watchTiming.ts'
import { say } from './phrases.ts'
import { missingFigures, unsettledIn } from './progress.ts'
import type { RunState } from './state.ts'

function flowWords(flow: Flow, phase: string, state: RunState): string {
  const open = openSteps(flow, state)
  const isAgain = open.some(({ id }) => state.stepsAgain.includes(id))
  const isFromMemory = state.settings.flows === 'memory'
  if (state.readingFlow && open[0]) return say.step(open[0].text)
  if (isAgain) return say.stepsAgain(flow.name, isFromMemory ? [] : open.map(({ text }) => text))
  const words = say.phase(phase, flow.name)
  return state.settings.flows === 'spoken' && open[0] ? `${words} ${say.step(open[0].text)}` : words
}

function watchWords(pack: Pack, state: RunState): string {
  const watch = watchAt(pack, state.floor)
  if (!watch) return ''
  const own = watchState(state, watch.id)
  if (own.status === 'stopped') return say.wayBack(undefined)
  const next = own.status === 'running' ? nextCall(watch, own) : undefined
  if (next) return say.challenge(next.call.label)
  return watch.hold === undefined ? say.watch(watch.name) : say.held(watch.name, watch.hold)
}

function floorWords(pack: Pack, state: RunState): string {
  const { floor } = state
  switch (floor.at) {
    case 'flow': {
      const flow = flowAt(pack, floor)
      return flow ? flowWords(flow, pack.phases[floor.phase]?.name ?? '', state) : ''
    }
    case 'call':
      return say.callFor(pack.phases[floor.phase]?.activities[floor.activity]?.name ?? '')
    case 'item': {
      const { item } = findItem(pack, floor.item)
      const missing = missingFigures(pack, state, item)
      if (!missing[0]) return say.challenge(item.challenge)
      const unsettled = unsettledIn(pack, state, item)
      return unsettled ? say.differs(unsettled.label) : say.noFigure(missing[0])
    }
    case 'line': {
      const list = listById(pack, floor.list)
      return say.toTheLine(list.name, findLine(list, floor.line).label)
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
      return say.allComplete()
  }
}

function questionWords(pack: Pack, state: RunState): string | undefined {
  const { question } = state
  switch (question?.about) {
    case undefined:
      return undefined
    case 'outOfOrder':
      return say.outOfOrder(question.next)
    case 'finalFiguresIn':
      return say.finalFiguresIn()
    case 'reading': {
      const label = pack.figures.declarations[question.figure]?.label ?? question.figure
      return say.readMe(label, sourceWords(question.source))
    }
    case 'brakes':
      return say.brakesSet()
    case 'warnings':
      return say.warnings(state.warned)
    case 'order':
      return say.orderDiffers(question.heard)
    case 'callOrder': {
      const { calls } = watchById(pack, question.watch)
      const label = (id: string) => calls.find((call) => call.id === id)?.label ?? id
      return say.callOrder(label(question.call.id), label(question.missing))
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
