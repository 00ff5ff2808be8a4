/** Which figures somebody reads or says: the others are workings, and no slip of eye or ear comes from them. */

import type { Activity, Pack } from './checklist.ts'
import type { Wording } from './exchange.ts'

/** Entered or stated by a source, printed on a paper, in an answer, a call, a briefing, or said by a station. */
export function readableFigures(pack: Pack): ReadonlySet<string> {
  const typed = Object.values(pack.figures.declarations).filter(({ input, stated, given }) => input || stated || given)
  const printed = pack.papers.flatMap(({ lines }) => lines.flatMap((line) => ('figure' in line ? line.figure : [])))
  const said = pack.phases.flatMap(({ activities }) => activities.flatMap(saidIn))
  return new Set([...typed.map(({ name }) => name), ...printed, ...said])
}

function saidIn(activity: Activity): readonly string[] {
  switch (activity.type) {
    case 'flow':
    case 'watch':
      return []
    case 'list':
      return activity.entries.flatMap((entry) =>
        entry.type === 'item' ? entry.responses.flatMap(({ response }) => response.figures) : [],
      )
    case 'briefing':
      return activity.topics.flatMap(({ say }) => say.flatMap(({ figures }) => figures))
    case 'exchange':
      return activity.turns.flatMap(({ calls, opens, elements, closes }) => [
        ...(calls?.figures ?? []),
        ...figuresOf(opens),
        ...elements.flatMap(({ says }) => figuresOf(says)),
        ...figuresOf(closes),
      ])
  }
}

const figuresOf = (wording: Wording | undefined) => (wording ? [...wording.icao.figures, ...wording.faa.figures] : [])
