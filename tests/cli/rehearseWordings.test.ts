/** What pilots say, through the run itself: it comes to the verdict that the judge alone comes to, and goes on only where that is right. */

import { describe, expect, it } from 'vitest'
import { type Flown, flyWording } from '../corpus/wordings/flown.ts'
import { itemOf, judgeWording, type Wording, wordingsOf } from '../corpus/wordings/wordings.ts'

/**
 * Where the run goes another way, and why: a call to the ground crew may hold "go ahead"; "stop" is a cry wherever it
 * stands; what of a broadcast may be left out counts only by its name, unless all of it is right; and a station wants a
 * frequency with all its digits.
 */
const OTHERWISE: ReadonlyMap<string, string> = new Map([
  ['go ahead and disconnect', 'correct'],
  ['one and two, idle stop, both fully back', 'command'],
  ['information kilo, three three in use, wind three ten twelve, ten k, fourteen over nine', 'negative'],
  [
    'cleared gull point, tarn two bravo, runway two four, up to five thousand, twenty one six on departure, squawk thirty one forty six, marsh four twenty one',
    'incomplete',
  ],
  [
    'cleared gull point airport, tarn two, then as filed, maintain four thousand, expect three one zero ten minutes after, twenty four eight, squawk twenty five seventeen, marsh four twenty one',
    'incomplete',
  ],
  ['up to one two zero, squawk thirty one sixty four, ground twenty one nine, marsh four twenty one', 'incomplete'],
  ['eighteen one, marsh four twenty one', 'incomplete'],
  ['kilo, runway thirty three, ten oh nine, visibility is good', 'negative'],
])

describe.each(['tuning', 'check'] as const)('the wordings of %s', (set) => {
  it('come out in the run as they are judged', { timeout: 400_000 }, async () => {
    const differ: string[] = []
    const closed: string[] = []
    const lines = wordingsOf(set)
    for (const wording of lines) {
      const flown = await flyWording(wording)
      const expected = OTHERWISE.get(wording.text) ?? judgeWording(wording).verdict
      // An implausible value that was typed to an item is wrong at once.
      const known = [
        expected,
        ...(OTHERWISE.has(wording.text) ? [] : [judgeWording(wording, wording.text, true).verdict]),
      ]
      const isAsExpected = known.includes(flown.verdict) && flown.isClosed === (expected === 'correct')
      if (!isAsExpected) differ.push(told(wording, expected, flown))
      if (wording.truth === 'wrong' && flown.isClosed) closed.push(told(wording, expected, flown))
    }
    expect(differ).toEqual([])
    expect(closed).toEqual([])
    expect(new Set(lines.map((line) => itemOf(line).kind)).size).toBeGreaterThan(6)
    expect(lines.length).toBeGreaterThan(350)
  })
})

const told = (wording: Wording, expected: string, { verdict, isClosed }: Flown) =>
  `${wording.item} (${wording.truth}): "${wording.text}" is ${verdict}${isClosed ? ' and closed' : ''}, not ${expected}`
