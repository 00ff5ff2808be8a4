/**
 * A document that several processes have open, the same in all of them: each tells the others what it has taken from its own
 * clients. What comes in is looked at as what a client sends: nothing that another process or Redis sends is trusted.
 */

import type { Document, Extension } from '@hocuspocus/server'
import { applyAwarenessUpdate, encodeAwarenessUpdate } from 'y-protocols/awareness'
import * as Y from 'yjs'
import type { Bus } from './peers.ts'
import { GAP } from './updates.ts'

/** By whom a change of a document was made that came from another process. */
export const PEER = 'another process'

/** First byte of a message: what the sender has (a state vector), something new, the states of ears. */
const HAS = 0
const NEW = 1
const PRESENT = 2
/** Bytes of the states of all of a trainee's pages. */
const LONGEST_PRESENCE = 10_000

export interface SharingParts {
  readonly bus: Bus
  /** Why this may not be applied. */
  readonly wrong: (name: string, document: Y.Doc, update: Uint8Array) => string | undefined
  readonly isPresenceOf: (name: string) => boolean
  /** One line for each message that is not taken. */
  readonly refused: (why: string) => void
  readonly failed: (error: unknown) => void
}

export interface Sharing {
  readonly extension: Extension
  /** After a break: tells what there is, and asks for what is missing. */
  again(): void
}

export function shareDocuments({ bus, wrong, isPresenceOf, refused, failed }: SharingParts): Sharing {
  const open = new Map<string, Document>()
  const channelOf = (name: string) => `document:${name}`
  const send = (name: string, type: number, body: Uint8Array) =>
    void bus.publish(channelOf(name), Buffer.concat([Uint8Array.of(type), body])).catch(failed)
  const sendHas = (document: Document) => send(document.name, HAS, Y.encodeStateVector(document))
  const sendPresent = ({ name, awareness }: Document, clients: number[]) => {
    if (clients.length > 0 && isPresenceOf(name)) send(name, PRESENT, encodeAwarenessUpdate(awareness, clients))
  }

  function answer(document: Document, vector: Uint8Array): void {
    const theirs = Y.decodeStateVector(vector)
    const own = Y.decodeStateVector(Y.encodeStateVector(document))
    if (isAhead(own, theirs)) send(document.name, NEW, Y.encodeStateAsUpdate(document, vector))
    if (isAhead(theirs, own)) sendHas(document)
    sendPresent(document, [...document.awareness.getStates().keys()])
  }

  function take(document: Document, update: Uint8Array): void {
    const why = wrong(document.name, document, update)
    if (why === undefined) Y.applyUpdate(document, update, PEER)
    // What comes before it is still under way, or was lost.
    else if (why === GAP) sendHas(document)
    else refused(`${document.name}: ${why}`)
  }

  function received(name: string, data: Uint8Array): void {
    const document = open.get(name)
    if (!document || document.isDestroyed) return
    const body = data.subarray(1)
    try {
      if (data[0] === HAS) answer(document, body)
      else if (data[0] === NEW) take(document, body)
      else if (data[0] === PRESENT && isPresenceOf(name) && body.length <= LONGEST_PRESENCE)
        applyAwarenessUpdate(document.awareness, body, PEER)
      else refused(`${name}: a message of type ${data[0]}`)
    } catch {
      refused(`${name}: a message cannot be read`)
    }
  }

  return {
    extension: {
      async afterLoadDocument({ documentName: name, document }) {
        open.set(name, document)
        document.awareness.on('update', (changed: Record<'added' | 'updated' | 'removed', number[]>, by: unknown) => {
          if (by !== PEER) sendPresent(document, [...changed.added, ...changed.updated, ...changed.removed])
        })
        try {
          await bus.subscribe(channelOf(name), (data) => received(name, data))
        } catch (error) {
          open.delete(name)
          failed(error)
          // Without a message Hocuspocus prints nothing.
          throw { reason: 'permission-denied' }
        }
        sendHas(document)
      },
      async onChange({ documentName: name, update, transactionOrigin }) {
        if (transactionOrigin !== PEER) send(name, NEW, update)
      },
      async afterUnloadDocument({ documentName: name }) {
        // It may have been opened again meanwhile.
        if (!open.get(name)?.isDestroyed) return
        open.delete(name)
        // Not waited for: what else is to be done when a document is closed has to be done before it is opened again.
        void bus.unsubscribe(channelOf(name)).catch(failed)
      },
    },
    again: () => open.forEach(sendHas),
  }
}

const isAhead = (one: ReadonlyMap<number, number>, other: ReadonlyMap<number, number>) =>
  [...one].some(([client, clock]) => clock > (other.get(client) ?? 0))
