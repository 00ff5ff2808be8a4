/** A partner who errs, in a real browser: what it says is heard, objected to by voice, let go, and told afterwards. */

import { afterEach, expect, inject, test } from 'vitest'
import { CHECK_THAT, NOT_116 } from '../../audio/partner.ts'
import { goOnFlown } from '../flown.ts'
import { openPage, type TestPage } from '../page.ts'
import { type Pilot, pilotAt } from '../pilot.ts'

let opened: TestPage | undefined
afterEach(async () => {
  await opened?.close()
  opened = undefined
})

/** By this number the trim is said rightly, V one and the rotate speed are not. */
const SEED = 3

const objections = async (pilot: Pilot) => (await pilot.events()).filter(({ type }) => type === 'objected')

/** Says it, and again where it was not understood, as a pilot would. */
async function object(pilot: Pilot, spoken: Parameters<Pilot['say']>[0]): Promise<void> {
  const before = (await objections(pilot)).length
  for (let sayings = 1; sayings <= 4; sayings++) {
    await pilot.say(spoken)
    if ((await objections(pilot)).length > before) return
  }
  throw new Error(`${spoken.file}: ${JSON.stringify((await pilot.events()).slice(-3))}`)
}

test('a fault caught by voice, one let go and an objection without cause are told for what they were', async () => {
  opened = await openPage({ address: inject('address') })
  await goOnFlown(opened, ['load figures list', 'zero fuel weight'], {
    run: { roles: 'pilotChallenges', partner: { seed: SEED, rate: 0.4 } },
  })
  const { page } = opened
  const pilot = pilotAt(opened)
  await pilot.listened()
  await pilot.type('takeoff trim')
  await object(pilot, CHECK_THAT)
  await pilot.type('V one')
  await object(pilot, NOT_116)
  await pilot.type('rotate speed')
  await pilot.type('checked')
  expect((await objections(pilot)).map(({ evidence }) => (evidence as { by: string }).by)).toEqual(['voice', 'voice'])
  await pilot.show('Debrief')
  // Nobody says so before it is over.
  expect(await page.getByText(/^Your partner/).count()).toBe(0)
  await page.getByRole('button', { name: 'End the run', exact: true }).click()
  await page.getByRole('button', { name: 'End it now' }).click()
  await page
    .getByText(/^Your partner/)
    .first()
    .click()
  const told = (await page.locator('main').textContent())?.replace(/\s+/g, ' ')
  expect(told).toContain('1 of 2 faults caught; 1 of 2 right things objected to')
  expect(told).toMatch(/Caught, obvious\. V one: Otherseat answered one one six, right was one two six\./)
  expect(told).toMatch(/Missed, obvious\. Rotate speed/)
})
