/** The app's own voice and a quick pilot on one line. */

import { afterEach, expect, inject, test } from 'vitest'
import { PRELIMINARY_ANSWERS } from '../../audio/departure.ts'
import { goOnFlown } from '../flown.ts'
import { openPage, type TestPage } from '../page.ts'
import { pilotAt } from '../pilot.ts'

let opened: TestPage | undefined
afterEach(async () => {
  await opened?.close()
  opened = undefined
})

/** Longer than the ear's own wait behind the voice and that of the pilot together. */
const BUSY_MS = 500
/** Sayings of one answer. */
const MOST = 5
/** Between the ear's opening and an answer at 200 ms are 20 ms to spare: a machine may be held up for that once. */
const CUT_AT_MOST = 1

test('an answer 200 ms behind the voice keeps its first word, though the page is busy then; the voice is never judged', async () => {
  opened = await openPage({ address: inject('address'), hasLine: true, echo: 0.5 })
  await goOnFlown(opened, ['load figures list'], { settings: { rate: 1 } })
  const pilot = pilotAt(opened)
  const heard = async () =>
    (await pilot.events()).filter(({ evidence }) => (evidence as { by?: string })?.by === 'voice')
  const told = async () =>
    (await heard()).map(({ type, item, because, evidence, judgement }) => ({
      ...{ type, item, because, firstWord: (evidence as { text: string }).text.split(' ')[0] },
      verdict: (judgement as { verdict?: string } | undefined)?.verdict,
    }))
  const ITEMS = ['zeroFuelWeight', 'trim', 'v1', 'vr', 'v2', 'thrust', 'loadSheet']
  let sayings = 0
  let cut = 0
  for (const [index, spoken] of PRELIMINARY_ANSWERS.slice(1).entries()) {
    let last: Awaited<ReturnType<typeof told>>[number] | undefined
    // The ear may ask again, as of anybody; an onset that it has cut it would not ask about but void.
    const isAsked = () => last === undefined || last.verdict === 'sayAgain' || last.because === 'onsetCut'
    for (let times = 1; times <= MOST && isAsked(); times++) {
      if (sayings++ === 0) await pilot.say(spoken)
      else await pilot.sayBehind(spoken, { afterMs: 200, busyMs: BUSY_MS })
      last = (await told()).at(-1)
      if (last?.because === 'onsetCut') cut++
      else expect(last).toMatchObject({ type: 'answered', item: `loadFigures.${ITEMS[index]}` })
      expect(cut).toBeLessThanOrEqual(CUT_AT_MOST)
    }
    expect(last).toMatchObject({ firstWord: spoken.text.split(' ')[0], verdict: 'correct' })
  }
  // As often as the pilot spoke, and not for the voice.
  expect(await heard()).toHaveLength(sayings)
})
