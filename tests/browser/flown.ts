/**
 * A run that was left in the middle: flown in Node by typed answers up to the place that a test is about,
 * and put into the page's storage as that page would have kept it.
 */

import type { Settings } from '../../src/app/settings.ts'
import type { RunEvent, RunSettings } from '../../src/kernel/run/core/events.ts'
import { rig } from '../app/rig.ts'
import type { TestPage } from './page.ts'

export interface FlownOptions {
  /** Entered before the first answer, over the preliminary ones. */
  readonly figures?: 'final'
  /** In place of either: a load sheet that holds what the voices outside the crew will say; they are left out without one. */
  readonly talk?: string
  readonly run?: Partial<RunSettings>
  /** Others in place of words of the demo pack, as in a pack of the user's own. */
  readonly words?: Readonly<Record<string, string>>
  /** Settings of the person at the page, where they are not the usual ones. */
  readonly settings?: Partial<Settings>
}

/** A number stands for so many seconds in which nothing is said. */
export type Typed = string | number

/** The log of the demo departure, as far as these answers bring it. */
async function flown(answers: readonly Typed[], { figures, talk, run = {} }: FlownOptions): Promise<RunEvent[]> {
  const { clock, hear, log, revise, settled } = await rig({ settings: run, ...(talk !== undefined && { talk }) })
  if (figures) await revise(figures)
  for (const answer of answers) {
    if (typeof answer === 'string') await hear(answer, { by: 'typed' })
    else clock.advance(answer * 1_000)
    await settled()
  }
  return [...log.events]
}

function otherWords(events: readonly RunEvent[], words: Readonly<Record<string, string>>): RunEvent[] {
  const others = (text: string) => Object.entries(words).reduce((so, [word, other]) => so.replaceAll(word, other), text)
  return events.map((event) => JSON.parse(others(JSON.stringify(event))))
}

/** Leaves such a run in the page, and goes on with it there. */
export async function goOnFlown(test: TestPage, answers: readonly Typed[], options: FlownOptions = {}) {
  await goOn(test, otherWords(await flown(answers, options), options.words ?? {}), options.settings)
}

/** The same with the log of any run. */
export async function goOn({ page }: TestPage, events: readonly RunEvent[], settings: Partial<Settings> = {}) {
  await page.getByRole('button', { name: 'Take your seat' }).waitFor()
  await page.evaluate(
    ([events, settings]) =>
      new Promise<void>((resolve, reject) => {
        localStorage.setItem('otherseat.settings', JSON.stringify(settings))
        const open = indexedDB.open('otherseat')
        open.onerror = () => reject(open.error)
        open.onsuccess = () => {
          const write = open.result.transaction(['events', 'runs'], 'readwrite')
          for (const event of events) write.objectStore('events').put(event)
          write.objectStore('runs').put({ runId: events[0]?.runId, pack: 'demo', startedAt: Date.now(), ended: false })
          write.oncomplete = () => {
            open.result.close()
            resolve()
          }
          write.onerror = () => reject(write.error)
        }
      }),
    // Spoken fast: these tests are not about the voice.
    [events, { welcomed: true, rate: 1.6, ...settings }] as const,
  )
  await page.reload()
  await page.getByRole('button', { name: 'Resume the run' }).click()
  await page.getByRole('region', { name: 'What was heard' }).waitFor()
}
