/** `npm run -s server -- nginx`: prints what this server has to be told. */

import { parseArgs } from 'node:util'
import { SERVERS } from './serverSettings.ts'

const USAGE = `npm run -s server -- ${Object.keys(SERVERS).join('|')} [--folder /var/www/otherseat] [--at "listen 80;"]`

const { values, positionals } = parseArgs({
  allowPositionals: true,
  options: { folder: { type: 'string', default: '/var/www/otherseat' }, at: { type: 'string' } },
})
const [name = ''] = positionals
const settings = Object.hasOwn(SERVERS, name) ? SERVERS[name as keyof typeof SERVERS] : undefined
if (!settings || positionals.length > 1) {
  process.stderr.write(`${USAGE}\n`)
  process.exit(2)
}
const at = values.at ?? (name === 'nginx' ? 'listen 80;' : ':80')
process.stdout.write(settings({ folder: values.folder, at }))
