/** "Stop" by voice in a real browser, at six places of the demo with the voices outside the crew. */

import { afterEach, describe, expect, inject, test } from 'vitest'
import { TALK, TO_ALTIMETERS, TO_AWAY, TO_CLEARANCE, TO_CREW } from '../../app/demoAnswers.ts'
import { STOPS } from '../../audio/stop.ts'
import { goOnFlown } from '../flown.ts'
import { openPage, type TestPage } from '../page.ts'
import { pilotAt } from '../pilot.ts'
import { until } from '../until.ts'

let opened: TestPage | undefined
afterEach(async () => {
  await opened?.close()
  opened = undefined
})

const ALL = [...TO_CLEARANCE, ...TO_ALTIMETERS, ...TO_CREW, ...TO_AWAY]
/** The last place at which this was the right answer. */
const upTo = (answer: string) => ALL.slice(0, ALL.lastIndexOf(answer) + 1)

const WAITS = 'standing by'
const BRAKES = 'confirm brakes set?'
const PLACES = [
  ['at an item with a value', ['load figures list'], WAITS],
  ['where a read-back is owed', upTo('request clearance'), WAITS],
  ['at an item in words', upTo('before start list'), WAITS],
  ['with the ground crew', upTo('all pumps on'), BRAKES],
  ['in the push', upTo('brakes released'), BRAKES],
  ['in an engine start', upTo('rotation seen'), BRAKES],
] as const

const SAYINGS = 3

describe('"stop"', () => {
  test.each(PLACES)('%s is heard, and taken for nothing else', async (place, answers, headline) => {
    opened = await openPage({ address: inject('address') })
    await goOnFlown(opened, [...answers], { talk: TALK })
    const pilot = pilotAt(opened)
    const stop = STOPS[PLACES.findIndex(([name]) => name === place)]
    if (!stop) throw new Error(`no stop is spoken ${place}`)
    const before = (await pilot.events()).length
    const heard = async () =>
      (await pilot.events())
        .slice(before)
        .flatMap(({ type, command, evidence }) =>
          (evidence as { by?: string } | undefined)?.by === 'voice' ? [command ?? type] : [],
        )
    // Without the second model a single short word is doubted more.
    const { page, requests } = opened
    await until(() => requests.some((url) => url.includes('/rescorer-')), 60_000)
    await page.getByText('The second model is loading').waitFor({ state: 'detached' })
    for (let sayings = 1; sayings <= SAYINGS && !(await heard()).includes('stop'); sayings++) await pilot.say(stop)
    expect((await heard()).filter((what) => what !== 'overheard')).toEqual(['stop'])
    await opened.page.getByRole('heading', { level: 1 }).getByText(new RegExp(headline, 'i')).waitFor()
    expect((await pilot.headline()).toLowerCase()).toContain(headline)
  })
})
