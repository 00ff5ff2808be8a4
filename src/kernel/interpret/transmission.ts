/** What a call to a station and a read-back have in common: how they are judged, and the event that they are. */

import type { Figures } from '../kinds/kind.ts'
import type { Exchange, ExchangeTurn } from '../pack/exchange.ts'
import { specsOf } from '../pack/specs.ts'
import { completenessOf } from '../response/completeness.ts'
import type { Hypotheses } from '../response/hypotheses.ts'
import type { JudgeInput, Judgement } from '../response/model.ts'
import type { Response } from '../response/response.ts'
import type { EventBody, EventFields } from '../run/core/events.ts'
import { signed } from '../run/talk/callSign.ts'
import { turnState } from '../run/talk/talk.ts'
import { situation } from './announcements.ts'
import { command } from './command.ts'
import type { Utterance } from './utterance.ts'

export interface Transmission {
  readonly turn: ExchangeTurn
  readonly part: EventFields['transmitted']['part']
  readonly response: Response
  readonly figures: Figures
  readonly judgement: Judgement
}

/** How a part of an exchange is judged, besides what is asked; `partsSoFar`: those said right in an earlier breath. */
export function judgedBy(
  { state }: Utterance,
  turn: ExchangeTurn,
  said: Hypotheses,
  partsSoFar: readonly string[],
): Omit<JudgeInput, 'response' | 'figures'> {
  const { phraseology } = state.settings
  return {
    ...said,
    // The words of a list are nobody's on the radio.
    phraseology: phraseology === 'verbatim' ? 'standard' : phraseology,
    held: partsSoFar,
    begun: turnState(state, turn.id).begun,
    ...(turn.states && { states: turn.states }),
  }
}

/** Undefined where it was other speech: a command, or what has nothing of the response. */
export function transmitted(
  utterance: Utterance,
  exchange: Exchange,
  said: Hypotheses,
  transmission: Transmission,
): EventBody | undefined {
  const { pack, state, heard, evidence } = utterance
  const { turn, part, figures } = transmission
  const judgement = signed(pack, state, exchange, transmission.judgement)
  if (judgement.verdict === 'command' || isOtherSpeech(utterance, said, transmission)) return undefined
  return {
    type: 'transmitted',
    exchange: exchange.id,
    turn: turn.id,
    part,
    evidence,
    judgement: heard.doubt ? { verdict: 'sayAgain', because: 'notUnderstood', parts: judgement.parts } : judgement,
    expected: Object.fromEntries(Object.entries(figures).map(([name, { value }]) => [name, value])),
    revision: state.revision,
  }
}

/** Other speech in the room draws no reaction; what is typed is meant for the station, unless it is a command or a situation. */
function isOtherSpeech(utterance: Utterance, said: Hypotheses, { turn, response, judgement }: Transmission): boolean {
  const { pack, heard } = utterance
  if (judgement.verdict !== 'sayAgain' || judgement.because !== 'notUnderstood') return false
  if (heard.by === 'typed') return (command(utterance) ?? situation(utterance)) !== undefined
  const specs = specsOf(pack, response.figures)
  return completenessOf(response, specs, said.heard.tokens, { states: turn.states }) === 'none'
}
