/**
 * Benchmark of the ear in the app as it is served, in headless Chromium, by a microphone in real time: from the last
 * voiced sample and from the endpoint to the verdict, for value items, word items and a read-back; what a first and a
 * later visit load for the ear; how much of real time it needs, and whether it grows over many utterances.
 * `LATENCY_COUNT` answers of each sort, `LATENCY_UTTERANCES` for the memory.
 */

import { mkdtemp, readFile, rm } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { fileURLToPath } from 'node:url'
import { build } from 'vite'
import { openPage, type TestPage } from '../../../tests/browser/page.ts'
import { type Pilot, pilotAt } from '../../../tests/browser/pilot.ts'
import { serve } from '../serve.ts'
import { grown } from './growth.ts'
import { percentile } from './tally.ts'

const COUNT = Number(process.env.LATENCY_COUNT ?? 10)
/** Least that is possible: a short pause has to be waited for; from the last sample on. */
const FLOOR_MS = { endpoint: 250, lastVoice: 900 }
const PATIENCE_MS = 120_000

const here = (path: string) => fileURLToPath(new URL(`../../../${path}`, import.meta.url))

interface Measured {
  /** Clock times, ms. */
  readonly lastVoiceAt: number
  readonly endpointAt: number
  readonly verdictAt: number
}

/** What the ear's worker told the page, with the time. */
interface Told {
  readonly at: number
  readonly state: string
}

export async function measure(): Promise<Record<string, number>> {
  const dir = await mkdtemp(join(tmpdir(), 'latency-'))
  try {
    await build({ configFile: here('vite.config.ts'), logLevel: 'silent', build: { outDir: dir, emptyOutDir: true } })
    const served = await serve({ port: 0, dir })
    try {
      return {
        ...(await loads(served.address)),
        ...(await answers(served.address, 'value', toWeight, 'departure/zfw-preliminary')),
        ...(await answers(served.address, 'words', toBrake, 'brake-released')),
        ...(await answers(served.address, 'readBack', toClearance, 'departure/talk-wrong-code')),
        ...(await grown(served.address)),
      }
    } finally {
      await served.close()
    }
  } finally {
    await rm(dir, { recursive: true, force: true })
  }
}

/** To an item whose figures are others than what will be said: it is refused, and asked for anew. */
async function toWeight(pilot: Pilot): Promise<void> {
  await pilot.begin()
  await pilot.show('Figures')
  await pilot.enterFigures('final')
  await pilot.type('load figures list')
}

async function toBrake(pilot: Pilot): Promise<void> {
  await pilot.begin()
  for (const text of ['before start list', 'affirm']) await pilot.type(text)
}

const TO_CLEARANCE = [
  ...['load figures list', 'two four six two zero', 'three point one up', 'one two eight', 'one four one'],
  ...['niner zero point four', 'get the information', 'information kilo, one zero one zero'],
  ...['wind two two zero degrees one four knots, runway two four', 'request clearance'],
]

async function toClearance(pilot: Pilot): Promise<void> {
  await pilot.beginTalking('tests/cli/answers/talk.yaml')
  for (const text of TO_CLEARANCE) await pilot.type(text)
}

async function answers(
  address: string,
  sort: string,
  come: (pilot: Pilot) => Promise<void>,
  file: string,
): Promise<Record<string, number>> {
  const opened = await openPage({ address })
  try {
    const pilot = pilotAt(opened)
    await come(pilot)
    const wav = new Uint8Array(await readFile(here(`audio/check/${file}.wav`)))
    const measured: Measured[] = []
    for (let count = 0; count < COUNT; count++) {
      await pilot.listened()
      measured.push(...(await answerTimed(opened, pilot, wav)))
    }
    return timesOf(sort, measured)
  } finally {
    await opened.close()
  }
}

/** One answer; none where it was not judged at all. */
async function answerTimed(opened: TestPage, pilot: Pilot, wav: Uint8Array): Promise<Measured[]> {
  await opened.page.evaluate(listenToWorkers)
  const before = (await pilot.events()).length
  await opened.speakWav(wav)
  const until = Date.now() + PATIENCE_MS
  let happened: readonly Record<string, unknown>[] = []
  while (happened.length === 0 && Date.now() < until) {
    await new Promise((done) => setTimeout(done, 100))
    happened = (await pilot.events()).slice(before)
  }
  const told = await opened.page.evaluate(() => (window as unknown as { told: Told[] }).told)
  const judged = happened.find(({ type }) => type === 'answered' || type === 'transmitted')
  const endpoint = told.find(({ state }, index) => state === 'open' && told[index - 1]?.state === 'hearing')
  if (!judged || !endpoint) return []
  const { endedAt } = judged.evidence as { readonly endedAt: number }
  return [{ lastVoiceAt: endedAt, endpointAt: endpoint.at, verdictAt: Date.parse(String(judged.wall)) }]
}

/** In the page: the ear's states as its workers tell them, from now on. */
function listenToWorkers(): void {
  const page = window as unknown as { told: Told[]; listenedTo?: Set<Worker> }
  page.told = []
  page.listenedTo ??= new Set()
  for (const worker of window.made.workers) {
    if (page.listenedTo.has(worker)) continue
    page.listenedTo.add(worker)
    worker.addEventListener('message', ({ data }) => {
      if (data?.event?.type === 'state') page.told.push({ at: Date.now(), state: data.event.state })
    })
  }
}

function timesOf(sort: string, measured: readonly Measured[]): Record<string, number> {
  const lastVoice = measured.map((one) => one.verdictAt - one.lastVoiceAt)
  const endpoint = measured.map((one) => one.verdictAt - one.endpointAt)
  const of = (name: string, times: readonly number[], floor: number) => ({
    [`latency.${sort}.${name}Ms.p50`]: percentile(times, 0.5),
    [`latency.${sort}.${name}Ms.p95`]: percentile(times, 0.95),
    [`latency.${sort}.${name}ToFloor.p50`]: percentile(times, 0.5) / floor,
    [`latency.${sort}.${name}ToFloor.p95`]: percentile(times, 0.95) / floor,
  })
  return {
    [`latency.${sort}.answers`]: measured.length,
    ...of('endpointToVerdict', endpoint, FLOOR_MS.endpoint),
    ...of('lastVoiceToVerdict', lastVoice, FLOOR_MS.lastVoice),
  }
}

/** From the run on the screen to the ear that listens, on a first visit and on one with the service worker's cache; bytes as sent. */
async function loads(address: string): Promise<Record<string, number>> {
  const profile = await mkdtemp(join(tmpdir(), 'latency-profile-'))
  const figures: Record<string, number> = {}
  try {
    for (const visit of ['cold', 'cached']) {
      const opened = await openPage({ address, profile, serviceWorkers: 'allow' })
      const bytes = await countBytes(opened)
      const pilot = pilotAt(opened)
      if (visit === 'cold') await pilot.begin()
      else await opened.page.getByRole('button', { name: 'Go on with it' }).click()
      const began = Date.now()
      await pilot.listened()
      figures[`latency.load.${visit}Ms`] = Date.now() - began
      figures[`latency.load.${visit}Bytes`] = bytes()
      await opened.page.evaluate(() => navigator.serviceWorker.ready.then(() => undefined))
      await opened.close()
    }
    return figures
  } finally {
    await rm(profile, { recursive: true, force: true, maxRetries: 3 })
  }
}

/** Of the model and the denoiser, over the wire. */
async function countBytes({ page, context }: TestPage): Promise<() => number> {
  const session = await context.newCDPSession(page)
  await session.send('Network.enable')
  const ours = new Set<string>()
  let sum = 0
  session.on('Network.responseReceived', ({ requestId, response }) => {
    if (response.url.includes('/model/') && !response.fromServiceWorker) ours.add(requestId)
  })
  session.on('Network.loadingFinished', ({ requestId, encodedDataLength }) => {
    if (ours.has(requestId)) sum += encodedDataLength
  })
  return () => sum
}
