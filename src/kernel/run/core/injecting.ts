/**
 * What an instructor has happen in a run. The pilot meets it as if it came by itself; where it cannot happen at that moment
 * nothing does, and the debrief says so.
 */

import { plausibleMistake } from '../../kinds/table.ts'
import type { Pack } from '../../pack/checklist.ts'
import type { ExchangeTurn } from '../../pack/exchange.ts'
import { agenda } from '../../pack/place.ts'
import { seeded } from '../../seeded.ts'
import { openBreak, withPartnerState } from '../partner/partner.ts'
import { saidValues } from '../talk/said.ts'
import { slipsOf } from '../talk/script.ts'
import { turnState } from '../talk/talk.ts'
import { runningWatch, withWatch } from '../watch/watchTiming.ts'
import { earChanged } from './earChanging.ts'
import type { RunEvent, Slip } from './events.ts'
import type { Injected, Injection } from './injections.ts'
import { placeName } from './interruption.ts'
import { sayAndListen, timers } from './listening.ts'
import { papersCalled, sheetCame, withSheet } from './papersCame.ts'
import { say } from './phrases.ts'
import type { RunState, Step } from './state.ts'
import { stoppedByGround } from './stopping.ts'

/** Never acts twice on one order. */
export function injected(pack: Pack, before: RunState, event: RunEvent<'injected'>): Step {
  const { order, by, given, what, t } = event
  const { injected: known = [] } = before
  if (known.some((one) => one.order === order)) return { state: before, effects: timers(before) }
  const step = happening(pack, before, what)
  const watch = what.kind === 'start' ? runningWatch(pack, before)?.id : undefined
  const place = { at: placeName(pack, before), ...(watch !== undefined && { watch }) }
  const one: Injected = { t, order, by, given, what, ...place, isTaken: step !== undefined }
  const { state, effects } = step ?? { state: before, effects: timers(before) }
  return { state: { ...state, injected: [...known, one] }, effects }
}

/** Undefined where it cannot happen now. */
function happening(pack: Pack, state: RunState, { kind, sheet, seed = 0, abnormal }: Injection): Step | undefined {
  if (state.status !== 'running') return undefined
  switch (kind) {
    case 'paper':
      return sheet && papersCalled(pack, withSheet(state, sheet)) !== '' ? sheetCame(pack, state, { sheet }) : undefined
    case 'stop':
      return stoppedByGround(pack, state)
    case 'cabin':
      return cabinCalls(pack, state)
    case 'deaf':
      return earChanged(pack, { ...state, isDeafened: true }, say.deaf(), 'deaf')
    case 'slip': {
      const slip = slipAhead(pack, state, seed)
      return slip && state.script
        ? { state: { ...state, script: { ...state.script, slip } }, effects: timers(state) }
        : undefined
    }
    case 'partner':
      return { state: withPartnerState(state, { ordered: seed }), effects: timers(state) }
    case 'start':
      return gaugesShow(pack, state, abnormal)
  }
}

/** On the screen alone: the pilot has to see it, and to call it. */
function gaugesShow(pack: Pack, state: RunState, id: string | undefined): Step | undefined {
  const watch = runningWatch(pack, state)
  const abnormal = watch?.abnormal.find((one) => one.id === id)
  if (!watch || !abnormal) return undefined
  return { state: withWatch(state, watch.id, { shows: abnormal.label }), effects: [] }
}

/** In the middle of an item, and not while somebody else is on the line. */
function cabinCalls(pack: Pack, state: RunState): Step | undefined {
  const { floor } = state
  if (floor.at !== 'item' || state.question || state.standingBy || openBreak(state)) return undefined
  const plannedBreak = { item: floor.item, by: 'cabin', cue: true } as const
  return sayAndListen(pack, withPartnerState(state, { plannedBreak }), [])
}

/** The next thing that a controller says and wants read back, and what it is taken for; only where none errs already. */
function slipAhead(pack: Pack, state: RunState, seed: number): Slip | undefined {
  const { script } = state
  if (!script || (script.slip && turnState(state, script.slip.turn).status !== 'done')) return undefined
  const values = saidValues(state)
  const isAhead = ({ id }: ExchangeTurn) => turnState(state, id).status !== 'done'
  const turns = agenda(pack, state).flatMap(({ activity }) =>
    activity.type === 'exchange' && activity.station.role === 'controller' ? activity.turns.filter(isAhead) : [],
  )
  for (const turn of turns) {
    const found = slipsOf(pack, turn, state, values).find(({ figure }) => {
      const [spec, right] = [pack.figures.declarations[figure]?.spec, values[figure]]
      return spec && right !== undefined && plausibleMistake(spec, right, seeded(seed)) !== undefined
    })
    if (found) return { ...found, kind: 'saysAnother', seed }
  }
  return undefined
}
