/** The briefing: topics ticked as they are named, values in it compared, and at its end what was left out. */

import { type Ground, holds } from '../../figures/condition.ts'
import type { Pack } from '../../pack/checklist.ts'
import type { Briefing, Topic } from '../../pack/exchange.ts'
import { agenda } from '../../pack/place.ts'
import type { Judgement, Part } from '../../response/model.ts'
import type { RunEvent } from '../core/events.ts'
import { enter, sayAndListen, timers } from '../core/listening.ts'
import { nextFloor } from '../core/moving.ts'
import { say } from '../core/phrases.ts'
import { lastClosed } from '../core/progress.ts'
import type { LastAnswer, RunState, Step } from '../core/state.ts'
import { isUnderWay, talkAt } from './talk.ts'

function briefingAt(pack: Pack, state: RunState, id: string): Briefing | undefined {
  const talk = talkAt(pack, state.floor)
  return talk?.type === 'briefing' && talk.id === id ? talk : undefined
}

/** Topics that apply. */
export function topicsOf(briefing: Briefing, ground: Ground): Topic[] {
  return briefing.topics.filter(({ when }) => holds(when, ground))
}

/** Topics that were not covered, or last with a wrong value. */
export function openTopics(briefing: Briefing, state: RunState): Topic[] {
  return topicsOf(briefing, state).filter(({ id }) => state.topics[id] !== 'ok')
}

/** Ticks topics, and asks again for those with a wrong value. */
export function briefed(pack: Pack, before: RunState, event: RunEvent<'briefed'>): Step {
  const briefing = briefingAt(pack, before, event.briefing)
  if (!briefing) return { state: before, effects: [] }
  const topics = { ...before.topics, ...event.topics }
  const topicParts = { ...before.topicParts, ...event.parts }
  const kept: RunState = { ...before, standingBy: false, topics, topicParts, last: lastOf(briefing, event) }
  // What was asked for stands on the screen until it is answered.
  const state: RunState = { ...kept, said: wrongTopics(pack, briefing, kept).join(' ') }
  const wrong = topicsOf(briefing, state).filter(({ id }) => event.topics[id] === 'wrong')
  // A briefing is one person's talk: a right topic is ticked on the screen, without a sound in between.
  if (wrong.length === 0) return event.ends ? ended(pack, state, briefing) : { state, effects: timers(state) }
  const heard = event.heard.length > 0 ? say.heard(event.heard.join(', ')) : ''
  const words = [heard, ...askedAgain(pack, wrong, state)]
  return sayAndListen(pack, state, words, { tone: 'attention' })
}

/** What was last said wrong, asked for by its name: of several values those that were wrong. */
function askedAgain(pack: Pack, wrong: readonly Topic[], { topicParts }: RunState): string[] {
  const named = wrong.map(({ id, label, say: ways }) => {
    const figures = new Set(ways.flatMap((response) => response.figures))
    const parts = Object.entries(topicParts[id] ?? {}).filter(([name, part]) => figures.has(name) && part === 'wrong')
    const labels = parts.map(([name]) => pack.figures.declarations[name]?.label ?? name)
    return { label, parts: figures.size > 1 ? labels : [] }
  })
  const whole = named.filter(({ parts }) => parts.length === 0).map(({ label }) => label)
  const inPart = named.filter(({ parts }) => parts.length > 0)
  return [
    ...(whole.length > 0 ? [say.topics(whole)] : []),
    ...inPart.map(({ label, parts }) => say.missing(label, parts)),
  ]
}

/** Topics said with a wrong value in this breath; one whose value was wrong before may only have been gone on with. */
export function wrongTopicsIn({ topics: before }: RunState, { topics, heard }: RunEvent<'briefed'>): string[] {
  return Object.keys(topics).filter((id) => topics[id] === 'wrong' && (heard.length > 0 || before[id] !== 'wrong'))
}

const wrongTopics = (pack: Pack, briefing: Briefing, state: RunState): string[] =>
  askedAgain(
    pack,
    topicsOf(briefing, state).filter(({ id }) => state.topics[id] === 'wrong'),
    state,
  )

/** Each topic that was said as a part of the answer. */
function lastOf(briefing: Briefing, { evidence, topics, heard }: RunEvent<'briefed'>): LastAnswer {
  const parts = Object.entries(topics).map(([name, state]): Part => ({ name, kind: 'word', state }))
  const judgement: Judgement =
    heard.length > 0 || parts.some(({ state }) => state === 'wrong')
      ? { verdict: 'negative', because: 'value', parts }
      : { verdict: 'correct', parts }
  const { id, name } = briefing
  return { item: id, of: 'briefing', challenge: name, text: evidence.text, by: evidence.by, judgement }
}

/** Closes the briefing, or asks for what was not covered. */
export function briefingEnded(pack: Pack, before: RunState, event: RunEvent<'briefingEnded'>): Step {
  const briefing = briefingAt(pack, before, event.briefing)
  return briefing ? ended(pack, before, briefing) : { state: before, effects: [] }
}

/** What was not covered, and what was last said wrong. */
function missingIn(pack: Pack, briefing: Briefing, state: RunState): string[] {
  const unsaid = openTopics(briefing, state).filter(({ id }) => state.topics[id] === undefined)
  const labels = unsaid.map(({ label }) => label)
  return [labels.length > 0 ? say.notCovered(labels) : '', ...wrongTopics(pack, briefing, state)]
}

/** The pilot would go on from a briefing that was begun: once it is said what is missing; undefined where nothing is, or it was. */
export function unfinished(pack: Pack, state: RunState, id: string): Step | undefined {
  const place = agenda(pack, state).find(({ activity }) => activity.id === id)
  const briefing = place?.activity
  if (
    !place ||
    briefing?.type !== 'briefing' ||
    !isUnderWay(briefing, state) ||
    openTopics(briefing, state).length === 0
  )
    return
  const once = `unfinished ${id}`
  if (state.saidOnce.includes(once)) return
  const told = { ...state, saidOnce: [...state.saidOnce, once] }
  const words = missingIn(pack, briefing, state)
  return talkAt(pack, state.floor)?.id === id
    ? sayAndListen(pack, told, words)
    : enter(pack, told, { at: 'briefing', phase: place.phase, activity: place.index }, { words })
}

function ended(pack: Pack, before: RunState, briefing: Briefing): Step {
  if (openTopics(briefing, before).length > 0) return sayAndListen(pack, before, missingIn(pack, briefing, before))
  const closed = { ...before, briefingsClosed: [...new Set([...before.briefingsClosed, briefing.id])] }
  const state = lastClosed(closed, briefing.id)
  return enter(pack, state, nextFloor(pack, state), { words: [say.watched(briefing.name)], tone: 'tick' })
}
