/**
 * The parts of calls, read-backs and topics as they may be spoken: the words before and behind a value, and its shape.
 * Made from the response notation and kinds; a part holds no value (law 2).
 */

import type { Specs } from '../kinds/kind.ts'
import { parseResponse } from '../response/parse.ts'
import { pathsOf, type Slot } from '../response/path.ts'
import type { TalkPart } from './hearable.ts'

/** One part for each figure of some responses; their words without figures are in the vocabulary. */
export function talkPartsOf(responses: readonly string[], specs: Specs): TalkPart[] {
  const parts = responses.flatMap((response) => {
    const parsed = parseResponse(response)
    return 'response' in parsed ? pathsOf(parsed.response).flatMap((path) => partsOfPath(path, specs)) : []
  })
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
    const behind = [
      ...slot.units.map(({ text }) => text),
      ...(next?.type === 'word' && !next.required ? next.wordings.map(({ text }) => text) : []),
    ]
    return [{ before: [...new Set(before)].sort(), shape: spec, behind: [...new Set(behind)].sort() }]
  })
}
