/** A run as rows, one a try at an item or a read-back, for tables and spreadsheets. */

import type { Pack } from '../../pack/checklist.ts'
import { findItem } from '../../pack/place.ts'
import type { Evidence, RunEvent } from '../core/events.ts'
import { onsetOf } from '../core/onset.ts'
import { findTurn } from '../talk/talk.ts'
import { momentsOf } from './moments.ts'

export interface DebriefRow {
  /** Milliseconds from the start of the run. */
  readonly t: number
  /** Of the list, or the exchange. */
  readonly list: string
  /** The challenge, or what is called or read back. */
  readonly item: string
  /** As heard or typed; empty for a key. */
  readonly heard: string
  /** The verdict, "byKey" or "void". */
  readonly verdict: string
  /** Milliseconds from the event after which it was asked for to the first word; before the challenge's end less than nothing. */
  readonly waitMs: number
}

/**
 * In the order of the log, which begins with `runStarted`; of a moment done again what came after the events of the other run.
 * Throws where it names what the pack does not have.
 */
export function debriefRows(pack: Pack, events: readonly RunEvent[]): DebriefRow[] {
  let askedAt = 0
  return momentsOf(pack, events).own.flatMap(({ event, before, after }) => {
    const since = askedAt
    if (after.listenId !== before.listenId) askedAt = event.t
    const row = rowOf(pack, event)
    if (!row) return []
    const { evidence, ...rest } = row
    return [{ t: event.t, ...rest, heard: evidence.text, waitMs: onsetOf(after, { t: event.t, evidence }) - since }]
  })
}

type Told = Pick<DebriefRow, 'list' | 'item' | 'verdict'> & { readonly evidence: Evidence }

function rowOf(pack: Pack, event: RunEvent): Told | undefined {
  switch (event.type) {
    case 'answered':
      return { ...placeOf(pack, event.item), verdict: event.judgement.verdict, evidence: event.evidence }
    case 'confirmedByKey':
      return { ...placeOf(pack, event.item), verdict: 'byKey', evidence: event.evidence }
    case 'voided':
      return { ...placeOf(pack, event.item), verdict: 'void', evidence: event.evidence }
    case 'transmitted': {
      const { exchange, turn } = findTurn(pack, event.turn)
      return { list: exchange.name, item: turn.label, verdict: event.judgement.verdict, evidence: event.evidence }
    }
    default:
      return undefined
  }
}

function placeOf(pack: Pack, id: string): Pick<DebriefRow, 'list' | 'item'> {
  const { item, list } = findItem(pack, id)
  return { list: list.name, item: item.challenge }
}
