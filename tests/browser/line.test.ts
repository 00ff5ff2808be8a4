/** The app's own voice and a quick pilot on one line. */

import { afterEach, expect, inject, test } from 'vitest'
import { PRELIMINARY_ANSWERS } from '../audio/departure.ts'
import { goOnFlown } from './flown.ts'
import { openPage, type TestPage } from './page.ts'
import { pilotAt } from './pilot.ts'

let opened: TestPage | undefined
afterEach(async () => {
  await opened?.close()
  opened = undefined
})

/** Longer than the ear's own wait behind the voice and that of the pilot together. */
const BUSY_MS = 500

test('an answer 200 ms behind the voice keeps its first word, though the page is busy then; the voice is never judged', async () => {
  opened = await openPage({ address: inject('address'), hasLine: true, echo: 0.5 })
  await goOnFlown(opened, ['load figures list'], { settings: { rate: 1 } })
  const pilot = pilotAt(opened)
  const [, first, ...quick] = PRELIMINARY_ANSWERS
  if (!first) throw new Error('there is no answer')
  await pilot.say(first)
  for (const spoken of quick) await pilot.sayBehind(spoken, { afterMs: 200, busyMs: BUSY_MS })

  const heard = (await pilot.events()).filter(({ evidence }) => (evidence as { by?: string })?.by === 'voice')
  const told = heard.map(({ type, item, evidence, judgement }) => ({
    ...{ type, item },
    firstWord: (evidence as { text: string }).text.split(' ')[0],
    verdict: (judgement as { verdict?: string } | undefined)?.verdict,
  }))
  expect(told).toEqual(
    ['zeroFuelWeight', 'trim', 'v1', 'v2', 'thrust'].map((item, index) => ({
      ...{ type: 'answered', item: `loadFigures.${item}` },
      firstWord: [first, ...quick][index]?.text.split(' ')[0],
      verdict: 'correct',
    })),
  )
})
