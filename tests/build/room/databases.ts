/** A Redis and a PostgreSQL of a test's own, which keep nothing. */

import { type ChildProcess, execFileSync, spawn } from 'node:child_process'
import { chownSync, mkdtempSync, rmSync } from 'node:fs'
import { createServer } from 'node:net'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { Redis } from 'ioredis'
import pg from 'pg'
import { until } from '../../browser/until.ts'
import { databases } from '../../databases.ts'

export interface OwnDatabases {
  readonly redis: string
  readonly postgres: string
  /** An empty database, and nothing in Redis. */
  fresh(): Promise<{ readonly redis: string; readonly postgres: string }>
  /** As PostgreSQL's administrator. */
  query(sql: string): Promise<void>
  close(): Promise<void>
}

/** Throws one line where they are not installed. */
export async function startDatabases(): Promise<OwnDatabases> {
  const { redisServer, postgres: bin } = databases()
  const dir = mkdtempSync(join(tmpdir(), 'otherseat-databases-'))
  // PostgreSQL refuses to run as root.
  const by: { uid?: number; gid?: number } = process.getuid?.() === 0 ? { uid: idOf('-u'), gid: idOf('-g') } : {}
  if (by.uid !== undefined && by.gid !== undefined) chownSync(dir, by.uid, by.gid)
  const data = join(dir, 'data')
  execFileSync(join(bin, 'initdb'), ['-D', data, '-U', 'otherseat', '-A', 'trust', '--no-sync', '-E', 'UTF8'], {
    ...{ ...by, cwd: dir, stdio: 'ignore' },
  })
  const [redisPort, postgresPort] = [await freePort(), await freePort()]
  const stdio = 'ignore'
  const children: ChildProcess[] = [
    spawn(redisServer, ['--port', String(redisPort), '--bind', '127.0.0.1', '--save', '', '--dir', dir], { stdio }),
    spawn(
      join(bin, 'postgres'),
      ['-D', data, '-h', '127.0.0.1', '-p', String(postgresPort), '-k', '', '-c', 'fsync=off'],
      { ...by, cwd: dir, stdio },
    ),
  ]
  const ended = children.map((child) => new Promise((done) => child.once('exit', done)))
  const redis = `redis://127.0.0.1:${redisPort}`
  const server = `postgres://otherseat@127.0.0.1:${postgresPort}`
  const query = async (sql: string) => {
    const client = new pg.Client({ connectionString: `${server}/postgres` })
    await client.connect()
    await client.query(sql).finally(() => client.end())
  }
  const asked = new Redis(redis)
  asked.on('error', () => undefined)
  await until(
    () =>
      query('SELECT 1').then(
        () => true,
        () => false,
      ),
    20_000,
  )
  await asked.ping()
  let made = 0
  const fresh = async () => {
    made += 1
    await query(`CREATE DATABASE rooms${made}`)
    await asked.flushall()
    return { redis, postgres: `${server}/rooms${made}` }
  }
  const { postgres } = await fresh()
  return {
    ...{ redis, postgres, fresh, query },
    async close() {
      asked.disconnect()
      for (const child of children) child.kill('SIGINT')
      await Promise.all(ended)
      rmSync(dir, { recursive: true, force: true })
    },
  }
}

function idOf(which: '-u' | '-g'): number {
  for (const name of ['postgres', 'nobody'])
    try {
      return Number(execFileSync('id', [which, name], { stdio: ['ignore', 'pipe', 'ignore'] }))
    } catch {}
  throw new Error('no user "postgres" or "nobody": PostgreSQL does not run as root')
}

function freePort(): Promise<number> {
  return new Promise((resolve) => {
    const server = createServer().listen(0, '127.0.0.1', () => {
      const address = server.address()
      server.close(() => resolve(typeof address === 'object' && address ? address.port : 0))
    })
  })
}
