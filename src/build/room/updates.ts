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

/** Why this may not be applied to the document; undefined where it may. `size`: bytes that it has now. */
export function wrongUpdate(document: Y.Doc, kind: DocumentKind, size: number, update: Uint8Array): string | undefined {
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
    if (clock > next) return 'an update has a gap'
    reached.set(client, Math.max(next, clock + struct.length))
    // Sent once more, as after a break.
    if (clock + struct.length <= known) continue
    const wrong = wrongStruct(kind, struct, (key) => entries.has(key) || added.has(key))
    if (wrong !== undefined) return wrong
    added.add(String((struct as Y.Item).parentSub))
  }
  return undefined
}

function wrongStruct(
  kind: DocumentKind,
  struct: Y.Item | Y.AbstractStruct,
  isThere: (key: string) => boolean,
): string | undefined {
  if (!(struct instanceof Y.Item)) return 'an update is no entry'
  const { parent, parentSub, origin, rightOrigin, content, length } = struct
  if (origin || rightOrigin) return 'an entry would be written over'
  if ((parent as unknown) !== ENTRIES || parentSub === null || length !== 1) return 'an update is no entry'
  if (isThere(parentSub)) return 'an entry would be written over'
  const [value] = content instanceof Y.ContentAny ? content.arr : []
  return typeof value === 'string' ? wrongEntry(kind, parentSub, value) : 'an entry is no text'
}
