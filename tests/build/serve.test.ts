import { mkdtemp, rm, writeFile } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterAll, beforeAll, expect, test } from 'vitest'
import { type Served, serve } from '../../src/build/serve.ts'

let dir: string
let served: Served
beforeAll(async () => {
  dir = await mkdtemp(join(tmpdir(), 'otherseat-site-'))
  await writeFile(join(dir, 'index.html'), '<title>start</title>')
  await writeFile(join(dir, 'ear.wasm'), new Uint8Array([0, 0x61, 0x73, 0x6d]))
  await writeFile(join(dir, 'mdef'), 'model')
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
