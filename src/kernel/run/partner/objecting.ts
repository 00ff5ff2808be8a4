/**
 * What follows from an objection. A partner who erred puts it right and the run goes on; to one who did not, it is said
 * plainly that it was right: a value is named only because it has been said (law 4).
 */

import type { Pack } from '../../pack/checklist.ts'
import { findItem, listById } from '../../pack/place.ts'
import type { RunEvent } from '../core/events.ts'
import { enter, sayAndListen } from '../core/listening.ts'
import { nextInList } from '../core/moving.ts'
import { listed, say } from '../core/phrases.ts'
import { isClosed, itemState, listState, withList } from '../core/progress.ts'
import type { RunState, Step } from '../core/state.ts'
import { slipCaught } from '../talk/exchanging.ts'
import { stationWords } from '../talk/radio.ts'
import { correctedWords, elementWords, requiredOf } from '../talk/readBackWords.ts'
import { exchangeAt, findTurn, pendingTurn, turnState } from '../talk/talk.ts'
import type { Chance, ObjectionTo } from './model.ts'
import { isCalledComplete, partnerOf, withPartnerState } from './partner.ts'
import { canAnswer, figuresSaid, seatText, seatWords, valuesSaid } from './seat.ts'

/** The turn in which a station has just said another value, and waits for what the pilot makes of it. */
export function slippedTurn(pack: Pack, state: RunState): string | undefined {
  const exchange = exchangeAt(pack, state.floor)
  const pending = exchange && pendingTurn(exchange, state)
  return pending && turnState(state, pending.id).status === 'slipped' ? pending.id : undefined
}

export function objected(pack: Pack, { last: _, ...rest }: RunState, event: RunEvent<'objected'>): Step {
  const before: RunState = { ...rest, last: undefined }
  const { to, chance: at = -1, item, elements, t, evidence } = event
  const { chances } = partnerOf(before)
  const chance = chances[at]
  if (!chance) {
    const words = item === undefined ? nothingOf(pack, before, to) : answerStands(pack, before, item)
    return sayAndListen(pack, { ...before, standingBy: false }, [words], { prompt: true })
  }
  // Of a list that is open again it is true, and no objection to what was said before.
  const isFirst = chance.objection === undefined && (chance.fault !== undefined || !isTakenBack(before, chance))
  // Of a read-back with a fault another element was meant, which is right.
  const isOther = chance.fault?.element !== undefined && elements?.includes(chance.fault.element) === false
  const noted = { ...chance, objection: { t, text: evidence.text } }
  const state = withPartnerState(
    { ...before, standingBy: false },
    isFirst && !isOther ? { chances: chances.with(at, noted) } : {},
  )
  return chance.fault && isFirst && !isOther ? putRight(pack, state, chance) : stands(pack, state, chance, elements)
}

/** What to say where there was nothing to object to. */
function nothingOf(pack: Pack, { floor }: RunState, to: ObjectionTo): string {
  if (to === 'skipped') return say.nothingSkipped()
  if (to === 'notForUs') return say.nobodyCalled()
  return to === 'notComplete' && 'list' in floor ? say.revoked(listById(pack, floor.list).name) : ''
}

/** Said to be complete, and open again since. */
const isTakenBack = (state: RunState, { kind, about }: Pick<Chance, 'kind' | 'about'>) =>
  kind === 'completion' && !listState(state, about).complete && !isCalledComplete(state, about)

function putRight(pack: Pack, state: RunState, { fault }: Chance): Step {
  const { kind, about, items = [], element } = fault ?? {}
  if (kind === 'skipped' || kind === 'completeEarly') return comeBack(pack, state, items)
  if (kind === 'otherCallSign') return sayAndListen(pack, state, [say.notForUs()], { prompt: true })
  if (kind === 'misread' || kind === 'leftOut') return radioPutRight(pack, state, about ?? '', element)
  if (kind === 'readBack') {
    const { exchange, turn } = findTurn(pack, about ?? '')
    if (turnState(state, turn.id).status === 'slipped') return slipCaught(pack, state, exchange, turn)
    return stands(pack, state, { kind: 'station', about: turn.id, t: 0, seq: 0 })
  }
  const { item } = findItem(pack, about ?? '')
  const then = whenAnswered(state, item.id)
  const words = then ? say.corrects(seatWords(pack, then, item)) : say.openAgain([item.challenge])
  return sayAndListen(pack, state, [words], { prompt: true })
}

/** The colleague says the right element to the controller, who affirms it. Newer values nobody has said (law 4). */
function radioPutRight(pack: Pack, state: RunState, about: string, element = ''): Step {
  const { exchange, turn } = findTurn(pack, about)
  if (turnState(state, turn.id).status === 'ahead')
    return sayAndListen(pack, state, [say.openAgain([turn.label])], { prompt: true })
  const stations = [
    ...correctedWords(pack, state, { exchange, turn }, element),
    ...stationWords(pack, state, exchange, turn).affirm(element),
  ]
  return sayAndListen(pack, state, [], { stations, prompt: true })
}

/** To the first of the items that were gone by; a list that was called complete without them is not. */
function comeBack(pack: Pack, before: RunState, items: readonly string[]): Step {
  const [first = ''] = items
  const { list } = findItem(pack, first)
  const { goneBy, calledComplete } = partnerOf(before)
  const wasComplete = calledComplete.includes(list.id)
  const open = withPartnerState(before, {
    goneBy: goneBy.filter((id) => !items.includes(id)),
    calledComplete: calledComplete.filter((id) => id !== list.id),
  })
  const state = withList(open, list.id, { complete: false, suspended: false })
  const words = [say.correction(), wasComplete ? say.revoked(list.name) : '']
  const floor = nextInList(pack, state, list.id) ?? { at: 'item', list: list.id, item: first }
  return enter(pack, state, floor, { words })
}

function stands(
  pack: Pack,
  state: RunState,
  { kind, about }: Pick<Chance, 'kind' | 'about' | 't' | 'seq'>,
  named: readonly string[] = [],
): Step {
  if (kind === 'station' || kind === 'colleague') {
    const { exchange, turn } = findTurn(pack, about)
    if (turnState(state, turn.id).status === 'ahead')
      return sayAndListen(pack, state, [say.openAgain([turn.label])], { prompt: true })
    const elements = requiredOf(turn, state).filter(({ id }) => kind === 'colleague' && named.includes(id))
    if (elements.length > 0) {
      const words = elements.map((one) => elementWords(pack, state, one))
      return sayAndListen(pack, state, [say.isCorrect(listed(words))], { prompt: true })
    }
    return sayAndListen(pack, state, [], { stations: stationWords(pack, state, exchange, turn).again(), prompt: true })
  }
  const words = {
    answer: () => answerStands(pack, state, about),
    move: () => say.nothingSkipped(),
    completion: () => {
      const list = listById(pack, about)
      if (isTakenBack(state, { kind, about })) return say.revoked(list.name)
      return say.completed(list.name, listState(state, about).onPreliminary)
    },
    call: () => say.forUs(),
  }[kind]()
  return sayAndListen(pack, state, [words], { prompt: true })
}

/**
 * With the values that were right when it answered: newer ones have not been said by anybody (law 4). Undefined where the
 * item is open again since.
 */
function whenAnswered(state: RunState, id: string): RunState | undefined {
  if (!isClosed(state, id) && partnerOf(state).answered !== id) return undefined
  return { ...state, values: { ...state.values, ...(isClosed(state, id) && itemState(state, id).expected) } }
}

/** The figures alone: that something is set it cannot know (law 8). */
function answerStands(pack: Pack, now: RunState, id: string): string {
  const { item } = findItem(pack, id)
  const state = whenAnswered(now, id)
  if (!state) return say.openAgain([item.challenge])
  const values = canAnswer(pack, state, item) ? valuesSaid(pack, state, figuresSaid(pack, state, item)) : ''
  return values === '' ? say.asSaid(seatText(pack, state, item)) : say.isCorrect(values)
}
