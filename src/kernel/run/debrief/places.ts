/** From where each moment of a run can be done again: the number of the event after which it was to be said or done. */

import type { Pack } from '../../pack/checklist.ts'
import { activityAt } from '../core/moving.ts'
import type { RunState } from '../core/state.ts'
import { runningWatch } from '../watch/watchTiming.ts'
import type { Moment } from './tally.ts'

export interface Places {
  /** By the time of what happened and what it was about; see `momentKey`. */
  readonly byMoment: Map<string, number>
  /** By item, turn, list, watch, flow or briefing: its first. */
  readonly byId: Map<string, number>
  /** By the same as `byMoment`: the event in which something was said. */
  readonly saidIn: Map<string, number>
  /** Of the present moment: its event, and what it is told by. */
  began: number | undefined
  open: string
}

export const noPlaces = (): Places => ({
  ...{ byMoment: new Map(), byId: new Map(), saidIn: new Map() },
  ...{ began: undefined, open: '' },
})

/** `t`: ms from the start of the run; `id`: of an item or a turn. Of several things in one breath the first counts. */
export const momentKey = (t: number, id = ''): string => `${t} ${id}`

/** Of all moments of a run, those that it began with among them. */
export function placesIn(moments: readonly Moment[]): Places {
  const places = noPlaces()
  for (const moment of moments) notePlace(places, moment)
  return places
}

/** Notes where the moment of an event began, and whether another begins with it. */
function notePlace(places: Places, { pack, event, before, after }: Moment): void {
  const { byMoment, byId, saidIn } = places
  const isNews = event.type === 'figuresRevised' || event.type === 'sheetCame'
  const from = isNews ? event.seq : places.began
  const id = 'item' in event ? event.item : 'turn' in event ? event.turn : undefined
  for (const key of [momentKey(event.t), momentKey(event.t, id)]) {
    if (from !== undefined && !byMoment.has(key)) byMoment.set(key, from)
    if ('evidence' in event && !saidIn.has(key)) saidIn.set(key, event.seq)
  }
  if (event.type === 'transmitted') noteId(places, event.turn)
  // Nothing is gone on with from inside a start, nor from a question that was asked in between.
  const isSettled = !after.question && !runningWatch(pack, before) && !runningWatch(pack, after)
  const open = openOf(after)
  if (isSettled && open !== places.open && after.figureStatus !== undefined) {
    places.began = event.seq
    places.open = open
  }
  for (const id of idsAt(pack, after)) if (!byId.has(id)) noteId(places, id)
}

function noteId({ byId, began }: Places, id: string): void {
  if (began !== undefined && !byId.has(id)) byId.set(id, began)
}

/** What is to be said or done, on which figures. */
const openOf = ({ floor, revision, closed }: RunState) => JSON.stringify([floor, revision, closed.length])

function idsAt(pack: Pack, { floor }: RunState): string[] {
  const activity = activityAt(pack, floor)
  return [...(floor.at === 'item' ? [floor.item] : []), ...(activity ? [activity.id] : [])]
}
