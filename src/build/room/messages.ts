/** What a client's messages to a document say, looked at before Hocuspocus handles them. */

import { IncomingMessage, MessageType } from '@hocuspocus/server'
import * as Y from 'yjs'
import type { DocumentKind } from '../../room/documents.ts'
import { wrongUpdate } from './updates.ts'

/** Of y-protocols/sync: what one has; what the other lacks, as the answer. */
export const STEP_ONE = 0
export const STEP_TWO = 1

/** Of a message of y-protocols/sync; undefined where it is none, or cannot be read. */
export function syncIn(data: Uint8Array): { readonly step: number; readonly payload: Uint8Array } | undefined {
  try {
    const message = new IncomingMessage(data)
    message.readVarString()
    const type = message.readVarUint()
    if (type !== MessageType.Sync && type !== MessageType.SyncReply) return undefined
    return { step: message.readVarUint(), payload: message.readVarUint8Array() }
  } catch {
    return undefined
  }
}

/** Why a message may not be handled. */
export function wrongMessage(
  data: Uint8Array,
  document: Y.Doc,
  kind: DocumentKind,
  isReadOnly: boolean,
  size: number,
): string | undefined {
  try {
    const message = new IncomingMessage(data)
    message.readVarString()
    const type = message.readVarUint()
    if (type !== MessageType.Sync && type !== MessageType.SyncReply) return undefined
    const step = message.readVarUint()
    const payload = message.readVarUint8Array()
    if (step === STEP_ONE) {
      Y.decodeStateVector(payload)
      return undefined
    }
    if (!isReadOnly) return wrongUpdate({ document, kind, size, update: payload })
    const { structs, ds } = Y.decodeUpdate(payload)
    const isEmpty = structs.every(({ id, length }) => id.clock + length <= Y.getState(document.store, id.client))
    return isEmpty && ds.clients.size === 0 ? undefined : `writes to the ${kind}`
  } catch {
    return 'a message cannot be read'
  }
}
