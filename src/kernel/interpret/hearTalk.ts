/** Hop three where an exchange or a briefing has the floor: a call, a read-back, or topics of a briefing. */

import type { Heard } from '../hearing/heard.ts'
import { ACKNOWLEDGEMENTS } from '../hearing/talk.ts'
import { tokensOf } from '../numbers/tokens.ts'
import type { Pack } from '../pack/checklist.ts'
import type { Briefing, Exchange, Turn } from '../pack/exchange.ts'
import { figuresFor } from '../pack/place.ts'
import { specsOf } from '../pack/specs.ts'
import { landmarksOf } from '../response/anchors.ts'
import { chunksOf } from '../response/chunks.ts'
import { isWhole } from '../response/form.ts'
import { judge } from '../response/judge.ts'
import { isNegation } from '../response/lexicon.ts'
import type { JudgeInput, Judgement } from '../response/model.ts'
import { judgeReadBack, partNames, wholeResponse, withoutAddress } from '../response/readBack.ts'
import { NOTHING, type Response, responseFrom } from '../response/response.ts'
import { topicsIn } from '../response/topics.ts'
import type { Evidence, Happening } from '../run/core/events.ts'
import type { RunState } from '../run/core/state.ts'
import { topicsOf } from '../run/talk/briefing.ts'
import { readBacksOf } from '../run/talk/radio.ts'
import { saidValues } from '../run/talk/said.ts'
import {
  addressOf,
  besideReadBack,
  callableTurns,
  findTurn,
  openTurns,
  pendingTurn,
  turnState,
} from '../run/talk/talk.ts'

const ACKNOWLEDGED = responseFrom(ACKNOWLEDGEMENTS.join(' | '))

/** "Say again", "say again squawk", "say again the route". */
export function sayAgainIn(turn: Turn, text: string): string | undefined {
  const match = /^\s*(?:please )?say again\b[\s,]*(?:the |your )?(.*?)[\s.]*$/i.exec(text)
  if (!match) return undefined
  const name = (match[1] ?? '').toLowerCase()
  const element = turn.elements.find(({ label, alsoCalled }) =>
    [label, ...alsoCalled].some((one) => one.toLowerCase() === name),
  )
  return element?.id ?? ''
}

/** Of the two looks of the ear one took it for other speech. */
export const isHalfOther = ({ doubt, score }: Heard) => doubt === 'unsure' && score === undefined

/** Speech while an exchange has the floor; undefined where it is none of its business. */
export function transmissionIn(
  pack: Pack,
  state: RunState,
  exchange: Exchange,
  heard: Heard,
  evidence: Evidence,
): Happening | undefined {
  const pending = pendingTurn(exchange, state)
  const again = pending && !heard.doubt ? sayAgainIn(pending, heard.text) : undefined
  if (again !== undefined) {
    return { type: 'commanded', command: 'sayAgain', evidence, ...(again !== '' && { argument: again }) }
  }
  // What is not like an answer is asked for again once: whoever talks on does not mean the station.
  if (pending && isHalfOther(heard) && turnState(state, pending.id).sayAgains > 0) return undefined
  const readBack = pending && readBackIn(pack, state, exchange, pending, heard, evidence)
  // In a free exchange another call may come first.
  if (readBack && (exchange.order === 'fixed' || isClear(readBack))) return readBack
  return callIn(pack, state, exchange, heard, evidence) ?? readBack
}

/** A read-back that a controller wrongly called correct is come back to, wherever the run is by then. */
export function secondThoughts(pack: Pack, state: RunState, heard: Heard, evidence: Evidence): Happening | undefined {
  const id = Object.keys(state.turns).find((turn) => state.turns[turn]?.slip === 'open')
  const match = /^\s*(?:correction|negative|confirm)\b[\s,]*(.+)$/is.exec(heard.text)
  if (id === undefined || !match || heard.doubt) return undefined
  const { exchange, turn } = findTurn(pack, id)
  const happening = readBackIn(pack, state, exchange, turn, { ...heard, text: match[1] ?? '' }, evidence)
  const right = happening?.type === 'transmitted' && happening.judgement.parts.some((part) => part.state === 'ok')
  return right ? happening : undefined
}

const isClear = (happening: Happening) => happening.type === 'transmitted' && happening.judgement.verdict !== 'sayAgain'

function readBackIn(
  pack: Pack,
  state: RunState,
  exchange: Exchange,
  turn: Turn,
  heard: Heard,
  evidence: Evidence,
): Happening | undefined {
  const elements = readBacksOf(turn, state)
  const { status, held, begun } = turnState(state, turn.id)
  const spoken = elements.length > 0 ? elements : [{ id: 'acknowledged', response: ACKNOWLEDGED }]
  const beside = besideReadBack(turn)
  const all = beside.figures.length === 0 ? spoken : [...spoken, { id: 'callSign', response: beside }]
  const figures = figuresIn(pack, state, wholeResponse(all).figures)
  // Behind another value that the station said, only what is said now counts.
  const before = status === 'said' ? held : []
  const said = unaddressed(heard, addressOf(exchange))
  const text =
    status === 'slipped' ? said.text.replace(/^\s*(negative|confirm|correction|say again)\b[\s,]*/i, '') : said.text
  // A bare number is for what is owed: what may be said besides has to be named.
  const named = new Set(chunksOf(landmarksOf(all, figures), text, new Set()).map(({ element }) => element))
  const meant = all.filter(
    (element, index) => element.id === 'callSign' || partNames(element).required.size > 0 || named.has(index),
  )
  const judgement = judgeReadBack(meant, {
    ...inputOf(state, said, text),
    figures,
    held: before,
    begun,
    ...(turn.states && { states: turn.states }),
  })
  if (isOther(pack, wholeResponse(all), turn.states, judgement, heard)) return undefined
  return transmitted(state, turn, 'readBack', doubted(judgement, heard), figures, evidence)
}

/** When a turn may be called: one that comes too early is questioned by the runner, the contrary of one that is done opens it again. */
type Stage = 'now' | 'later' | 'done'

/** The call that fits best. */
function callIn(
  pack: Pack,
  state: RunState,
  exchange: Exchange,
  heard: Heard,
  evidence: Evidence,
): Happening | undefined {
  const now = callableTurns(exchange, state)
  const later = openTurns(exchange, state).filter((turn) => turn.calls !== undefined && !now.includes(turn))
  const done = exchange.turns.filter((turn) => turn.states && turnState(state, turn.id).status === 'done')
  const words = new Set(tokensOf(heard.text).map(({ text }) => text))
  const called = (turn: Turn, stage: Stage) => {
    const { held, begun } = turnState(state, turn.id)
    const response = turn.calls ?? NOTHING
    const figures =
      exchange.station.role === 'otherseat'
        ? known(pack, state, response.figures)
        : figuresIn(pack, state, response.figures)
    const judgement = judge({
      ...inputOf(state, heard, heard.text),
      response,
      figures,
      held,
      begun,
      ...(turn.states && { states: turn.states }),
    })
    const shared = tokensOf(response.text).filter(({ text }) => words.has(text)).length
    return { turn, figures, judgement, stage, shared }
  }
  const past = done.map((turn) => called(turn, 'done'))
  const isRepeated = past.some(({ judgement }) => judgement.verdict === 'correct')
  const undone = past.filter(({ judgement, shared }) => judgement.verdict === 'negative' && shared > 0 && !isRepeated)
  // Of several that could be meant, the one whose own words were said.
  const judged = [
    ...now.map((turn) => called(turn, 'now')),
    ...later.map((turn) => called(turn, 'later')),
    ...undone,
  ].toSorted((one, other) => other.shared - one.shared)
  const of = (verdict: Judgement['verdict'], stages: readonly Stage[] = ['now', 'done']) =>
    judged.find(({ judgement, stage }) => judgement.verdict === verdict && stages.includes(stage))
  const best =
    of('correct', ['now', 'later']) ?? of('negative') ?? of('incomplete') ?? judged.find(({ stage }) => stage === 'now')
  if (!best || best.judgement.verdict === 'command') return undefined
  if (isOther(pack, best.turn.calls ?? NOTHING, best.turn.states, best.judgement, heard)) return undefined
  return transmitted(state, best.turn, 'call', doubted(best.judgement, heard), best.figures, evidence)
}

function inputOf(state: RunState, heard: Heard, text: string): Omit<JudgeInput, 'response' | 'figures'> {
  return {
    heard: text,
    phraseology: state.settings.phraseology === 'verbatim' ? 'standard' : state.settings.phraseology,
    ...(heard.score !== undefined && { score: heard.score }),
    ...(heard.alternatives && { alternatives: heard.alternatives }),
  }
}

/** Both looks of the ear without the name that is addressed. */
function unaddressed(heard: Heard, name: string): Heard {
  const without = <T extends { readonly text: string }>(one: T): T => ({ ...one, text: withoutAddress(one.text, name) })
  return { ...without(heard), ...(heard.alternatives && { alternatives: heard.alternatives.map(without) }) }
}

function figuresIn(pack: Pack, state: RunState, names: readonly string[]) {
  return figuresFor(pack, saidValues(state), names)
}

/** Between the seats only what is in the figures counts: a station may not have said yet what it will say. */
function known(pack: Pack, state: RunState, names: readonly string[]) {
  return figuresFor(pack, state.values, names)
}

function transmitted(
  state: RunState,
  turn: Turn,
  part: 'call' | 'readBack',
  judgement: Judgement,
  figures: ReturnType<typeof figuresFor>,
  evidence: Evidence,
): Happening {
  const expected = Object.fromEntries(Object.entries(figures).map(([name, { value }]) => [name, value]))
  const exchange = turn.id.split('.')[0] ?? ''
  return { type: 'transmitted', exchange, turn: turn.id, part, evidence, judgement, expected, revision: state.revision }
}

function doubted(judgement: Judgement, heard: Heard): Judgement {
  return heard.doubt ? { verdict: 'sayAgain', because: 'notUnderstood', parts: judgement.parts } : judgement
}

/** Other speech in the room draws no reaction. */
function isOther(pack: Pack, response: Response, states: Turn['states'], judgement: Judgement, heard: Heard): boolean {
  if (judgement.verdict === 'command') return true
  if (heard.by === 'typed' || judgement.verdict !== 'sayAgain' || judgement.because !== 'notUnderstood') return false
  return isWhole(response, specsOf(pack, response.figures), heard.text, states ? { states } : {}) === 'none'
}

/** Topics of a briefing in what was said, or its end. */
export function briefingHeard(
  pack: Pack,
  state: RunState,
  briefing: Briefing,
  heard: Heard,
  evidence: Evidence,
): Happening | undefined {
  if (heard.doubt) return undefined
  const ends = endsWith(briefing.ends, heard.text)
  const topics = topicsOf(briefing, state.situation)
  const figures = known(
    pack,
    state,
    topics.flatMap(({ say }) => say.flatMap((response) => response.figures)),
  )
  const named = topicsIn(topics, figures, heard.text)
  if (Object.keys(named.topics).length > 0) {
    return { type: 'briefed', briefing: briefing.id, evidence, ...named, ...(ends && { ends }) }
  }
  return ends ? { type: 'briefingEnded', briefing: briefing.id, evidence } : undefined
}

/** Behind how many words of one phrase its end is looked for. */
const LONGEST_END = 8

/** The last words are those that end a briefing, whatever was said before them; "not" before them is no end. */
function endsWith(ends: Briefing['ends'], text: string): boolean {
  const tokens = tokensOf(text)
  for (let from = tokens.length - 1; from >= 0 && from >= tokens.length - LONGEST_END; from--) {
    if (isNegation(tokens[from]?.text ?? '')) return false
    const heard = text.toLowerCase().slice(tokens[from]?.start)
    if (judge({ response: ends, figures: {}, heard }).verdict === 'correct') {
      return !isNegation(tokens[from - 1]?.text ?? '')
    }
  }
  return false
}
