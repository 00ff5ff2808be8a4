/** The test rig itself: a microphone that were deaf, or a trap that caught nothing, would let anything pass. */

import { createServer, type Server } from 'node:http'
import type { AddressInfo } from 'node:net'
import { afterAll, afterEach, beforeAll, expect, test } from 'vitest'
import { loudestWhile } from '../listen.ts'
import { openPage, type PageOptions, type TestPage } from '../page.ts'

/** An empty page: what is tested here is not the app. */
let server: Server
beforeAll(async () => {
  server = createServer((_, response) => {
    response.setHeader('content-type', 'text/html').end('<title>an empty page</title>')
  })
  await new Promise<void>((listening) => server.listen(0, 'localhost', listening))
})
afterAll(() => server.close())

let opened: TestPage
afterEach(() => opened.close())
const open = async (options: Omit<PageOptions, 'address'> = {}) => {
  const { port } = server.address() as AddressInfo
  opened = await openPage({ address: `http://localhost:${port}/`, ...options })
  return opened
}

/** Plays as an app does: an oscillator into the output, for half a second. */
const playInPage = () =>
  new Promise<void>((ended) => {
    const context = new AudioContext()
    const tone = new OscillatorNode(context, { frequency: 440 })
    tone.connect(new GainNode(context, { gain: 0.5 })).connect(context.destination)
    tone.onended = () => ended()
    tone.start()
    tone.stop(context.currentTime + 0.5)
  })

/** Half a second of 440 Hz at half scale, 16 kHz, 16 bit, mono. */
function toneWav(): Uint8Array {
  const rate = 16_000
  const samples = Int16Array.from({ length: rate / 2 }, (_, at) => 16_000 * Math.sin((2 * Math.PI * 440 * at) / rate))
  const head = Buffer.alloc(44)
  head.write('RIFF', 0)
  head.writeUInt32LE(36 + samples.byteLength, 4)
  head.write('WAVEfmt ', 8)
  head.writeUInt32LE(16, 16)
  head.writeUInt16LE(1, 20)
  head.writeUInt16LE(1, 22)
  head.writeUInt32LE(rate, 24)
  head.writeUInt32LE(rate * 2, 28)
  head.writeUInt16LE(2, 32)
  head.writeUInt16LE(16, 34)
  head.write('data', 36)
  head.writeUInt32LE(samples.byteLength, 40)
  return Buffer.concat([head, Buffer.from(samples.buffer)])
}

test('what is said is in the microphone', async () => {
  const { page, speakWav } = await open()
  expect(await loudestWhile(page, () => speakWav(toneWav()))).toBeGreaterThan(0.3)
})

test('a microphone into which nothing is said is quiet, and not dead', async () => {
  const { page } = await open()
  const level = await loudestWhile(page, () => page.evaluate(playInPage))
  expect(level).toBeGreaterThan(0)
  expect(level).toBeLessThan(0.002)
})

test('with an echo, what the page plays comes back into the microphone', async () => {
  const { page } = await open({ echo: 0.5 })
  const level = await loudestWhile(page, () => page.evaluate(playInPage))
  expect(level).toBeGreaterThan(0.1)
  expect(level).toBeLessThan(0.4)
})

test.each([
  ['refused', 'NotAllowedError'],
  ['missing', 'NotFoundError'],
] as const)('a microphone that is %s fails as a browser says it', async (microphone, name) => {
  const { page } = await open({ microphone })
  const failed = page.evaluate(() =>
    navigator.mediaDevices.getUserMedia({ audio: true }).then(
      () => 'opened',
      (error: DOMException) => error.name,
    ),
  )
  expect(await failed).toBe(name)
})

test('a request to another origin is caught, from the page and from a worker', async () => {
  const { page, foreign } = await open()
  expect(foreign()).toEqual([])
  await page.evaluate(async () => {
    await fetch('http://page.example/').catch(() => undefined)
    const script = URL.createObjectURL(
      new Blob(["fetch('https://worker.example/').catch(() => 0).then(() => postMessage(0))"]),
    )
    await new Promise((done) => {
      new Worker(script).onmessage = done
    })
  })
  const caught = foreign().join(' ')
  expect(caught).toContain('page.example')
  expect(caught).toContain('worker.example')
})
