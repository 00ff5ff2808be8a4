/** `npm run room` as it is started by people, on the site that is tested: a process that can be killed. */

import { type ChildProcess, spawn } from 'node:child_process'
import { mkdtemp, rm } from 'node:fs/promises'
import { createServer } from 'node:net'
import { tmpdir } from 'node:os'
import { join, resolve } from 'node:path'
import { until } from './until.ts'

export interface RoomProcess {
  readonly address: string
  /** As it was printed. */
  code(): string
  lines(): readonly string[]
  kill(): Promise<void>
  start(): Promise<void>
  close(): Promise<void>
}

/** `storage`: options that say where it stores; left out: a file of its own. */
export async function startRoom(site: string, storage?: readonly string[]): Promise<RoomProcess> {
  const folder = await mkdtemp(join(tmpdir(), 'otherseat-room-'))
  const port = await freePort()
  let child: ChildProcess | undefined
  let output = ''

  async function start(): Promise<void> {
    output = ''
    const args = ['--port', String(port), '--dir', site, ...(storage ?? ['--file', join(folder, 'room.sqlite')])]
    child = spawn(process.execPath, ['--import', 'tsx', resolve('src/build/room/start.ts'), ...args])
    for (const stream of [child.stdout, child.stderr]) {
      stream?.on('data', (data) => {
        output += String(data)
      })
    }
    await until(() => /with the code/.test(output), 60_000)
  }

  async function kill(): Promise<void> {
    const ended = new Promise((done) => child?.once('exit', done))
    child?.kill('SIGKILL')
    await ended
  }

  await start()
  return {
    start,
    kill,
    address: `http://localhost:${port}/`,
    code: () => /with the code (\w{3} \w{3})/.exec(output)?.[1] ?? '',
    lines: () => output.split('\n'),
    async close() {
      await kill()
      await rm(folder, { recursive: true, force: true })
    },
  }
}

async function freePort(): Promise<number> {
  const server = createServer()
  await new Promise<void>((done) => server.listen(0, done))
  const address = server.address()
  await new Promise((done) => server.close(done))
  return typeof address === 'object' && address ? address.port : 0
}
