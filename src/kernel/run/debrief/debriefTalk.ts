/** The account of exchanges and briefings: every transmission, what was shown, insisted on or noticed, and what was left out. */

import type { Pack } from '../../pack/checklist.ts'
import type { Briefing, Exchange, Turn } from '../../pack/exchange.ts'
import { agenda, holds } from '../../pack/place.ts'
import type { Role } from '../../pack/roles.ts'
import type { RunEvent, Slip } from '../core/events.ts'
import type { RunState } from '../core/state.ts'
import { openTopics, topicsOf } from '../talk/briefing.ts'
import { briefingsOf, turnState } from '../talk/talk.ts'
import type { DebriefTry } from './debriefTry.ts'

export interface DebriefTransmission extends DebriefTry {
  readonly part: 'call' | 'readBack'
}

export interface DebriefTurn {
  readonly id: string
  readonly label: string
  readonly done: boolean
  readonly tries: readonly DebriefTransmission[]
  /** Calls and read-backs with a wrong value, or with something missing; the pilot's. */
  readonly misses: number
  /** The ear's. */
  readonly sayAgains: number
  /** How often the pilot asked the station to say it again. */
  readonly asked: number
  /** The words were shown on the screen. */
  readonly shown: boolean
  /** What an order was kept to against the figure. */
  readonly insisted?: string
  /** The controller erred here, and whether it was noticed. */
  readonly slip?: { readonly kind: Slip['kind']; readonly noticed: boolean }
  readonly byKey: boolean
}

export interface DebriefExchange {
  readonly id: string
  readonly name: string
  readonly station: string
  readonly role: Role
  readonly done: boolean
  readonly turns: readonly DebriefTurn[]
}

export interface DebriefBriefing {
  readonly id: string
  readonly name: string
  readonly done: boolean
  readonly topics: readonly {
    readonly label: string
    readonly state: 'ok' | 'wrong' | 'open'
    /** How often it was said with a wrong value. */
    readonly misses: number
    /** Not covered when the briefing was first called complete. */
    readonly leftOut: boolean
  }[]
}

/** What the events tell besides the state at their end; fed in order, each with the state before it. */
export function createTalkTally(pack: Pack) {
  const tries = new Map<string, DebriefTransmission[]>()
  const asked = new Map<string, number>()
  const wrongTopics = new Map<string, number>()
  const leftOut = new Map<string, ReadonlySet<string>>()

  function count(event: RunEvent, before: RunState): void {
    switch (event.type) {
      case 'transmitted':
        tries.set(event.turn, [...(tries.get(event.turn) ?? []), tryOf(event)])
        break
      case 'commanded': {
        const pending = Object.keys(before.turns).find((id) =>
          ['said', 'slipped'].includes(turnState(before, id).status),
        )
        if (event.command === 'sayAgain' && pending && before.floor.at === 'exchange') add(asked, pending)
        break
      }
      case 'briefed':
        for (const [topic, state] of Object.entries(event.topics)) if (state === 'wrong') add(wrongTopics, topic)
        if (event.ends) countLeftOut(event.briefing, { ...before, topics: { ...before.topics, ...event.topics } })
        break
      case 'briefingEnded':
        countLeftOut(event.briefing, before)
        break
    }
  }

  /** At the first end only: what was said after that was asked for. */
  function countLeftOut(id: string, before: RunState): void {
    const briefing = briefingsOf(pack).find((one) => one.id === id)
    if (!briefing || leftOut.has(id)) return
    leftOut.set(id, new Set(openTopics(briefing, before).map((topic) => topic.id)))
  }

  function exchanges(state: RunState): DebriefExchange[] {
    return talksIn(pack, state).flatMap((talk) => {
      if (talk.type !== 'exchange') return []
      const turns = talk.turns
        .filter(({ when }) => holds(when, state.situation))
        .map((turn) => turnIn(state, turn, tries.get(turn.id) ?? [], asked.get(turn.id) ?? 0))
      const { id, name, station } = talk
      return [{ id, name, station: station.name, role: station.role, done: turns.every(({ done }) => done), turns }]
    })
  }

  function briefings(state: RunState): DebriefBriefing[] {
    return talksIn(pack, state).flatMap((talk) => {
      if (talk.type !== 'briefing') return []
      const topics = topicsOf(talk, state.situation).map(({ id, label }) => ({
        label,
        state: state.topics[id] ?? ('open' as const),
        misses: wrongTopics.get(id) ?? 0,
        leftOut: leftOut.get(talk.id)?.has(id) ?? false,
      }))
      return [{ id: talk.id, name: talk.name, done: state.briefingsClosed.includes(talk.id), topics }]
    })
  }

  return { count, exchanges, briefings }
}

const add = (counts: Map<string, number>, name: string) => counts.set(name, (counts.get(name) ?? 0) + 1)

/** None where the voices outside the crew were left out. */
function talksIn(pack: Pack, state: RunState): (Exchange | Briefing)[] {
  if (!state.script) return []
  return agenda(pack, state.situation).flatMap(({ activity }) =>
    activity.type === 'exchange' || activity.type === 'briefing' ? [activity] : [],
  )
}

function tryOf(event: RunEvent<'transmitted'>): DebriefTransmission {
  const { t, evidence, judgement, revision, part } = event
  return { t, text: evidence.text, by: evidence.by, judgement, challengeRevision: revision, revision, part }
}

function turnIn(state: RunState, turn: Turn, tries: readonly DebriefTransmission[], asked: number): DebriefTurn {
  const { status, shown, insisted, slip } = turnState(state, turn.id)
  const kind = state.script?.slip?.kind
  const verdicts = tries.map(({ judgement }) => judgement.verdict)
  return {
    id: turn.id,
    label: turn.label,
    done: status === 'done',
    tries,
    misses: verdicts.filter((verdict) => verdict === 'negative' || verdict === 'incomplete').length,
    sayAgains: verdicts.filter((verdict) => verdict === 'sayAgain').length,
    asked,
    shown,
    ...(insisted !== undefined && { insisted }),
    ...(slip && kind && { slip: { kind, noticed: slip === 'noticed' } }),
    byKey: tries.some(({ by }) => by === 'key'),
  }
}
