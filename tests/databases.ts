/** Finds Redis and PostgreSQL, with which rooms over several processes are tested. */

import { execFileSync } from 'node:child_process'
import { existsSync, readdirSync } from 'node:fs'
import { delimiter, join } from 'node:path'

export interface Databases {
  readonly redisServer: string
  /** Folder of `initdb` and `postgres`. */
  readonly postgres: string
}

/** Of Debian, which has them on no path. */
const DEBIAN = '/usr/lib/postgresql'
const WHY = 'no Redis or PostgreSQL found: install them (on Debian: apt-get install redis-server postgresql)'

function findDatabases(): Databases | undefined {
  const path = (process.env.PATH ?? '').split(delimiter)
  const debian = existsSync(DEBIAN) ? readdirSync(DEBIAN).map((version) => join(DEBIAN, version, 'bin')) : []
  const redisServer = path.map((folder) => join(folder, 'redis-server')).find(existsSync)
  const postgres = [...debian, ...path].find((folder) =>
    ['initdb', 'postgres'].every((name) => existsSync(join(folder, name))),
  )
  return redisServer !== undefined && postgres !== undefined ? { redisServer, postgres } : undefined
}

/** Throws one line on what to install. */
export function databases(): Databases {
  const found = findDatabases()
  if (!found) throw new Error(WHY)
  return found
}

/** On Debian as root they are installed; where that fails, the tests that need them say what is missing. */
export function installDatabases(): void {
  if (findDatabases() || !existsSync('/etc/debian_version') || process.getuid?.() !== 0) return
  const quiet = { stdio: ['ignore', 'ignore', 'inherit'] as ['ignore', 'ignore', 'inherit'] }
  try {
    execFileSync('apt-get', ['update', '-qq'], quiet)
    execFileSync('apt-get', ['install', '-y', '-qq', '--no-install-recommends', 'redis-server', 'postgresql'], quiet)
  } catch {
    process.stdout.write('apt-get could not install redis-server and postgresql\n')
  }
}
