/** What happens in a run beside right answers, by voice in a real browser. */

import { readFile } from 'node:fs/promises'
import { afterEach, describe, expect, inject, test } from 'vitest'
import { readWav } from '../../../src/adapters/ear/audio/wav.ts'
import { filesInZip } from '../../../src/packs/files/zip.ts'
import type { SpokenAnswer } from '../../audio/departure.ts'
import { CONTINUE, FROM_THE_TOP, GO_BACK, LEAVE_OPEN, NO_LIGHT_UP, STAND_BY } from '../../audio/run.ts'
import { type FlownOptions, goOnFlown } from '../flown.ts'
import { loudestWhile } from '../listen.ts'
import { openPage, type PageOptions, type TestPage } from '../page.ts'
import { type Pilot, pilotAt } from '../pilot.ts'

let opened: TestPage | undefined
afterEach(async () => {
  await opened?.close()
  opened = undefined
})

async function goOn(
  answers: readonly string[],
  { canBeHidden, ...options }: FlownOptions & Pick<PageOptions, 'canBeHidden'> = {},
): Promise<{ test: TestPage; pilot: Pilot }> {
  opened = await openPage({ address: inject('address'), ...(canBeHidden && { canBeHidden }) })
  await goOnFlown(opened, answers, options)
  return { test: opened, pilot: pilotAt(opened) }
}

const FIGURES = [
  ...['load figures list', 'two four three six zero', 'four point three up', 'one two six', 'one three two'],
  ...['one three nine', 'niner zero point four', 'edition one, seven zero on board'],
]
const TO_THE_LINE = [
  ...[
    'before start list',
    'brake set',
    'signs on',
    'four eight eight zero',
    'five two four zero',
    'one zero zero niner',
    'four two seven one',
  ],
]
const BEHIND_THE_LINE = ['we are cleared to push', 'all closed slides armed', 'beacon on', 'all pumps on']

/** What came of sayings, without the prompts between them. */
const heard = async (pilot: Pilot) =>
  (await pilot.events()).filter(({ evidence }) => (evidence as { by?: string } | undefined)?.by === 'voice')
const last = async (pilot: Pilot) => (await heard(pilot)).at(-1)
const closed = async (pilot: Pilot) => (await pilot.events()).filter(({ type }) => type === 'answered').length

const SAYINGS = 5
const isSayAgain = (event?: Record<string, unknown>) =>
  (event?.judgement as { verdict?: string } | undefined)?.verdict === 'sayAgain'

/** Says it, and again where the ear asks for it, as a pilot would; the event that came of it. */
async function sayUntil(
  pilot: Pilot,
  spoken: Pick<SpokenAnswer, 'file'>,
  type: string,
  say: (spoken: Pick<SpokenAnswer, 'file'>) => Promise<void> = pilot.say,
) {
  for (let sayings = 1; sayings <= SAYINGS; sayings++) {
    await say(spoken)
    const event = await last(pilot)
    if (event?.type === type && !isSayAgain(event)) return event
  }
  throw new Error(`${spoken.file}: ${JSON.stringify((await pilot.events()).slice(-3))}`)
}

describe('at the line', () => {
  test('the list stops, takes no answer of an item below it, and goes on when the clearance is said', async () => {
    const { pilot } = await goOn([...FIGURES, ...TO_THE_LINE.slice(0, -1)])
    expect(await pilot.headline()).toBe('transponder')
    expect(await sayUntil(pilot, { file: 'transponder' }, 'answered')).toMatchObject({
      judgement: { verdict: 'correct' },
    })
    await pilot.listened()
    expect(await pilot.said()).toContain('Before start list to the line. Waiting for push clearance.')
    const before = await closed(pilot)
    await pilot.say({ file: 'doors' })
    expect(await last(pilot)).toMatchObject({ type: 'overheard', evidence: { by: 'voice' } })
    expect(await pilot.headline()).toBe('waiting: push clearance')
    expect(await closed(pilot)).toBe(before)
    expect(await sayUntil(pilot, { file: 'push' }, 'cleared')).toMatchObject({
      clearance: 'push',
      evidence: { by: 'voice' },
    })
    await pilot.listened()
    expect(await pilot.said()).toContain('Below the line. Doors?')
  })
})

test('words that have no clip are spoken all the same and taken for no answer; what is answered is kept and heard again', async () => {
  opened = await openPage({ address: inject('address'), echo: 1 })
  const { page, requests, errors } = opened
  const settings = { keepsSound: true, welcomed: true }
  await goOnFlown(opened, FIGURES.slice(0, 1), { settings, words: { 'zero fuel weight': 'cargo hood weight' } })
  const pilot = pilotAt(opened)
  await pilot.listened()
  await loudestWhile(page, async () => {
    await pilot.type('say again')
    await page.waitForFunction(() => window.loudest > 0.2)
  })
  await pilot.listened()
  expect(requests.filter((url) => /otherseat-[^/]*\.wasm/.test(url))).toHaveLength(1)
  expect(await page.getByText('The voice cannot be heard').count()).toBe(0)
  expect(await heard(pilot)).toEqual([])
  const answered = await sayUntil(pilot, { file: 'zfw-preliminary' }, 'answered')
  expect(answered).toMatchObject({ judgement: { verdict: 'correct' } })

  // The run ended and the page loaded anew, it is played from what the browser has kept.
  await pilot.show('Debrief')
  await page.getByRole('button', { name: 'End the run' }).click()
  await page.getByRole('button', { name: 'End it now' }).click()
  // Only a run that is over can be played back.
  await page.getByRole('button', { name: 'Replay' }).waitFor()
  await page.goto(`${inject('address')}#runs`)
  await page.reload()
  await page.getByRole('button', { name: /^Debrief of / }).click()
  await page.getByText(/^Lists/).click()
  await page.getByText('What was said to cargo hood weight').click()
  const level = await loudestWhile(page, async () => {
    await page
      .getByRole('button', { name: /^Hear it/ })
      .last()
      .click()
    await page.getByRole('button', { name: /^Stop/ }).waitFor()
    await page
      .getByRole('button', { name: /^Hear it/ })
      .last()
      .waitFor()
  })
  expect(level).toBeGreaterThan(0.1)
  const download = page.waitForEvent('download')
  await page.getByRole('button', { name: 'Save the run' }).click()
  const sounds = await soundsIn(await readFile(await (await download).path()))
  const own = sounds.find(({ path }) => path.endsWith(`/sound/${String(answered?.seq).padStart(5, '0')}.wav`))
  // As long as it was said, with what was kept around it.
  const { beganAt = 0, endedAt = 0 } = (answered?.evidence ?? {}) as { beganAt?: number; endedAt?: number }
  expect(own?.seconds).toBeGreaterThanOrEqual((endedAt - beganAt) / 1_000)
  expect(own?.seconds).toBeLessThan((endedAt - beganAt) / 1_000 + 1)
  expect(own?.loudest).toBeGreaterThan(0.05)
  expect(opened.foreign()).toEqual([])
  expect(errors()).toEqual([])
})

/** Sound files of a saved run, read as any program would. */
async function soundsIn(zip: Uint8Array) {
  const files = filesInZip(new Uint8Array(zip))
  if ('wrong' in files) throw new Error(files.wrong)
  return Promise.all(
    files
      .filter(({ path }) => path.endsWith('.wav'))
      .map(async ({ path, bytes }) => {
        const file = await bytes()
        const wav = 'wrong' in file ? { problem: file.wrong } : readWav(file)
        if ('problem' in wav) throw new Error(wav.problem)
        const loudest = wav.pcm.reduce((most, sample) => Math.max(most, Math.abs(sample)), 0)
        return { path, seconds: wav.pcm.length / 16_000, loudest }
      }),
  )
}

describe('an interruption', () => {
  test('is announced; on return the place is said, and one item back or the top of the list is to be had', async () => {
    const { pilot } = await goOn(FIGURES.slice(0, 3), { run: { breakAfterS: 1 } })
    expect(await pilot.headline()).toBe('v one')
    expect(await sayUntil(pilot, STAND_BY, 'commanded')).toMatchObject({ command: 'standBy' })
    await pilot.listened()
    expect(await pilot.headline()).toBe('standing by')
    // An answer now is for somebody else.
    await pilot.say({ file: 'v1-preliminary' })
    expect(await last(pilot)).toMatchObject({ type: 'overheard' })
    expect(await sayUntil(pilot, CONTINUE, 'commanded')).toMatchObject({ command: 'continue' })
    await pilot.listened()
    expect(await pilot.said()).toContain('Resuming load figures list, one back if you like. V one?')
    expect(await sayUntil(pilot, GO_BACK, 'commanded')).toMatchObject({ command: 'goBack' })
    await pilot.listened()
    expect(await pilot.headline()).toBe('takeoff trim')
    expect(await sayUntil(pilot, FROM_THE_TOP, 'commanded')).toMatchObject({ command: 'fromTop' })
    await pilot.listened()
    expect(await pilot.headline()).toBe('zero fuel weight')
  })
})

describe('an item that is left open', () => {
  test('is passed by, asked for again behind the last one, and the list is complete only with it', async () => {
    const { pilot } = await goOn(FIGURES.slice(0, 5))
    expect(await pilot.headline()).toBe('v two')
    expect(await sayUntil(pilot, LEAVE_OPEN, 'commanded')).toMatchObject({ command: 'leaveOpen' })
    await pilot.listened()
    expect(await pilot.headline()).toBe('takeoff fan speed')
    await pilot.type('niner zero point four')
    await pilot.type('edition one, seven zero on board')
    await pilot.listened()
    expect(await pilot.headline()).toBe('v two')
    expect(await pilot.said()).not.toContain('complete')
    expect(await sayUntil(pilot, { file: 'v2-preliminary' }, 'answered')).toMatchObject({
      judgement: { verdict: 'correct' },
    })
    await pilot.listened()
    expect(await pilot.said()).toContain('Load figures list complete')
  })
})

describe('an engine start behind another window', () => {
  test('in which no call comes is questioned at the limit with the stop words; an abnormal call draws them at once', async () => {
    const { test: page, pilot } = await goOn([...FIGURES, ...TO_THE_LINE, ...BEHIND_THE_LINE], { canBeHidden: true })
    const began = await sayUntil(pilot, { file: 'start-right' }, 'watchBegan')
    const simulator = await page.context.newPage()
    await simulator.bringToFront()
    await expect.poll(() => page.page.evaluate(() => document.visibilityState)).toBe('hidden')

    const dues = async () => (await pilot.events()).filter(({ type }) => type === 'watchDue')
    await expect.poll(dues, { timeout: 60_000 }).toHaveLength(2)
    const [asked, limit] = await dues()
    expect(asked).toMatchObject({ watch: 'rightStart', call: 'turning', stage: 'ask' })
    expect(limit).toMatchObject({ watch: 'rightStart', call: 'turning', stage: 'limit' })
    // From the onset of what began it, and not before the pack's time.
    expect(Number(limit?.t) - Number(began.at)).toBeGreaterThanOrEqual(9_000)
    await pilot.listened()
    expect(await pilot.said()).toContain('No rotation. Fuel off, or call it.')

    expect(await sayUntil(pilot, NO_LIGHT_UP, 'watchStopped')).toMatchObject({ abnormal: 'noLight' })
    await page.page.bringToFront()
    expect(await page.page.evaluate(() => document.visibilityState)).toBe('visible')
    await pilot.listened()
    expect(await pilot.said()).toMatch(
      /“Fuel off\. Keep it turning\. Selector off after the time\. Keep it turning to clear the fuel, fifty seconds\. Say from the top/,
    )
    // It was no interruption, and it hears as before.
    expect(await sayUntil(pilot, FROM_THE_TOP, 'commanded')).toMatchObject({ command: 'fromTop' })
    await pilot.listened()
    expect(await pilot.said()).toContain('Not yet, keep it turning to clear the fuel, ')
    expect(page.errors()).toEqual([])
  })
})

describe('push to talk by key', () => {
  const TALK = { type: 'key', code: 'KeyT', label: 'T' } as const
  const HELD_ONLY = { listening: 'push', switches: { talk: TALK, radio: null, confirm: null, freeze: null } } as const

  test('hears only what is said while the key is held, and with it the voice is interrupted', async () => {
    const { test: page, pilot } = await goOn(FIGURES.slice(0, 1), { settings: HELD_ONLY })
    const { keyboard } = page.page
    const ear = page.page.getByLabel('Microphone', { exact: true })
    await ear.getByText('Hold T to talk').waitFor({ timeout: 60_000 })
    const sayHeld: typeof pilot.say = async (spoken) => {
      await keyboard.down('KeyT')
      await pilot.say(spoken)
      await keyboard.up('KeyT')
    }
    await pilot.speak({ file: 'zfw-preliminary' })
    await page.page.waitForTimeout(1_500)
    expect(await heard(pilot)).toEqual([])
    expect(await sayUntil(pilot, { file: 'zfw-preliminary' }, 'answered', sayHeld)).toMatchObject({
      judgement: { verdict: 'correct' },
    })

    const sayInto: typeof pilot.say = async (spoken) => {
      await ear.getByText('Not listening: Otherseat speaks').waitFor()
      await sayHeld(spoken)
    }
    // The next challenge is under way.
    expect(await sayUntil(pilot, { file: 'trim-preliminary' }, 'answered', sayInto)).toMatchObject({
      evidence: { by: 'voice', early: true },
      judgement: { verdict: 'correct' },
    })
    await ear.getByText('Hold T to talk').waitFor()
    expect(await pilot.headline()).toBe('v one')
  })
})
