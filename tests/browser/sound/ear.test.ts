/** A dead ear is heard and seen, and comes back: everything that may happen to microphone, worker and sound in a run. */

import { afterAll, beforeAll, describe, expect, inject, test } from 'vitest'
import { openPage, type TestPage } from '../page.ts'
import { type Pilot, pilotAt } from '../pilot.ts'

let opened: TestPage
let pilot: Pilot
beforeAll(async () => {
  opened = await openPage({ address: inject('address') })
  pilot = pilotAt(opened)
  await pilot.begin()
  for (let sayings = 1; sayings <= 5 && (await count('listCalled')) === 0; sayings++) {
    await pilot.say({ file: 'call-figures' })
    await pilot.listened()
  }
})
afterAll(() => opened.close())

/** A worker that dies is given time before it counts as dead. */
const WAIT = { timeout: 150_000 }

const last = async (type: string) => (await pilot.events()).filter((event) => event.type === type).at(-1)
const lastVerdict = async () => ((await last('answered'))?.judgement as { verdict: string } | undefined)?.verdict
const count = async (type: string) => (await pilot.events()).filter((event) => event.type === type).length
const banner = () => opened.page.getByRole('alert')
const atFirstItem = async () => expect(await pilot.headline()).toBe('zero fuel weight')

/** Starts to answer, and lets something happen in the middle of it. */
async function answerWhile(happen: () => Promise<unknown>): Promise<void> {
  await pilot.listened()
  const speaking = pilot.speak({ file: 'zfw-preliminary' })
  await new Promise((done) => setTimeout(done, 600))
  await happen()
  await speaking
}

/** The wrong answer; where the ear asks again, once more, as a pilot would. */
async function answerWrong(): Promise<void> {
  for (let tries = 1; tries <= 5; tries++) {
    const answers = await count('answered')
    await pilot.say({ file: 'zfw-final' })
    await expect.poll(() => count('answered'), WAIT).toBe(answers + 1)
    if ((await lastVerdict()) !== 'sayAgain') return
  }
}

/** The item is open, is put again, and a wrong answer to it is understood and refused as ever. */
async function hearsAgain(backs: number): Promise<void> {
  await expect.poll(() => count('earBack'), WAIT).toBe(backs)
  await pilot.listened()
  expect(await pilot.said()).toContain('I hear you again. Zero fuel weight?')
  await answerWrong()
  expect(await last('answered')).toMatchObject({
    item: 'loadFigures.zeroFuelWeight',
    evidence: { by: 'voice', text: 'two four six two zero' },
    judgement: { verdict: 'negative' },
  })
  await atFirstItem()
}

/** Something goes wrong: it must come back once more than it has so far. */
async function comesBackFrom(what: () => Promise<unknown>): Promise<void> {
  const backs = await count('earBack')
  await what()
  await hearsAgain(backs + 1)
}

const tryAgain = () => opened.page.getByRole('button', { name: 'Try the microphone again' }).click()
const unplugged = async () => {
  await opened.page.evaluate(() => window.microphone.unplug())
  await banner().waitFor()
}
/** As when the code of a worker throws what nobody catches. */
const crashWorker = () =>
  opened.page.evaluate(() => void window.made.workers.at(-1)?.dispatchEvent(new ErrorEvent('error')))

describe('behind an answer that was understood', () => {
  test('the second pass learns how high the voice resonates, while the app speaks', async () => {
    const studied = async () => {
      const kept = await opened.page.evaluate(() => sessionStorage.getItem('otherseat.speaker'))
      return JSON.parse(kept ?? '{}').cleaned?.warp?.utterances ?? 0
    }
    await expect.poll(studied, WAIT).toBeGreaterThan(0)
  })
})

describe('in the middle of an answer', () => {
  test('a microphone that is unplugged is told aloud and on the screen, and comes back with its plug', async () => {
    await answerWhile(() => opened.page.evaluate(() => window.microphone.unplug()))
    await banner().filter({ hasText: 'The microphone is gone' }).waitFor()
    await expect.poll(() => count('earFailed'), WAIT).toBe(1)
    expect(await last('earFailed')).toMatchObject({ message: expect.stringContaining('plug it in') })
    await expect.poll(() => pilot.said(), WAIT).toContain('Nothing heard. Microphone? Zero fuel weight?')
    expect(await count('answered')).toBe(0)
    await opened.page.evaluate(() => navigator.mediaDevices.dispatchEvent(new Event('devicechange')))
    await hearsAgain(1)
    expect(await banner().count()).toBe(0)
  })

  test.each([
    [
      'both of its workers die without a word',
      () => opened.page.evaluate(() => window.made.workers.slice(-2).map((one) => one.terminate()).length),
    ],
    ['a worker crashes', crashWorker],
    [
      'the worker of the second pass dies without a word',
      () => opened.page.evaluate(() => window.made.workers.at(-1)?.terminate()),
    ],
  ] as const)('a recogniser is started again where %s, and the item is put again', async (_what, kill) => {
    const answers = await count('answered')
    await comesBackFrom(() => answerWhile(kill))
    expect(await count('answered')).toBeGreaterThan(answers)
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
    await comesBackFrom(() => opened.page.mouse.click(5, 400))
  })

  test('a microphone that the system mutes for good is told', async () => {
    await opened.page.evaluate(() => window.microphone.mute(true))
    await banner().filter({ hasText: 'muted the microphone' }).waitFor()
    await opened.page.evaluate(() => window.microphone.mute(false))
    await comesBackFrom(tryAgain)
  })
})

describe('when it is asked for again', () => {
  test.each([
    ['NotAllowedError', 'The microphone is not allowed; allow it at the padlock'],
    ['NotFoundError', 'No microphone was found; plug one in'],
    ['NotReadableError', 'another program may hold it; close that'],
  ])('a microphone that is not given (%s) is told with what to do, and heard once it is given', async (name, line) => {
    await unplugged()
    await opened.page.evaluate((name) => window.microphone.refuse(name), name)
    await tryAgain()
    await banner().filter({ hasText: line }).waitFor()
    const answers = await count('answered')
    await pilot.type('one two three')
    await expect.poll(() => count('answered'), WAIT).toBe(answers + 1)
    expect(await last('answered')).toMatchObject({ evidence: { by: 'typed', text: 'one two three' } })
    await opened.page.evaluate(() => window.microphone.refuse(undefined))
    await comesBackFrom(tryAgain)
  })

  test.each([
    ['refuses to start', true],
    ['never starts', false],
  ])('a sound that %s is told, and starts later', async (_what, isRefused) => {
    await unplugged()
    await opened.page.evaluate((isRefused) => {
      const { addModule } = AudioWorklet.prototype
      AudioWorklet.prototype.addModule = () => {
        AudioWorklet.prototype.addModule = addModule
        return isRefused ? Promise.reject(new DOMException('no sound', 'AbortError')) : new Promise(() => {})
      }
    }, isRefused)
    await tryAgain()
    await banner().filter({ hasText: 'sound did not start' }).waitFor()
    await comesBackFrom(tryAgain)
  })
})

test('a recogniser that stops twice in a row is given up, which is told, and may be asked for again', async () => {
  const backs = await count('earBack')
  await crashWorker()
  await expect.poll(() => count('earBack'), WAIT).toBe(backs + 1)
  await crashWorker()
  await banner().filter({ hasText: 'The recogniser stopped twice' }).waitFor()
  await comesBackFrom(tryAgain)
})

describe('a microphone of', () => {
  test.each([
    // More rates are played to the app's own conversion in Node.
    [8_000, 1, false],
    [96_000, 2, false],
    // As where the browser converts nothing.
    [44_100, 2, true],
  ] as const)('%i Hz with %i channels is understood (converted by the app: %s)', async (rate, channels, isOwnRate) => {
    await opened.page.evaluate((change) => window.microphone.change(...change), [rate, channels, isOwnRate] as const)
    await unplugged()
    await comesBackFrom(tryAgain)
    const used = await opened.page.evaluate(() => window.made.contexts.map(({ sampleRate }) => sampleRate))
    expect(used).toContain(isOwnRate ? rate : 16_000)
  })
})

describe('the second model', () => {
  const note = () => opened.page.getByText(/second model/)

  test('is there once it is loaded', async () => {
    await note().waitFor({ state: 'hidden' })
    expect(await opened.page.evaluate(() => window.made.rescorers.length)).toBe(1)
  })

  test('is done without where it dies without a word', async () => {
    await opened.page.evaluate(() => window.made.rescorers.at(-1)?.terminate())
    await pilot.listened()
    await answerWrong()
    expect(await lastVerdict()).toBe('negative')
    expect(await note().textContent()).toBe('The second model did not load: other speech may be taken for an answer.')
    await atFirstItem()
  })
})

test('through all of it no event is lost, and nothing is said on the console', async () => {
  const events = await pilot.events()
  expect(events.map(({ seq }) => seq)).toEqual(events.map((_, index) => index))
  expect(opened.errors()).toEqual([])
})
