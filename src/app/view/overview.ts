/** The whole procedure at a glance: lists, exchanges and briefings in their order, and what is open in each. */

import type { List, Pack } from '../../kernel/pack/checklist.ts'
import type { Briefing, Exchange } from '../../kernel/pack/exchange.ts'
import { agenda } from '../../kernel/pack/place.ts'
import { listState, openChallenges } from '../../kernel/run/core/progress.ts'
import type { RunState } from '../../kernel/run/core/state.ts'
import { isCalledComplete } from '../../kernel/run/partner/partner.ts'
import { openTopics } from '../../kernel/run/talk/briefing.ts'
import { openTurns, talkAt, turnState } from '../../kernel/run/talk/talk.ts'

/** A list, exchange or briefing of the run with its place, for the overview. */
export interface ViewList {
  readonly id: string
  readonly type: 'list' | 'exchange' | 'briefing'
  readonly name: string
  readonly state: 'ahead' | 'open' | 'complete' | 'revoked'
  readonly openItems: readonly string[]
  /** It has the floor. */
  readonly current: boolean
}

/** Without voices outside the crew there is nobody to talk to: exchanges and briefings are left out then. */
export function overviewOf(pack: Pack, run: RunState): ViewList[] {
  return agenda(pack, run).flatMap(({ activity }) => {
    if (activity.type === 'list') return [viewList(pack, run, activity)]
    const isTalk = activity.type === 'exchange' || activity.type === 'briefing'
    return isTalk && run.script ? [viewTalk(pack, run, activity)] : []
  })
}

function viewList(pack: Pack, run: RunState, list: List): ViewList {
  const { called, complete, revoked, suspended } = listState(run, list.id)
  // Called complete by a partner who errs: that it is not is the pilot's to notice.
  const isOver = complete || (suspended && isCalledComplete(run, list.id))
  const state = isOver ? 'complete' : revoked ? 'revoked' : called ? 'open' : 'ahead'
  return {
    id: list.id,
    type: 'list',
    name: list.name,
    state,
    openItems: called && !isOver ? openChallenges(pack, run, list.id) : [],
    current: 'list' in run.floor && run.floor.list === list.id,
  }
}

function viewTalk(pack: Pack, run: RunState, talk: Exchange | Briefing): ViewList {
  const { id, type, name } = talk
  const isBriefing = talk.type === 'briefing'
  const open = isBriefing ? openTopics(talk, run) : openTurns(talk, run)
  const isComplete = isBriefing ? run.briefingsClosed.includes(id) : open.length === 0
  const isBegun = isBriefing
    ? talk.topics.some((topic) => run.topics[topic.id])
    : talk.turns.some((turn) => turnState(run, turn.id).status !== 'ahead')
  const state = isComplete ? 'complete' : isBegun ? 'open' : 'ahead'
  return {
    id,
    type,
    name,
    state,
    openItems: state === 'open' ? open.map(({ label }) => label) : [],
    current: talkAt(pack, run.floor) === talk,
  }
}
