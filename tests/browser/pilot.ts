/** A pilot at the page: sets up a departure, waits until it listens, and answers with a WAV file. */

import { readFile } from 'node:fs/promises'
import { fileURLToPath } from 'node:url'
import type { SpokenAnswer } from '../audio/departure.ts'
import type { TestPage } from './page.ts'
import { until } from './until.ts'

const file = (path: string) => fileURLToPath(new URL(`../../${path}`, import.meta.url))

/** How long the app may take to speak a challenge, or a station a clearance, and listen. */
const TURN_MS = 150_000
/** How long it may take to recognise something. */
const UNHEARD_MS = 30_000

type By = { readonly by?: string }

export interface Pilot {
  /**
   * From the first visit to the figures of a revision, entered; without voices outside the crew, and without asking for
   * the pilot's own values unless told to. The voice speaks fast.
   */
  begin(how?: { readonly ownValues?: boolean; readonly speed?: string }): Promise<void>
  /** Types an answer, after a transmission once the page listens again, and waits until the page has made something of it. */
  type(text: string): Promise<void>
  enterFigures(name: 'preliminary' | 'final' | 'amended'): Promise<void>
  /** The same in two steps: read in, then entered. */
  draftFigures(name: 'preliminary' | 'final' | 'amended'): Promise<void>
  enterDraft(): Promise<void>
  show(screen: 'Figures' | 'Run' | 'Debrief'): Promise<void>
  /** Waits until the page listens. */
  listened(): Promise<void>
  /** Speaks, whatever the page does. */
  speak(answer: Pick<SpokenAnswer, 'file'>): Promise<void>
  /** Answers once the page listens, and waits until it has made something of it. */
  say(answer: Pick<SpokenAnswer, 'file'>): Promise<void>
  /** The same a set time behind the end of what the page says next, or is saying; `window.line` tells more. */
  sayBehind(answer: Pick<SpokenAnswer, 'file'>, how: { afterMs: number; busyMs?: number }): Promise<void>
  /** In lower case: capitals are the style sheet's. */
  headline(): Promise<string>
  said(): Promise<string>
  /** The log of the run, as stored in the browser. */
  events(): Promise<readonly Record<string, unknown>[]>
}

export function pilotAt({ page, speakWav }: TestPage): Pilot {
  const wav = async (name: string) => new Uint8Array(await readFile(file(`audio/check/departure/${name}.wav`)))
  const ear = page.getByLabel('Microphone', { exact: true })

  async function draftFigures(name: string): Promise<void> {
    const text = await readFile(file(`checklists/marram/inputs/${name}.yaml`), 'utf8')
    await page.getByText('Paste, drop or open a load sheet').click()
    await page.getByLabel('Load sheet as YAML, JSON or CSV').fill(text)
    await page.getByRole('button', { name: 'Read it', exact: true }).click()
  }

  async function enterFigures(name: string): Promise<void> {
    await draftFigures(name)
    await enterDraft()
  }

  async function enterDraft(): Promise<void> {
    await page.getByRole('button', { name: /^Accept figures as revision \d/ }).click()
    await page.getByRole('region', { name: 'What was heard' }).waitFor()
  }

  async function listened(): Promise<void> {
    await ear.getByText(/^Listening$/).waitFor({ timeout: TURN_MS })
  }

  const events = () =>
    page.evaluate(
      () =>
        new Promise<Record<string, unknown>[]>((resolve, reject) => {
          const open = indexedDB.open('otherseat')
          open.onerror = () => reject(open.error)
          open.onsuccess = () => {
            const all = open.result.transaction('events').objectStore('events').getAll()
            all.onsuccess = () => {
              open.result.close()
              resolve(all.result)
            }
            all.onerror = () => reject(all.error)
          }
        }),
    )

  /** Does something, and waits until the log tells what came of it. */
  async function andThen(what: () => Promise<void>): Promise<void> {
    const before = (await events()).length
    await what()
    await until(async () => (await events()).length > before, TURN_MS)
  }

  /** Says something, and waits until the log tells that it was heard; what was not heard at all is waited for for a while. */
  async function andHeard(say: () => Promise<void>): Promise<void> {
    const heard = async () =>
      (await events()).filter(({ evidence }) => (evidence as By | undefined)?.by === 'voice').length
    const [before, eventsBefore] = [await heard(), (await events()).length]
    await say()
    const unheardAt = Date.now() + UNHEARD_MS
    const isOver = async () => Date.now() > unheardAt && (await events()).length > eventsBefore
    await until(async () => (await heard()) > before || (await isOver()), TURN_MS)
  }

  return {
    enterFigures,
    draftFigures,
    enterDraft,
    show: (screen) => page.getByRole('navigation').getByRole('button', { name: screen, exact: true }).click(),
    speak: async ({ file: name }) => speakWav(await wav(name)),
    listened,
    events,
    async begin({ ownValues = false, speed = '1.5' } = {}) {
      await page.getByRole('button', { name: 'Take your seat' }).click()
      await page.getByRole('button', { name: 'Settings' }).click()
      await page.getByRole('radio', { name: /^Off checklists only/ }).check()
      if (!ownValues) await page.getByRole('radio', { name: 'Not asked for' }).check()
      await page.getByLabel(/^Voice speed/).fill(speed)
      await page.getByRole('button', { name: 'Start', exact: true }).click()
      await page.getByRole('button', { name: /Marram/ }).click()
      await page.getByRole('button', { name: 'Enter the figures' }).click()
      await enterFigures('preliminary')
    },
    async say({ file: name }) {
      await listened()
      await andHeard(async () => speakWav(await wav(name)))
    },
    sayBehind: ({ file: name }, { afterMs, busyMs = 0 }) =>
      andHeard(async () => {
        const base64 = Buffer.from(await wav(name)).toString('base64')
        const how = [base64, afterMs, busyMs] as const
        await page.evaluate(([base64, afterMs, busyMs]) => window.line.answer(base64, afterMs, busyMs), how)
      }),
    async type(text) {
      // Otherseat may be cut off; what a station says is heard to its end, as what it gave comes in only then.
      if ((await events()).at(-1)?.type === 'transmitted') await listened()
      await andThen(async () => {
        await page.getByRole('textbox', { name: 'Answer or phrase, typed' }).fill(text)
        await page.keyboard.press('Enter')
      })
    },
    headline: async () => ((await page.getByRole('heading', { level: 1 }).textContent()) ?? '').toLowerCase(),
    said: async () => (await page.locator('.ear').textContent()) ?? '',
  }
}
