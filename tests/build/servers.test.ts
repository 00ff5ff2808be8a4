/** The settings for other servers, tried on those servers where this machine has them (Debian: `apt install nginx caddy`). */

import { type ChildProcess, execFileSync, spawn } from 'node:child_process'
import { mkdir, mkdtemp, rm, writeFile } from 'node:fs/promises'
import { createServer } from 'node:net'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterEach, beforeEach, describe, expect, it } from 'vitest'
import { HEADERS } from '../../src/build/headers.ts'
import { SERVERS } from '../../src/build/serverSettings.ts'

const COMMANDS = {
  nginx: (dir: string, port: number) => {
    const site = SERVERS.nginx({ folder: join(dir, 'site'), at: `listen 127.0.0.1:${port};` })
    const paths = ['client_body', 'proxy', 'fastcgi', 'uwsgi', 'scgi'].map(
      (name) => `${name}_temp_path ${dir}/${name};`,
    )
    return {
      text: `daemon off; pid ${dir}/pid; error_log stderr; events {}\nhttp { include /etc/nginx/mime.types; access_log off; ${paths.join(' ')}\n${site} }`,
      args: ['-e', 'stderr', '-p', dir, '-c'],
    }
  },
  caddy: (dir: string, port: number) => ({
    text: `{\n\tadmin off\n}\n${SERVERS.caddy({ folder: join(dir, 'site'), at: `http://127.0.0.1:${port}` })}`,
    args: ['run', '--adapter', 'caddyfile', '--config'],
  }),
} as const

function isInstalled(name: string): boolean {
  try {
    execFileSync(name, [name === 'nginx' ? '-v' : 'version'], { stdio: 'ignore' })
    return true
  } catch {
    return false
  }
}

let dir: string
let child: ChildProcess | undefined
beforeEach(async () => {
  dir = await mkdtemp(join(tmpdir(), 'otherseat-server-'))
  const site = join(dir, 'site')
  await mkdir(join(site, 'assets'), { recursive: true })
  await writeFile(join(site, 'index.html'), '<title>start</title>')
  await writeFile(join(site, 'mdef'), 'model')
  await writeFile(join(site, 'ear.wasm'), new Uint8Array([0, 0x61, 0x73, 0x6d]))
  await writeFile(join(site, 'assets', 'main-1a2b3c.js'), 'let otherseat')
  // The server may change to a user of its own.
  execFileSync('chmod', ['-R', 'a+rX', dir])
})
afterEach(async () => {
  if (child && child.exitCode === null) {
    const ended = new Promise((resolve) => child?.once('exit', resolve))
    child.kill()
    await ended
  }
  await rm(dir, { recursive: true })
})

const freePort = () =>
  new Promise<number>((resolve) => {
    const server = createServer().listen(0, '127.0.0.1', () => {
      const address = server.address()
      server.close(() => resolve(typeof address === 'object' && address ? address.port : 0))
    })
  })

describe.each(['nginx', 'caddy'] as const)('%s', (name) => {
  it('is told every header', () => {
    const text = SERVERS[name]({ folder: '/srv/otherseat', at: ':80' })
    for (const [header, value] of Object.entries(HEADERS)) expect(text).toContain(`${header} "${value}"`)
  })

  it.skipIf(!isInstalled(name))(
    'sends them with files of the right type, and a 404 for a file that is not there',
    async () => {
      const port = await freePort()
      const { text, args } = COMMANDS[name](dir, port)
      const settings = join(dir, 'settings')
      await writeFile(settings, text)
      child = spawn(name, [...args, settings], { stdio: 'ignore', env: { ...process.env, HOME: dir } })
      const get = (path: string) => fetch(`http://127.0.0.1:${port}/${path}`)
      await expect
        .poll(
          () =>
            get('').then(
              ({ status }) => status,
              () => 0,
            ),
          { timeout: 60_000 },
        )
        .toBe(200)

      for (const path of ['', 'mdef', 'assets/main-1a2b3c.js']) {
        const { headers } = await get(path)
        for (const [header, value] of Object.entries(HEADERS)) expect(headers.get(header)).toBe(value)
      }
      const headersOf = async (path: string) => (await get(path)).headers
      expect((await headersOf('mdef')).get('content-type')).toBe('application/octet-stream')
      expect((await headersOf('ear.wasm')).get('content-type')).toBe('application/wasm')
      expect((await headersOf('')).get('content-type')).toMatch(/^text\/html/)
      expect((await headersOf('')).get('cache-control')).toBe('no-cache')
      expect((await headersOf('assets/main-1a2b3c.js')).get('cache-control')).toContain('immutable')
      expect((await get('model/nothing')).status).toBe(404)
    },
  )
})
