/** What several processes share, over Redis: nothing lies there longer than it is needed, and Redis may lose all of it. */

import { randomBytes } from 'node:crypto'
import { Redis } from 'ioredis'
import { parsed } from '../../room/entries.ts'
import type { Limit } from './limits.ts'
import { type Bus, createCounts, type News, type Peers } from './peers.ts'

/** Before every key and channel. */
const OURS = 'otherseat:'
const NEWS = 'news'
const ID_LENGTH = 16
/** By then every process has an entry, and knows that its key is taken. */
const CLAIMED_MS = 10_000
/** A process that was killed is linked to nobody after this. */
const LINKED_MS = 15_000
const OPTIONS = {
  lazyConnect: true,
  connectTimeout: 5_000,
  commandTimeout: 10_000,
  maxRetriesPerRequest: 1,
  retryStrategy: (times: number) => Math.min(times * 100, 2_000),
}

/** As `createBucket`. KEYS: the bucket; ARGV: burst, per second, ms now, amount. */
const TAKE = `
  local left, at = unpack(redis.call('HMGET', KEYS[1], 'left', 'at'))
  local burst, rate, now, amount = tonumber(ARGV[1]), tonumber(ARGV[2]), tonumber(ARGV[3]), tonumber(ARGV[4])
  left = math.min(burst, (tonumber(left) or burst) + math.max(0, now - (tonumber(at) or now)) / 1000 * rate)
  local isThere = left >= amount
  if isThere then left = math.min(burst, left - amount) end
  redis.call('HSET', KEYS[1], 'left', tostring(left), 'at', ARGV[3])
  redis.call('PEXPIRE', KEYS[1], math.ceil(burst / rate * 1000))
  return isThere and 1 or 0`
/** KEYS: one for each entry; ARGV: ms to keep them, then the entries' ids. */
const CLAIM = `
  for at, key in ipairs(KEYS) do
    local by = redis.call('GET', key)
    if by and by ~= ARGV[at + 1] then return 0 end
  end
  for at, key in ipairs(KEYS) do redis.call('SET', key, ARGV[at + 1], 'PX', ARGV[1]) end
  return 1`
const TIME = "local time = redis.call('TIME') local now = time[1] * 1000 + math.floor(time[2] / 1000)"
/** KEYS: the room's processes; ARGV: this one, ms until it is not counted any more. */
const LINK = `${TIME}
  redis.call('HSET', KEYS[1], ARGV[1], string.format('%d', now + ARGV[2]))
  redis.call('PEXPIRE', KEYS[1], ARGV[2])`
const IS_LINKED = `${TIME}
  for _, till in ipairs(redis.call('HVALS', KEYS[1])) do if tonumber(till) > now then return 1 end end
  return 0`

export interface RedisParts {
  /** redis://:PASSWORD@HOST:PORT, or rediss:// with TLS. */
  readonly url: string
  readonly now: () => number
  /** Told once when the connection breaks. */
  readonly failed: (error: Error) => void
}

/** Throws where no connection is made. */
export async function openRedis({ url, now, failed }: RedisParts): Promise<Peers> {
  const own = randomBytes(ID_LENGTH)
  const ownName = own.toString('base64url')
  const redis = new Redis(url, OPTIONS)
  const incoming = new Redis(url, OPTIONS)
  const listeners = new Map<string, (data: Uint8Array) => void>()
  const counts = createCounts()
  let told: (news: News) => void = () => undefined
  let missed: () => void = () => undefined
  let isAway = false

  const away = (error: Error) => {
    if (isAway) return
    isAway = true
    failed(error)
  }
  const script = (lua: string, keys: readonly string[], ...values: (string | number)[]) =>
    redis.eval(lua, keys.length, ...keys.map((key) => `${OURS}${key}`), ...values)

  const bus: Bus = {
    async publish(channel, data) {
      await redis.publish(`${OURS}${channel}`, Buffer.concat([own, data]))
    },
    async subscribe(channel, hear) {
      listeners.set(`${OURS}${channel}`, hear)
      await incoming.subscribe(`${OURS}${channel}`)
    },
    async unsubscribe(channel) {
      listeners.delete(`${OURS}${channel}`)
      await incoming.unsubscribe(`${OURS}${channel}`)
    },
  }

  const link = (room: string) => void script(LINK, [`linked:${room}`], ownName, LINKED_MS).catch(away)
  const beat = setInterval(() => counts.rooms().forEach(link), LINKED_MS / 3)
  beat.unref()

  redis.on('error', away)
  incoming.on('error', away)
  incoming.on('messageBuffer', (channel: Buffer, data: Buffer) => {
    if (!data.subarray(0, ID_LENGTH).equals(own)) listeners.get(channel.toString())?.(data.subarray(ID_LENGTH))
  })
  try {
    await Promise.all([redis.connect(), incoming.connect()])
    await bus.subscribe(NEWS, (data) => {
      const news = newsIn(data)
      if (news) told(news)
    })
  } catch (error) {
    clearInterval(beat)
    redis.disconnect()
    incoming.disconnect()
    throw error
  }
  const back = async () => {
    isAway = false
    counts.rooms().forEach(link)
    // Answered once the channels of before are heard again: it stands behind them.
    await incoming.subscribe(`${OURS}${NEWS}`)
    missed()
  }
  for (const connection of [redis, incoming]) connection.on('ready', () => void back().catch(away))

  return {
    bus,
    limit: (name, { burst, perSecond }: Limit) => {
      const take = (of: string, amount: number) =>
        script(TAKE, [`limit:${name}:${of}`], burst, perSecond, now(), amount).then((taken) => taken === 1)
      return {
        take: (of) => take(of, 1),
        giveBack: async (of) => void (await take(of, -1)),
      }
    },
    linked(room) {
      counts.add(room)
      link(room)
    },
    unlinked(room) {
      if (counts.take(room)) void redis.hdel(`${OURS}linked:${room}`, ownName).catch(away)
    },
    isLinked: async (room) => (await script(IS_LINKED, [`linked:${room}`])) === 1,
    async claim(document, entries) {
      const claimed = [...entries()]
      if (claimed.length === 0) return true
      const keys = claimed.map(([key]) => `claim:${document}:${key}`)
      return (await script(CLAIM, keys, CLAIMED_MS, ...claimed.map(([, id]) => id))) === 1
    },
    tell: (news) => void bus.publish(NEWS, Buffer.from(JSON.stringify(news))).catch(away),
    hear(toTell, toMiss) {
      told = toTell
      missed = toMiss
    },
    async close() {
      clearInterval(beat)
      isAway = true
      for (const room of counts.rooms()) await redis.hdel(`${OURS}linked:${room}`, ownName).catch(away)
      redis.disconnect()
      incoming.disconnect()
    },
  }
}

/** Undefined where it is none. */
function newsIn(data: Uint8Array): News | undefined {
  const news = parsed(Buffer.from(data).toString()) as Partial<Record<'closed' | 'seats', unknown>> | null | undefined
  if (typeof news?.closed === 'string') return { closed: news.closed }
  return typeof news?.seats === 'string' ? { seats: news.seats } : undefined
}
