/** A browser that freezes the page and lets it go again. (Behind another tab: see run.test.ts.) */

import { afterEach, expect, inject, test } from 'vitest'
import { openPage, type TestPage } from '../page.ts'
import { type Pilot, pilotAt } from '../pilot.ts'

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

const heard = async (pilot: Pilot) =>
  (await pilot.events()).filter(({ type }) => type === 'answered' || type === 'overheard')

/** Says a wrong value until it is refused aloud; the ear may ask again. */
async function isHeard(pilot: Pilot): Promise<void> {
  for (let tries = 1; tries <= 5; tries++) {
    await pilot.say({ file: 'zfw-final' })
    await expect.poll(async () => (await heard(pilot)).length, WAIT).toBeGreaterThanOrEqual(tries)
    const last = (await heard(pilot)).at(-1)
    const judgement = last?.judgement as { verdict: string } | undefined
    if (judgement?.verdict !== 'negative') continue
    expect(last).toMatchObject({ evidence: { by: 'voice', text: 'two four six two zero' } })
    await expect.poll(() => pilot.said(), WAIT).toContain('I heard')
    return
  }
  throw new Error('not understood in five sayings')
}

test('frozen by the browser and let go again, it hears as before', async () => {
  const pilot = await atFirstItem()
  const session = await opened.context.newCDPSession(opened.page)
  await session.send('Page.setWebLifecycleState', { state: 'frozen' })
  await new Promise((done) => setTimeout(done, 15_000))
  await session.send('Page.setWebLifecycleState', { state: 'active' })
  await isHeard(pilot)
  // A failure that was told must have been followed by the ear's coming back.
  expect((await told(pilot, 'earBack')).length).toBeGreaterThanOrEqual((await told(pilot, 'earFailed')).length)
})
