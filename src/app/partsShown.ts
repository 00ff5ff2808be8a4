/** The parts of an answer as the screen may name them while a run is on: never by the wording that would be right. */

import type { Part } from '../kernel/response/model.ts'
import { parseResponse, wordsOf } from '../kernel/response/parse.ts'
import type { Pack } from '../kernel/run/checklist.ts'
import { findItem, responseOf } from '../kernel/run/place.ts'
import type { RunState } from '../kernel/run/state.ts'

export interface ShownPart {
  readonly label: string
  readonly state: Part['state']
  /** The words taken for it, where there were any. */
  readonly heard: string | undefined
  /** "direction", where the part was begun and not finished. */
  readonly lacks?: NonNullable<Part['lacks']>
}

/** Parts of the last answer; empty where there was none. */
export function partsShown(pack: Pack, run: RunState): ShownPart[] {
  const { last } = run
  if (!last) return []
  const { item } = findItem(pack, last.item)
  const parsed = parseResponse(responseOf(item, run.situation).text)
  const wordings = 'response' in parsed ? wordsOf(parsed.response) : []
  return last.judgement.parts.map(({ name, kind, state, heard, lacks }) => ({
    label: kind === 'figure' ? (pack.figures.declarations[name]?.label ?? name) : wordLabel(name, wordings, state),
    state,
    heard,
    ...(lacks && { lacks }),
  }))
}

/** A tag names its part; a part without one has only its own wording, which is told once it was said. */
function wordLabel(name: string, wordings: readonly string[], state: Part['state']): string {
  if (!wordings.includes(name) || state === 'ok') return name
  return state === 'missing' ? 'the rest' : 'the state'
}
