/** A call of the pilot's own to a station, or an order between the seats: which one was meant. */

import { tokensOf } from '../numbers/tokens.ts'
import type { Exchange, ExchangeTurn } from '../pack/exchange.ts'
import { figuresFor } from '../pack/place.ts'
import { judgeCall } from '../response/call.ts'
import { HARMLESS, isStateWord } from '../response/lexicon.ts'
import type { Judgement } from '../response/model.ts'
import { NOTHING } from '../response/response.ts'
import type { EventBody } from '../run/core/events.ts'
import { withOwed } from '../run/talk/owed.ts'
import { saidValues } from '../run/talk/said.ts'
import { callableTurns, openTurns, turnState } from '../run/talk/talk.ts'
import { judgedBy, type Transmission, transmitted } from './transmission.ts'
import type { Utterance } from './utterance.ts'

/**
 * When a turn may be called: the runner questions one that comes too early, and the opposite of one that is done opens it
 * again.
 */
type Stage = 'now' | 'later' | 'done'

interface Candidate extends Transmission {
  readonly stage: Stage
  /** How many words of the call were said. */
  readonly shared: number
  /** What it is about was named, besides a state that other things have as well. */
  readonly isNamed: boolean
}

/** The call that fits best. */
export function stationCall(utterance: Utterance, exchange: Exchange, said = utterance.said): EventBody | undefined {
  const { state } = utterance
  const now = callableTurns(exchange, state)
  const later = openTurns(exchange, state).filter((turn) => turn.calls !== undefined && !now.includes(turn))
  const done = exchange.turns.filter((turn) => turn.states && turnState(state, turn.id).status === 'done')
  const candidates = (turns: readonly ExchangeTurn[], stage: Stage) =>
    turns.map((turn) => candidate(utterance, exchange, turn, stage, said))
  const past = candidates(done, 'done')
  const isRepeated = past.some(({ judgement }) => judgement.verdict === 'correct')
  const undone = past.filter(({ judgement, shared }) => judgement.verdict === 'negative' && shared > 0 && !isRepeated)
  const best = bestOf([...candidates(now, 'now'), ...candidates(later, 'later'), ...undone])
  return best && transmitted(utterance, exchange, said, best)
}

function candidate(
  utterance: Utterance,
  { station }: Exchange,
  turn: ExchangeTurn,
  stage: Stage,
  said = utterance.said,
): Candidate {
  const { pack, state } = utterance
  const response = turn.calls ?? NOTHING
  // Between the seats only what is in the figures counts: a station may not have said yet what it will say.
  const values = station.role === 'otherseat' ? state.values : saidValues(state)
  const figures = figuresFor(pack, values, response.figures)
  const before = turnState(state, turn.id)
  const judged = judgeCall({ ...judgedBy(utterance, turn, said, before.partsSoFar), response, figures })
  const judgement = withOwed(judged, before)
  const words = new Set(said.heard.tokens.map(({ text }) => text))
  const own = tokensOf(response.text)
  const shared = own.filter(({ text }) => words.has(text)).length
  const things = own.filter(({ text }) => !isStateWord(text) && !HARMLESS.has(text))
  const isNamed = things.length === 0 || things.some(({ text }) => words.has(text))
  return { turn, part: 'call', response, figures, judgement, stage, shared, isNamed }
}

/** Of several that could be meant, the one whose own words were said. */
function bestOf(candidates: readonly Candidate[]): Candidate | undefined {
  const sorted = candidates.toSorted((one, other) => other.shared - one.shared)
  // "The tow bar's on" says nothing of the external power, which should be off.
  const judged = sorted.filter(({ judgement, isNamed }) => isNamed || judgement.because !== 'state')
  const withVerdict = (verdict: Judgement['verdict'], ...stages: Stage[]) =>
    judged.find(({ judgement, stage }) => judgement.verdict === verdict && stages.includes(stage))
  return (
    withVerdict('correct', 'now', 'later') ??
    withVerdict('negative', 'now', 'done') ??
    withVerdict('incomplete', 'now', 'done') ??
    sorted.find(({ stage }) => stage === 'now')
  )
}
