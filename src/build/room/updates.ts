/**
 * What a client wants to write, looked at before any of it is applied: a document only grows, by whole entries at keys that
 * are free, each of the right shape. Whoever breaks that is cut off; nothing of such an update is kept.
 */

import * as Y from 'yjs'
import { type DocumentKind, ENTRIES } from '../../room/documents.ts'
import { wrongEntry } from '../../room/entries.ts'

/** Bytes of one document, all of it. */
const LARGEST: Readonly<Record<DocumentKind, number>> = {
  log: 24_000_000,
  desk: 2_000_000,
  orders: 2_000_000,
  seats: 100_000,
}
const MOST_ENTRIES = 60_000

/** Something before it is not there yet. */
export const GAP = 'an update has a gap'

/** An update of somebody who may write the document. */
export interface Written {
  readonly document: Y.Doc
  readonly kind: DocumentKind
  /** Bytes that the document has now. */
  readonly size: number
  readonly update: Uint8Array
  /** What may stand in it; left out: what a client may write. */
  readonly wrong?: typeof wrongEntry
}

/** Why this may not be applied to the document; undefined where it may. */
export function wrongUpdate({ document, kind, size, update, wrong = wrongEntry }: Written): string | undefined {
  if (size + update.length > LARGEST[kind]) return 'a document is full'
  let decoded: ReturnType<typeof Y.decodeUpdate>
  try {
    decoded = Y.decodeUpdate(update)
  } catch {
    return 'an update cannot be read'
  }
  if (decoded.ds.clients.size > 0) return 'an entry would be deleted'
  const entries = document.getMap(ENTRIES)
  if (entries.size + decoded.structs.length > MOST_ENTRIES) return 'a document has too many entries'
  const added = new Set<string>()
  /** Of each client, how far its entries go without a gap: what lies behind one would wait in memory. */
  const reached = new Map<number, number>()
  for (const struct of decoded.structs) {
    const { client, clock } = struct.id
    const known = Y.getState(document.store, client)
    const next = reached.get(client) ?? known
    if (clock > next) return GAP
    reached.set(client, Math.max(next, clock + struct.length))
    // Sent once more, as after a break.
    if (clock + struct.length <= known) continue
    const why = wrongStruct(
      struct,
      (key) => entries.has(key) || added.has(key),
      (key, value) => wrong(kind, key, value),
    )
    if (why !== undefined) return why
    added.add(String((struct as Y.Item).parentSub))
  }
  return undefined
}

/** The keys of new entries -> the ids of these; empty where the update cannot be read. */
export function newEntries(document: Y.Doc | undefined, update: Uint8Array): ReadonlyMap<string, string> {
  try {
    const items = Y.decodeUpdate(update).structs.filter((struct) => struct instanceof Y.Item)
    const added = items.filter(({ id }) => !document || id.clock >= Y.getState(document.store, id.client))
    return new Map(added.map(({ id, parentSub }) => [String(parentSub), `${id.client}:${id.clock}`]))
  } catch {
    return new Map()
  }
}

function wrongStruct(
  struct: Y.Item | Y.AbstractStruct,
  isThere: (key: string) => boolean,
  wrongValue: (key: string, value: string) => string | undefined,
): string | undefined {
  if (!(struct instanceof Y.Item)) return 'an update is no entry'
  const { parent, parentSub, origin, rightOrigin, content, length } = struct
  if (origin || rightOrigin) return 'an entry would be written over'
  if ((parent as unknown) !== ENTRIES || parentSub === null || length !== 1) return 'an update is no entry'
  if (isThere(parentSub)) return 'an entry would be written over'
  const [value] = content instanceof Y.ContentAny ? content.arr : []
  return typeof value === 'string' ? wrongValue(parentSub, value) : 'an entry is no text'
}
