/** A dead ear is heard and seen, and comes back: everything that may happen to microphone, worker and sound in a run. */

import { afterAll, beforeAll, describe, expect, inject, test } from 'vitest'
import { openPage, type TestPage } from './page.ts'
import { type Pilot, pilotAt } from './pilot.ts'

let opened: TestPage
let pilot: Pilot
beforeAll(async () => {
  opened = await openPage({ address: inject('address') })
  pilot = pilotAt(opened)
  await pilot.begin()
  await pilot.say({ file: 'call-figures' })
  await pilot.listened()
})
afterAll(() => opened.close())

const last = async (type: string) => (await pilot.events()).filter((event) => event.type === type).at(-1)
const count = async (type: string) => (await pilot.events()).filter((event) => event.type === type).length
const banner = () => opened.page.getByRole('alert')
const atFirstItem = async () => expect(await pilot.headline()).toBe('zero fuel weight')

/** Starts to answer, and lets something happen in the middle of it. */
async function answerWhile(happen: () => Promise<unknown>): Promise<void> {
  const speaking = pilot.speak({ file: 'zfw-preliminary' })
  await new Promise((done) => setTimeout(done, 600))
  await happen()
  await speaking
}

/** The item is open, is put again, and a wrong answer to it is refused as ever. */
async function hearsAgain(backs: number): Promise<void> {
  await expect.poll(() => count('earBack'), { timeout: 30_000 }).toBe(backs)
  await pilot.listened()
  expect(await pilot.said()).toContain('I hear you again. Zero fuel weight?')
  await pilot.say({ file: 'zfw-final' })
  expect(await last('answered')).toMatchObject({
    item: 'loadFigures.zeroFuelWeight',
    evidence: { by: 'voice' },
    judgement: { verdict: 'negative' },
  })
  await atFirstItem()
}

describe('in the middle of an answer', () => {
  test('a microphone that is unplugged is told aloud and on the screen, and comes back with its plug', async () => {
    await answerWhile(() => opened.page.evaluate(() => window.microphone.unplug()))
    await banner().filter({ hasText: 'The microphone is gone' }).waitFor()
    expect(await last('earFailed')).toMatchObject({ message: expect.stringContaining('plug it in') })
    expect(await pilot.said()).toContain('I cannot hear you, use the keys if you like. Zero fuel weight?')
    expect(await count('answered')).toBe(0)
    await opened.page.evaluate(() => navigator.mediaDevices.dispatchEvent(new Event('devicechange')))
    await hearsAgain(1)
    expect(await banner().count()).toBe(0)
  })

  test('a recogniser that dies without a word is started again, and the item is put again', async () => {
    const answers = await count('answered')
    await answerWhile(() =>
      opened.page.evaluate(() => {
        for (const worker of window.made.workers.slice(-2)) worker.terminate()
      }),
    )
    await hearsAgain(2)
    expect(await count('answered')).toBe(answers + 1)
  })

  test('a sound that the browser holds back is told, and goes on at a touch', async () => {
    await opened.page.evaluate(() => {
      const context = window.made.contexts.findLast(({ sampleRate }) => sampleRate === 16_000)
      if (context) {
        context.resume = async () => undefined
        void context.suspend()
      }
    })
    await banner().filter({ hasText: 'touch the page once' }).waitFor({ timeout: 30_000 })
    await opened.page.mouse.click(5, 400)
    await hearsAgain(3)
  })

  test('a microphone that the system mutes for good is told', async () => {
    await opened.page.evaluate(() => window.microphone.mute(true))
    await banner().filter({ hasText: 'muted the microphone' }).waitFor()
    await opened.page.evaluate(() => window.microphone.mute(false))
    await opened.page.getByRole('button', { name: 'Try the microphone again' }).click()
    await hearsAgain(4)
  })
})

describe('a microphone of', () => {
  test.each([
    [44_100, 2],
    [96_000, 2],
  ] as const)('%i Hz with %i channels is understood', async (rate, channels) => {
    const backs = await count('earBack')
    await opened.page.evaluate(
      ([rate, channels]) => {
        window.microphone.change(rate, channels)
        window.microphone.unplug()
      },
      [rate, channels] as const,
    )
    await banner().waitFor()
    await opened.page.getByRole('button', { name: 'Try the microphone again' }).click()
    await hearsAgain(backs + 1)
  })

  test('8,000 Hz is heard as well as it can be: a wrong value is not taken for right', async () => {
    const backs = await count('earBack')
    await opened.page.evaluate(() => {
      window.microphone.change(8_000, 1)
      window.microphone.unplug()
    })
    await banner().waitFor()
    await opened.page.getByRole('button', { name: 'Try the microphone again' }).click()
    await expect.poll(() => count('earBack'), { timeout: 30_000 }).toBe(backs + 1)
    await pilot.say({ file: 'zfw-final' })
    const heard = (await pilot.events()).findLast(({ evidence }) => evidence !== undefined)
    expect(['answered', 'overheard']).toContain(heard?.type)
    await atFirstItem()
  })
})

test('through all of it no event is lost, and nothing is said on the console', async () => {
  const events = await pilot.events()
  expect(events.map(({ seq }) => seq)).toEqual(events.map((_, index) => index))
  expect(opened.errors()).toEqual([])
})
