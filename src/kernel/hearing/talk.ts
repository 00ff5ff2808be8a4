/**
 * Calls, read-backs and topics as they may be spoken: the words before and after a value with its shape, and phrases
 * with their contraries. Made from the response notation and kinds; nothing here holds a value (law 2).
 */

import type { Specs } from '../kinds/kind.ts'
import type { Briefing, Exchange } from '../pack/exchange.ts'
import type { Slot } from '../response/path.ts'
import type { Response } from '../response/response.ts'
import type { Talk, TalkPart } from './hearable.ts'
import { type Answered, answersOf, phrase, unique } from './phrases.ts'

/** What a pilot says to something that need not be read back. */
export const ACKNOWLEDGEMENTS = ['roger', 'wilco', 'copied', 'received', 'thank you']

/** Before the name of an element: "confirm squawk". */
const PARTS_ASKED = ['confirm', 'say again all after', 'say again all before']

/** What may be said in an exchange or a briefing; `now` are the responses whose values may come at the moment. */
export function talkOf(activity: Exchange | Briefing, now: readonly Response[], specs: Specs): Talk {
  const { said, others } = activity.type === 'exchange' ? inExchange(activity) : inBriefing(activity)
  const { phrases, words, besideValues } = answersOf(said, [])
  return {
    parts: partsOf(now, specs),
    phrases,
    words: unique([...words, ...besideValues]),
    others: unique(others.map(phrase)),
  }
}

interface Spoken {
  readonly said: readonly Answered[]
  readonly others: readonly string[]
}

function inExchange({ turns }: Exchange): Spoken {
  const elements = turns.flatMap((turn) => turn.elements)
  return {
    said: [
      ...turns.flatMap(({ label, calls, states }) => (calls === undefined ? [] : [answered(label, [calls], states)])),
      ...elements.flatMap(({ label, readBack }) =>
        readBack === undefined ? [] : [answered(label, [...new Set([readBack.icao, readBack.faa])])],
      ),
    ],
    others: [
      ...ACKNOWLEDGEMENTS,
      ...elements.flatMap(({ label, alsoCalled }) => [label, ...alsoCalled].map((name) => `say again ${name}`)),
      ...elements.flatMap(({ label }) => PARTS_ASKED.map((words) => `${words} ${label}`)),
    ],
  }
}

const inBriefing = ({ name, topics, ends }: Briefing): Spoken => ({
  said: topics.map(({ label, say }) => answered(label, say)),
  others: [name, ...ends.wordings],
})

const answered = (challenge: string, responses: readonly Response[], states?: Answered['states']): Answered => ({
  challenge,
  responses: responses.map((response) => ({ response })),
  ...(states && { states }),
})

/** One part for each figure of some responses; their words without figures are in the vocabulary. */
function partsOf(responses: readonly Response[], specs: Specs): TalkPart[] {
  const parts = responses.flatMap(({ paths }) => paths.flatMap((path) => partsOfPath(path, specs)))
  const known = new Map(parts.map((part) => [JSON.stringify(part), part]))
  return [...known.values()]
}

function partsOfPath(path: readonly Slot[], specs: Specs): TalkPart[] {
  return path.flatMap((slot, index): TalkPart[] => {
    const spec = slot.type === 'figure' && Object.hasOwn(specs, slot.figure) ? specs[slot.figure] : undefined
    if (slot.type !== 'figure' || !spec) return []
    const lead = path[index - 1]
    const labels = slot.labels.map(({ text }) => text)
    // "Cleared to": words of two brackets in a row are said as one phrase.
    const leads = lead?.type === 'word' ? lead.wordings.map(({ text }) => text) : []
    const before = [...labels, ...leads.flatMap((text) => [text, ...labels.map((label) => `${text} ${label}`)])]
    const next = path[index + 1]
    const after = [
      ...slot.units.map(({ text }) => text),
      ...(next?.type === 'word' && !next.required ? next.wordings.map(({ text }) => text) : []),
    ]
    return [{ before: [...new Set(before)].sort(), shape: spec, after: [...new Set(after)].sort() }]
  })
}
