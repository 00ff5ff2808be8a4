/** The server of rooms as a process of its own: prints its address, and on each line that comes in what it takes by then. */

import { mkdtempSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { createInterface } from 'node:readline'
import { serveRoom } from '../../src/build/room/server.ts'

const [, , storage] = process.argv
const dir = mkdtempSync(join(tmpdir(), 'otherseat-rooms-'))
writeFileSync(join(dir, 'index.html'), '<title>start</title>')
let refused = 0
const { addresses, close } = await serveRoom({
  ...{ port: 0, dir, storage: storage === undefined ? { file: join(dir, 'room.sqlite') } : JSON.parse(storage) },
  log: () => {
    refused += 1
  },
})
process.stdout.write(`${addresses.at(-1)}\n`)
createInterface({ input: process.stdin })
  .on('line', () => {
    const { user, system } = process.cpuUsage()
    process.stdout.write(`${JSON.stringify({ rss: process.memoryUsage().rss, cpuUs: user + system, refused })}\n`)
  })
  .on('close', () => {
    void close().finally(() => {
      rmSync(dir, { recursive: true })
      process.exit(0)
    })
  })
