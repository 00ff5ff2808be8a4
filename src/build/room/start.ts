/** `npm run room`: serves what `npm run build` has made, with rooms, and prints how to get there. */

import { fileURLToPath } from 'node:url'
import { parseArgs } from 'node:util'
import { renderUnicodeCompact } from 'uqr'
import { shownCode } from '../../room/code.ts'
import { DIST } from '../serve.ts'
import { serveRoom } from './server.ts'

const DEFAULT_PORT = 4173
const USAGE = `npm run room -- [--port ${DEFAULT_PORT}] [--file otherseat-room.sqlite] [--dir dist] [--name room.example] [--cert FILE --key FILE]`

const { values } = parseArgs({
  options: {
    port: { type: 'string', default: process.env.PORT ?? String(DEFAULT_PORT) },
    file: { type: 'string', default: fileURLToPath(new URL('../../../otherseat-room.sqlite', import.meta.url)) },
    dir: { type: 'string', default: DIST },
    name: { type: 'string', multiple: true, default: [] },
    cert: { type: 'string' },
    key: { type: 'string' },
  },
})
const { cert, key, name: names, file, dir } = values
const port = Number(values.port)
if (!Number.isInteger(port) || port < 0 || port > 65_535 || (cert === undefined) !== (key === undefined)) {
  process.stderr.write(`${USAGE}\n`)
  process.exit(2)
}

const say = (line: string) => process.stdout.write(`${line}\n`)
const log = (line: string) => say(`${new Date().toISOString()} ${line}`)
// Nothing that a client sends may end it.
process.on('uncaughtException', ({ message }) => log(`failed: ${message}`))
process.on('unhandledRejection', (reason) =>
  log(`failed: ${reason instanceof Error ? reason.message : String(reason)}`),
)

const tls = cert !== undefined && key !== undefined ? { cert, key } : undefined
const { addresses, code, close } = await serveRoom({ port, dir, file, log, names, ...(tls && { tls }) })
const [address = ''] = addresses
const link = `${address}#room/${code}`
say(`Otherseat is at ${addresses.at(-1)}`)
say(`Others join at  ${address}  with the code ${shownCode(code)}`)
say(renderUnicodeCompact(link, { border: 2 }))
if (!address.startsWith('https')) {
  say('A trainee away from this machine needs https (--cert and --key); an instructor does not.')
}
say(`All of a room lies in ${file}, and is deleted 24 hours after the room was opened.`)
for (const signal of ['SIGINT', 'SIGTERM'] as const)
  process.once(signal, () => void close().finally(() => process.exit(0)))
