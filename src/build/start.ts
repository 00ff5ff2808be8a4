/** `npm start`: serves what `npm run build` has made, and prints the address in one line. */

import { parseArgs } from 'node:util'
import { serve } from './serve.ts'

const DEFAULT_PORT = 4173

const { values } = parseArgs({ options: { port: { type: 'string', default: process.env.PORT ?? '' } } })
const port = values.port === '' ? DEFAULT_PORT : Number(values.port)
if (!Number.isInteger(port) || port < 0 || port > 65_535) {
  process.stderr.write(`--port ${values.port}: a number from 0 to 65535 would be right\n`)
  process.exit(2)
}

const served = await serve({ port })
process.stdout.write(`Otherseat is at ${served.address}\n`)
