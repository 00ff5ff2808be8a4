/** The page where it mostly is: behind a simulator. What goes on there, and what of it comes back. */

import { afterEach, expect, inject, test } from 'vitest'
import { openPage, type TestPage } from './page.ts'
import { type Pilot, pilotAt } from './pilot.ts'

let opened: TestPage
afterEach(() => opened.close())

/** A slow machine takes its time for everything. */
const WAIT = { timeout: 150_000 }

async function atFirstItem(): Promise<Pilot> {
  opened = await openPage({ address: inject('address') })
  const pilot = pilotAt(opened)
  await pilot.begin()
  await pilot.type('load figures list')
  await pilot.listened()
  return pilot
}

const told = async (pilot: Pilot, type: string) => (await pilot.events()).filter((event) => event.type === type)
const visibility = () => opened.page.evaluate(() => document.visibilityState)

/** Says a wrong value until it is refused aloud; the ear may ask again. */
async function isHeard(pilot: Pilot): Promise<void> {
  for (let tries = 1; tries <= 3; tries++) {
    const before = await told(pilot, 'answered')
    await pilot.say({ file: 'zfw-final' })
    await expect.poll(async () => (await told(pilot, 'answered')).length, WAIT).toBeGreaterThan(before.length)
    const last = (await told(pilot, 'answered')).at(-1)
    const judgement = last?.judgement as { verdict: string } | undefined
    if (judgement?.verdict === 'sayAgain') continue
    expect(last).toMatchObject({ evidence: { by: 'voice', text: 'two four six two zero' } })
    await expect.poll(() => pilot.said(), WAIT).toContain('I heard')
    return
  }
  throw new Error('not understood in three sayings')
}

test('with another tab in front it hears, answers aloud, and asks at its time after a silence', async () => {
  const pilot = await atFirstItem()
  const other = await opened.context.newPage()
  await other.bringToFront()
  // Headless browsers do not always hide what is behind: the page is told so as well, as a system would.
  await opened.page.evaluate(() => {
    for (const [name, value] of [['visibilityState', 'hidden'] as const, ['hidden', true] as const])
      Object.defineProperty(document, name, { value, configurable: true })
    document.dispatchEvent(new Event('visibilitychange'))
  })
  expect(await visibility()).toBe('hidden')
  await isHeard(pilot)
  await expect.poll(async () => (await told(pilot, 'silent')).length, WAIT).toBeGreaterThan(0)
  expect(await told(pilot, 'earFailed')).toEqual([])
})

test('on a machine six times as slow it hears as ever', async () => {
  const pilot = await atFirstItem()
  const session = await opened.context.newCDPSession(opened.page)
  await session.send('Emulation.setCPUThrottlingRate', { rate: 6 })
  await isHeard(pilot)
  expect(await told(pilot, 'earFailed')).toEqual([])
})

test('frozen by the browser and let go again, it listens again or says that it does not', async () => {
  const pilot = await atFirstItem()
  const session = await opened.context.newCDPSession(opened.page)
  await session.send('Page.setWebLifecycleState', { state: 'frozen' })
  await new Promise((done) => setTimeout(done, 15_000))
  await session.send('Page.setWebLifecycleState', { state: 'active' })
  await isHeard(pilot)
  console.log(`after a freeze: ${(await pilot.events()).slice(3).map(({ type }) => type)}`)
})
