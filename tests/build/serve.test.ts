import { mkdir, mkdtemp, rm, writeFile } from 'node:fs/promises'
import { get as httpGet } from 'node:http'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { brotliCompressSync } from 'node:zlib'
import { afterAll, beforeAll, expect, test } from 'vitest'
import { type Served, serve } from '../../src/build/serve.ts'

let dir: string
let served: Served
beforeAll(async () => {
  dir = await mkdtemp(join(tmpdir(), 'otherseat-site-'))
  await writeFile(join(dir, 'index.html'), '<title>start</title>')
  await writeFile(join(dir, 'ear.wasm'), new Uint8Array([0, 0x61, 0x73, 0x6d]))
  await writeFile(join(dir, 'mdef'), 'model')
  await mkdir(join(dir, 'assets'))
  await writeFile(join(dir, 'assets', 'main-1a2b3c.js'), 'let otherseat')
  await writeFile(join(dir, 'assets', 'main-1a2b3c.js.br'), brotliCompressSync('let otherseat'))
  served = await serve({ port: 0, dir })
})
afterAll(async () => {
  await served.close()
  await rm(dir, { recursive: true })
})

const get = (path: string) => fetch(`${served.address}${path}`)

test('the address is on this machine and shows the start page', async () => {
  expect(served.address).toMatch(/^http:\/\/localhost:\d+\/$/)
  expect(await (await get('')).text()).toContain('start')
})

test('a missing file is a 404, never the start page: the recogniser takes any answer for its file', async () => {
  expect((await get('model/en-us/feature_transform')).status).toBe(404)
  expect((await get('nothing.html')).status).toBe(404)
})

test('the recogniser is served as what it is', async () => {
  expect((await get('ear.wasm')).headers.get('content-type')).toBe('application/wasm')
  expect(await (await get('mdef')).text()).toBe('model')
})

test('where the port is taken, the next free one is', async () => {
  const port = Number(new URL(served.address).port)
  const second = await serve({ port, dir })
  try {
    expect(second.address).not.toBe(served.address)
    expect((await fetch(second.address)).status).toBe(200)
  } finally {
    await second.close()
  }
})

test('every answer forbids other origins, foreign frames and guessed types', async () => {
  for (const path of ['', 'mdef', 'nothing.html']) {
    const { headers } = await get(path)
    expect(headers.get('content-security-policy')).toMatch(
      /default-src 'self'.*connect-src 'self' blob:.*frame-ancestors 'none'/,
    )
    expect(headers.get('x-content-type-options')).toBe('nosniff')
    expect(headers.get('referrer-policy')).toBe('no-referrer')
    expect(headers.get('permissions-policy')).toContain('microphone=(self)')
    expect(headers.has('access-control-allow-origin')).toBe(false)
  }
})

test('a file without an ending has a type, and only a file named by its content is kept for good', async () => {
  expect((await get('mdef')).headers.get('content-type')).toBe('application/octet-stream')
  expect((await get('')).headers.get('cache-control')).toBe('no-cache')
  expect((await get('assets/main-1a2b3c.js')).headers.get('cache-control')).toContain('immutable')
})

test('what was compressed beside is sent so to a browser that takes it', async () => {
  const answer = await fetch(`${served.address}assets/main-1a2b3c.js`, { headers: { 'accept-encoding': 'br' } })
  expect(answer.headers.get('content-encoding')).toBe('br')
  expect(await answer.text()).toBe('let otherseat')
})

test('a page elsewhere that has its name led here gets nothing', async () => {
  const status = await new Promise((resolve, reject) => {
    httpGet(served.address, { headers: { host: 'elsewhere.example' } }, (answer) => resolve(answer.statusCode)).on(
      'error',
      reject,
    )
  })
  expect(status).toBe(403)
})

test.each(['../package.json', '..%2fpackage.json', '%2e%2e/package.json', 'assets/..%5c..%5cpackage.json', '%00', '%'])(
  '%s leads nowhere',
  async (path) => {
    const status = await new Promise((resolve, reject) => {
      const { hostname, port } = new URL(served.address)
      httpGet({ hostname, port, path: `/${path}` }, (answer) => resolve(answer.statusCode)).on('error', reject)
    })
    expect(status).toBe(404)
  },
)
