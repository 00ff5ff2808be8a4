/** The demo departure flown hands-free in a real browser, by spoken answers that nothing was tuned on. */

import { afterEach, describe, expect, inject, test } from 'vitest'
import { FINAL_ANSWERS, LISTS, PRELIMINARY_ANSWERS } from '../../audio/departure.ts'
import { openPage, type PageOptions, type TestPage } from '../page.ts'
import { type Pilot, pilotAt } from '../pilot.ts'

let opened: TestPage | undefined
afterEach(async () => {
  await opened?.close()
  opened = undefined
})

async function seat({
  ownValues = false,
  ...options
}: Partial<PageOptions> & { ownValues?: boolean } = {}): Promise<{ test: TestPage; pilot: Pilot }> {
  opened = await openPage({ address: inject('address'), ...options })
  const pilot = pilotAt(opened)
  // The whole departure is long: the voice speaks as fast as it can.
  await pilot.begin({ ownValues, speed: ownValues ? '2' : '1.5' })
  return { test: opened, pilot }
}

/** Fifty-two answers at the pace of speech, on a machine that may be slow. */
const DEPARTURE_MS = 900_000

const CLOSING: ReadonlySet<unknown> = new Set(['listCalled', 'cleared', 'flowClosed', 'watchBegan', 'watchCalled'])

const closed = async (pilot: Pilot) =>
  (await pilot.events()).filter(
    ({ type, judgement, isRight }) =>
      CLOSING.has(type) ||
      (type === 'ownValueSaid' && isRight) ||
      (type === 'answered' && (judgement as { verdict: string }).verdict === 'correct'),
  ).length

const SAYINGS = 5

/** Says an answer; where the ear asks again, says it once more, as a pilot would. */
async function sayUntilClosed(pilot: Pilot, answer: { file: string }): Promise<number> {
  const before = await closed(pilot)
  for (let tries = 1; tries <= SAYINGS; tries++) {
    await pilot.say(answer)
    if ((await closed(pilot)) > before) return tries
  }
  throw new Error(
    `${answer.file} was not understood in ${SAYINGS} sayings: ${JSON.stringify((await pilot.events()).slice(-8))}`,
  )
}

/** What has to pass in an engine start before it can be seen. */
const SEEN_AFTER_MS: Readonly<Record<string, number>> = { 'fuel-on': 5_000, 'starter-out': 4_000, stable: 8_000 }
/** What of an engine start is not recorded: typed behind what is. */
const TYPED_BEHIND: Readonly<Record<string, readonly string[]>> = {
  'fuel-on': ['two four percent'],
  oil: ['fan turning', 'peak six eight five'],
}

/** Not heard whole by voice yet: typed instead. */
const TYPED: Readonly<Record<string, string>> = {
  'three-speeds': 'V one one two eight, rotate one three four, V two one four one',
}

/** How often each had to be said. */
async function fly(pilot: Pilot, answers: readonly { file: string }[]): Promise<number[]> {
  const tries: number[] = []
  for (const answer of answers) {
    // The starter rests first.
    if (answer.file === 'start-left') {
      await expect.poll(() => pilot.said(), { timeout: 30_000 }).toContain('Left engine when ready')
    }
    await new Promise((done) => setTimeout(done, SEEN_AFTER_MS[answer.file] ?? 0))
    const typed = TYPED[answer.file]
    if (typed === undefined) tries.push(await sayUntilClosed(pilot, answer))
    else await pilot.type(typed)
    for (const text of TYPED_BEHIND[answer.file] ?? []) await pilot.type(text)
  }
  return tries
}

const voided = async (pilot: Pilot) => (await pilot.events()).filter(({ type }) => type === 'voided')

describe('a whole departure by voice', () => {
  test(
    'completes, with final figures that reopen what rested on the old ones; nothing leaves the machine',
    async () => {
      const { test: page, pilot } = await seat({ ownValues: true })
      // Worked out before Otherseat's own value counts.
      expect(await pilot.headline()).toBe('your takeoff trim?')
      await fly(pilot, [{ file: 'trim-preliminary' }])
      const first = await fly(pilot, PRELIMINARY_ANSWERS)
      expect(await pilot.said()).toContain('complete on preliminary figures')

      await pilot.show('Figures')
      await pilot.enterFigures('final')
      await pilot.listened()
      expect(await pilot.said()).toContain('Load figures list incomplete')
      expect(await pilot.headline()).toBe('your takeoff trim?')
      await fly(pilot, [{ file: 'trim-final' }])
      await pilot.listened()
      expect(await pilot.headline()).toBe('figures flow')
      await fly(pilot, FINAL_ANSWERS.slice(0, 1))
      await pilot.listened()
      expect(await pilot.headline()).toBe('zero fuel weight')

      // The old value is refused.
      const answered = async () =>
        (await pilot.events()).filter(({ type }) => type === 'answered').at(-1)?.judgement as { verdict: string }
      for (let sayings = 1; sayings <= SAYINGS; sayings++) {
        await pilot.say({ file: 'zfw-preliminary' })
        if ((await answered()).verdict !== 'sayAgain') break
      }
      expect(await answered()).toMatchObject({ verdict: 'negative', because: 'value' })
      expect(await pilot.headline()).toBe('zero fuel weight')

      const rest = await fly(pilot, [...FINAL_ANSWERS.slice(1), ...LISTS])
      expect(await pilot.headline()).toBe('all lists complete')
      const tries = [...first, ...rest]
      console.log(`understood at the first saying: ${tries.filter((n) => n === 1).length} of ${tries.length}`)

      const events = await pilot.events()
      expect(events.map(({ seq }) => seq)).toEqual(events.map((_, index) => index))
      expect(events.filter(({ type }) => type === 'earFailed')).toEqual([])
      expect(page.foreign()).toEqual([])
      expect(page.errors()).toEqual([])
      await page.page.getByRole('button', { name: 'Read the debrief' }).click()
      await page.page.getByRole('heading', { level: 1, name: 'All lists complete' }).waitFor()
      expect(await page.page.getByText('34 of 34').count()).toBe(1)
    },
    DEPARTURE_MS,
  )

  test('goes on at the same item when the page is reloaded in the middle of a list', async () => {
    const { test: page, pilot } = await seat()
    await fly(pilot, PRELIMINARY_ANSWERS.slice(0, 2))
    await pilot.listened()
    expect(await pilot.headline()).toBe('takeoff trim')
    const before = await pilot.events()
    await page.page.reload()
    await page.page.getByRole('button', { name: 'Press any key to resume' }).waitFor()
    await page.page.keyboard.press('Space')
    await pilot.listened()
    expect(await pilot.headline()).toBe('takeoff trim')
    const after = await pilot.events()
    expect(after.slice(0, before.length)).toEqual(before)
    expect(after.slice(before.length).map(({ type }) => type)).toEqual(['resumed'])
    await fly(pilot, PRELIMINARY_ANSWERS.slice(2, 3))
    expect(await pilot.headline()).toBe('v one')
  })

  test('voids the answer in which final figures come, and asks again', async () => {
    const { pilot } = await seat()
    await fly(pilot, PRELIMINARY_ANSWERS.slice(0, 2))
    await pilot.listened()
    // The figures are made ready, then entered while the answer is on the air.
    await pilot.show('Figures')
    await pilot.draftFigures('final')
    const speaking = pilot.speak({ file: 'trim-preliminary' })
    await new Promise((done) => setTimeout(done, 300))
    await pilot.enterDraft()
    await speaking
    await pilot.listened()
    const events = await pilot.events()
    const trims = events.filter(
      ({ type, item, judgement }) =>
        type === 'answered' && item === 'loadFigures.trim' && (judgement as { verdict: string }).verdict === 'correct',
    )
    expect(trims).toEqual([])
    expect(await pilot.said()).toContain('new editions. Final figures are in.')
    // What sets the changed values comes before the items that say them.
    expect(await pilot.headline()).toBe('figures flow')
    await fly(pilot, FINAL_ANSWERS.slice(0, 3))
    expect(await pilot.headline()).toBe('v one')
  })

  test('never takes its own voice from the loudspeaker for an answer', async () => {
    const { pilot } = await seat({ echo: 0.5 })
    const answers = PRELIMINARY_ANSWERS.slice(0, 4)
    await fly(pilot, answers)
    const events = await pilot.events()
    const judged = events.filter(({ type }) =>
      ['answered', 'commanded', 'listCalled', 'flowClosed'].includes(String(type)),
    )
    // Every judged utterance is one that the pilot said: as many as the pilot's, and each with the pilot's words.
    const tries = judged.length
    expect(tries).toBeLessThanOrEqual(answers.length * 3)
    const correct = judged.filter(
      ({ type, judgement }) =>
        type === 'listCalled' || (judgement as { verdict: string } | undefined)?.verdict === 'correct',
    )
    expect(correct).toHaveLength(answers.length)
    // Left alone for a while with its own prompts, nothing is judged.
    const before = (await pilot.events()).length
    await new Promise((done) => setTimeout(done, 12_000))
    const later = (await pilot.events()).slice(before)
    expect(
      later.filter(({ type }) =>
        ['answered', 'commanded', 'listCalled', 'cleared', 'flowClosed'].includes(String(type)),
      ),
    ).toEqual([])
    expect(await voided(pilot)).toEqual([])
  })
})
