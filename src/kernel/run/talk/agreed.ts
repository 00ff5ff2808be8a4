/**
 * What was agreed with a station, or briefed, rests on figures as an answer does: where one of them has changed, it is
 * open again.
 */

import type { Inputs } from '../../figures/model.ts'
import type { Pack } from '../../pack/checklist.ts'
import type { Briefing, ExchangeTurn } from '../../pack/exchange.ts'
import type { RunState } from '../core/state.ts'
import { saidValues } from './said.ts'
import { briefingsOf, exchangesOf, reopenTurn, turnState } from './talk.ts'

export interface AgreedAgain {
  readonly state: RunState
  /** Turns and briefings that are open again, by their names, and the figures for which they are. */
  readonly names: readonly string[]
  readonly figures: readonly string[]
  /** All that a station said or gave and would say differently now. */
  readonly gone: readonly string[]
}

/** `moved`: figures whose spoken value has changed since `inputs` were in force. */
export function reopenAgreed(
  pack: Pack,
  inputs: Inputs | undefined,
  entered: RunState,
  moved: readonly string[],
): AgreedAgain {
  let state = entered
  const names: string[] = []
  const figures = new Set<string>()
  const withdrawn = new Set<string>()
  const note = (name: string, gone: readonly string[]) => {
    names.push(name)
    for (const figure of gone.filter((one) => moved.includes(one))) figures.add(figure)
  }
  for (const { station, turns } of exchangesOf(pack)) {
    if (station.role === 'otherseat') continue
    for (const turn of turns) {
      const gone = goneFrom(turn, inputs, entered)
      if (gone.length === 0) continue
      state = reopenTurn(state, turn, { status: 'ahead', again: true })
      note(turn.label, gone)
      for (const figure of gone) withdrawn.add(figure)
    }
  }
  for (const briefing of briefingsOf(pack)) {
    const topics = overtakenTopics(briefing, entered, moved)
    if (topics.length === 0) continue
    const isLeft = ([id]: readonly [string, unknown]) => !topics.some((topic) => topic.id === id)
    const covered = Object.entries(state.topics).filter(isLeft)
    const topicParts = Object.fromEntries(Object.entries(state.topicParts).filter(isLeft))
    const briefingsClosed = state.briefingsClosed.filter((id) => id !== briefing.id)
    state = { ...state, topics: Object.fromEntries(covered), topicParts, briefingsClosed }
    note(
      briefing.name,
      topics.flatMap(({ figures: own }) => own),
    )
  }
  return { state, names, figures: [...figures], gone: [...withdrawn] }
}

/** Figures that the station said or gave and that are different now. */
function goneFrom(turn: ExchangeTurn, inputs: Inputs | undefined, entered: RunState): string[] {
  const { status, agreed = {} } = turnState(entered, turn.id)
  if (status === 'ahead') return []
  const now = saidValues(entered)
  // What it gave is in the figures until another value is put in its place.
  const isUndone = (name: string) =>
    turn.sets.includes(name) && inputs?.values[name] === agreed[name] && entered.inputs?.values[name] !== agreed[name]
  return Object.keys(agreed).filter((name) => now[name] !== agreed[name] || isUndone(name))
}

function overtakenTopics({ topics }: Briefing, state: RunState, moved: readonly string[]) {
  return topics
    .map(({ id, say }) => ({ id, figures: say.flatMap((response) => response.figures) }))
    .filter(({ id, figures }) => state.topics[id] === 'ok' && figures.some((name) => moved.includes(name)))
}
