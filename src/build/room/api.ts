/** Opening, joining, leaving and closing a room: a few JSON answers beside the app's files. */

import type { IncomingMessage, ServerResponse } from 'node:http'
import { ROOM_ROLES, type RoomRole } from '../../room/documents.ts'
import {
  ABOUT_PATH,
  type AboutRooms,
  CLOSE_PATH,
  JOIN_PATH,
  LEAVE_PATH,
  MOST_NAME,
  OPEN_PATH,
} from '../../room/http.ts'
import { bucketsBy, type Limit } from './limits.ts'
import { isRefusal, type Refusal, type Rooms } from './rooms.ts'

/** Bytes of a request. */
const LONGEST = 2_000
const REQUESTS: Limit = { burst: 60, perSecond: 2 }

export interface ApiParts {
  readonly rooms: Rooms
  readonly now: () => number
  readonly addresses: () => readonly string[]
  /** Whether a request comes from a page of this server. */
  readonly isOwnPage: (request: IncomingMessage) => boolean
  /** The room is gone. */
  readonly closed: (room: string) => void
  readonly log: (line: string) => void
}

export interface Api {
  /** False where the path is none of these. */
  handle(path: string, request: IncomingMessage, response: ServerResponse, address: string): boolean
}

type Asked = Readonly<Record<string, unknown>>

export function createApi({ rooms, now, addresses, isOwnPage, closed, log }: ApiParts): Api {
  const requests = bucketsBy(REQUESTS, now)

  const posts: Readonly<Record<string, (asked: Asked, address: string) => Promise<object>>> = {
    [OPEN_PATH]: ({ name }, address) => rooms.open(address, nameIn(name)),
    async [JOIN_PATH]({ code, role, name }, address) {
      if (typeof code !== 'string' || !ROOM_ROLES.includes(role as RoomRole))
        return { status: 400, why: 'A code and a role are needed.' } satisfies Refusal
      return rooms.join(address, { code, role: role as RoomRole, name: nameIn(name) })
    },
    [LEAVE_PATH]: async ({ token }) => ({
      left: typeof token === 'string' && (await rooms.leave(token)) !== undefined,
    }),
    async [CLOSE_PATH]({ token }) {
      const seat = await rooms.close(typeof token === 'string' ? token : '')
      if ('why' in seat) return seat
      closed(seat.room)
      return { closed: true }
    },
  }

  async function answer(path: string, request: IncomingMessage, address: string): Promise<object | Refusal> {
    if (!requests.of(address).take()) return { status: 429, why: 'Too many requests: wait a moment.' }
    if (path === ABOUT_PATH && request.method === 'GET')
      return { rooms: true, addresses: addresses() } satisfies AboutRooms
    const post = posts[path]
    if (!post || request.method !== 'POST') return { status: 404, why: 'There is nothing here.' }
    if (!isOwnPage(request)) return { status: 403, why: 'Only a page of this server may ask.' }
    const asked = await bodyOf(request)
    return asked ? post(asked, address) : { status: 400, why: 'A short JSON object is needed.' }
  }

  return {
    handle(path, request, response, address) {
      if (path !== ABOUT_PATH && !Object.hasOwn(posts, path)) return false
      answer(path, request, address).then(
        (said) => {
          const isRefused = isRefusal(said)
          if (isRefused) log(`refused ${address}: ${path}: ${said.why}`)
          response.writeHead(isRefused ? said.status : 200, {
            'Content-Type': 'application/json',
            'Cache-Control': 'no-store',
            // What was sent too much is not read.
            ...(isRefused && { Connection: 'close' }),
          })
          response.end(JSON.stringify(isRefused ? { why: said.why } : said))
        },
        (error) => {
          log(`failed ${address}: ${path}: ${error instanceof Error ? error.message : String(error)}`)
          response.destroy()
        },
      )
      return true
    },
  }
}

/** One line of letters, as short as a name. */
function nameIn(name: unknown): string {
  if (typeof name !== 'string') return ''
  return name
    .replace(/[\p{C}\s]+/gu, ' ')
    .trim()
    .slice(0, MOST_NAME)
}

/** Undefined where it is too long or no object. */
async function bodyOf(request: IncomingMessage): Promise<Asked | undefined> {
  let body = ''
  for await (const chunk of request) {
    body += chunk
    if (body.length > LONGEST) return undefined
  }
  try {
    const asked: unknown = JSON.parse(body)
    return typeof asked === 'object' && asked !== null ? (asked as Asked) : undefined
  } catch {
    return undefined
  }
}
