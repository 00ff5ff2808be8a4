/** Briefings along the time of a run: each from its first word to its end, each topic said wrong, each end that was refused. */

import { capital } from '../../capital.ts'
import type { Pack } from '../../pack/checklist.ts'
import { clockTime } from '../core/clockTime.ts'
import type { RunEvent } from '../core/events.ts'
import { onsetOf } from '../core/onset.ts'
import { topicsOf } from '../talk/briefing.ts'
import { briefingsOf } from '../talk/talk.ts'
import { momentKey } from './places.ts'
import type { Moment } from './tally.ts'
import type { TimelineEntry, TimelineFrom } from './timelineEntry.ts'

type Brief = Moment & { readonly event: RunEvent<'briefed' | 'briefingEnded'> }

const isBrief = (moment: Moment): moment is Brief =>
  moment.event.type === 'briefed' || moment.event.type === 'briefingEnded'

export function briefingsIn(pack: Pack, moments: readonly Moment[], from: TimelineFrom): TimelineEntry[] {
  const said = moments.filter(isBrief)
  return briefingsOf(pack).flatMap((briefing) =>
    goesOf(said.filter(({ event }) => event.briefing === briefing.id)).flatMap((go) => entriesOf(briefing, go, from)),
  )
}

/** Each until it was ended; new figures may open it again. */
function goesOf(all: readonly Brief[]): Brief[][] {
  const goes: Brief[][] = []
  let isOpen = false
  for (const one of all) {
    if (isOpen) goes.at(-1)?.push(one)
    else goes.push([one])
    isOpen = !one.after.briefingsClosed.includes(one.event.briefing)
  }
  return goes
}

function entriesOf(
  briefing: ReturnType<typeof briefingsOf>[number],
  go: readonly Brief[],
  { tally, places }: TimelineFrom,
): TimelineEntry[] {
  const [first, last] = [go[0], go.at(-1)]
  if (!first || !last) return []
  const { id, name } = briefing
  const [since, endT] = [first.event.t, last.event.t]
  const isWithin = ({ t }: { readonly t: number }) => t >= since && t <= endT
  const point = (t: number, label: string, told: string): TimelineEntry => {
    const at = places.byMoment.get(momentKey(t)) ?? places.byId.get(id)
    return {
      ...{ lane: 'talk', t, endT: t, label, went: 'missed', told: `${capital(name)}: ${told}.` },
      ...(at !== undefined && { from: at }),
    }
  }
  const wrong = topicsOf(briefing, last.after).flatMap((topic) =>
    (tally.wrongTopics.get(topic.id) ?? [])
      .filter(isWithin)
      .map(({ t, said }) => point(t, topic.label, `${said === undefined ? '' : `“${said}”, `}${topic.label} wrong`)),
  )
  const refused = (tally.endsRefused.get(id) ?? [])
    .filter(isWithin)
    .map(({ t, open }) => point(t, 'called complete', `called complete with ${open.join(', ')} open`))
  const isDone = last.after.briefingsClosed.includes(id)
  const missed = wrong.length + refused.length
  const at = places.byId.get(id)
  const words = [`${clockTime(endT - since)} in all`, missed > 0 ? `${missed} missed` : '', isDone ? '' : 'not ended']
  const onset = Math.min(since, onsetOf(first.after, first.event))
  return [
    {
      ...{ lane: 'talk', t: onset, endT, label: name, went: missed > 0 ? 'missed' : isDone ? 'right' : 'open' },
      told: `${capital(name)}: ${words.filter((word) => word).join(', ')}.`,
      ...(at !== undefined && { from: at }),
    },
    ...wrong,
    ...refused,
  ]
}
