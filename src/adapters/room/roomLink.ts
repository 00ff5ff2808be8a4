/**
 * The room's server as a page reaches it: a few requests, and the documents over one web socket. Loaded only once somebody
 * goes to a room. What is added while the link is down goes when it is back.
 */

import { HocuspocusProvider, HocuspocusProviderWebsocket } from '@hocuspocus/provider'
import * as Y from 'yjs'
import type { RoomDocuments, RoomEntries, RoomLinkState, RoomServer } from '../../ports.ts'
import { documentName, ENTRIES, type RoomDocument } from '../../room/documents.ts'
import {
  ABOUT_PATH,
  type AboutRooms,
  CLOSE_PATH,
  JOIN_PATH,
  LEAVE_PATH,
  LINK_PATH,
  OPEN_PATH,
  type Ticket,
} from '../../room/http.ts'

/** A link that is cut so soon, with something unsent, so many times in a row: the server takes none of it as it is. */
const SOON_MS = 3_000
const MOST_CUTS = 3
/** Between two tries, ms. */
const TRIES = { delay: 500, minDelay: 500, maxDelay: 5_000 }
/** Shows a link that is dead, and to the server what it may have lost. */
const SYNC_EVERY_MS = 10_000

const UNREACHABLE = { why: 'The room’s server cannot be reached.' }

export function createRoomServer(): RoomServer {
  async function post<T extends object>(path: string, body: object): Promise<T | { readonly why: string }> {
    try {
      const answer = await fetch(path, {
        method: 'POST',
        headers: { 'Content-Type': 'application/json' },
        body: JSON.stringify(body),
      })
      const said: unknown = await answer.json()
      return typeof said === 'object' && said !== null ? (said as T) : UNREACHABLE
    } catch {
      return UNREACHABLE
    }
  }

  return {
    async about() {
      try {
        const answer = await fetch(ABOUT_PATH)
        const said: unknown = answer.ok ? await answer.json() : undefined
        return typeof said === 'object' && said !== null && 'rooms' in said ? (said as AboutRooms) : undefined
      } catch {
        return undefined
      }
    },
    open: (name) => post<Ticket>(OPEN_PATH, { name }),
    join: (asked) => post<Ticket>(JOIN_PATH, asked),
    async leave({ token }) {
      await post(LEAVE_PATH, { token })
    },
    close: ({ token }) => post<{ readonly closed: true }>(CLOSE_PATH, { token }),
    link: ({ token, room }) => linkTo(token, room),
  }
}

function linkTo(token: string, room: string): RoomDocuments {
  const opened = new Map<string, Opened>()
  const listeners = new Set<(state: RoomLinkState) => void>()
  let state: RoomLinkState = 'away'
  let openedAt = 0
  let cuts = 0
  const tell = (next: RoomLinkState) => {
    // A token that was refused stays so.
    if (state === next || state === 'refused') return
    state = next
    for (const listener of listeners) listener(state)
  }
  const { host, protocol } = location
  const websocketProvider = new HocuspocusProviderWebsocket({
    url: `${protocol === 'https:' ? 'wss' : 'ws'}://${host}${LINK_PATH}`,
    ...TRIES,
    onOpen() {
      openedAt = performance.now()
    },
    onClose() {
      const isUnsent = [...opened.values()].some((one) => one.isUnsent())
      cuts = isUnsent && performance.now() - openedAt < SOON_MS ? cuts + 1 : 0
      if (cuts >= MOST_CUTS) {
        cuts = 0
        for (const one of opened.values()) one.anew()
      }
      tell('away')
    },
  })

  function open(document: Omit<RoomDocument, 'room'>): RoomEntries {
    const name = documentName({ room, ...document })
    const there = opened.get(name)
    if (there) return there.entries
    const made = openDocument(name, token, websocketProvider, tell)
    opened.set(name, made)
    return made.entries
  }

  return {
    open,
    state: () => state,
    subscribe(listener) {
      listeners.add(listener)
      return () => listeners.delete(listener)
    },
    close() {
      for (const one of opened.values()) one.close()
      websocketProvider.destroy()
    },
  }
}

interface Opened {
  readonly entries: RoomEntries
  isUnsent(): boolean
  /** Begins with an empty document: what this page added is added again where the server lacks it. */
  anew(): void
  close(): void
}

function openDocument(
  name: string,
  token: string,
  websocketProvider: HocuspocusProviderWebsocket,
  tell: (state: RoomLinkState) => void,
): Opened {
  const own = new Map<string, string>()
  const listeners = new Set<() => void>()
  let present: object | undefined
  let isRead = false
  const mapOf = () => provider.document.getMap<string>(ENTRIES)
  const changed = () => {
    for (const listener of listeners) listener()
  }

  let provider = provide()

  function provide(): HocuspocusProvider {
    const document = new Y.Doc()
    const made = new HocuspocusProvider({
      ...{ name, token, document, websocketProvider, forceSyncInterval: SYNC_EVERY_MS },
      onSynced() {
        isRead = true
        tell('linked')
        flush()
        changed()
      },
      onAuthenticated: () => tell('linked'),
      onAuthenticationFailed: () => tell('refused'),
    })
    document.getMap(ENTRIES).observe(changed)
    made.awareness?.setLocalState(present ?? null)
    made.awareness?.on('change', changed)
    made.attach()
    return made
  }

  /** Only once it is known what the server has: a key is written once. */
  function flush(): void {
    const map = mapOf()
    const missing = [...own].filter(([key]) => !map.has(key))
    if (missing.length === 0) return
    provider.document.transact(() => {
      for (const [key, value] of missing) map.set(key, value)
    })
  }

  return {
    entries: {
      all: () => mapOf(),
      isRead: () => isRead,
      add(key, value) {
        if (own.has(key)) return
        own.set(key, value)
        if (provider.isSynced && !mapOf().has(key)) mapOf().set(key, value)
      },
      subscribe(listener) {
        listeners.add(listener)
        return () => listeners.delete(listener)
      },
      present(what) {
        present = what
        provider.awareness?.setLocalState(what)
      },
      others() {
        const { awareness } = provider
        if (!awareness) return []
        return [...awareness.getStates()].flatMap(([client, one]) => (client === awareness.clientID ? [] : [one]))
      },
    },
    isUnsent: () => provider.hasUnsyncedChanges,
    anew() {
      provider.destroy()
      provider = provide()
    },
    close: () => provider.destroy(),
  }
}
