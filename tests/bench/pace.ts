/**
 * How fast a list goes in a real browser, from recordings of what is to be heard. Wall times: to be measured on a
 * machine that does nothing else. Needs Chromium or Chrome.
 */

import { type Judged, paceAt, type Turn } from '../browser/pace.ts'
import { serveSite } from '../browser/site.ts'
import { findChromium } from '../chromium.ts'
import { percentile } from './tally.ts'

/** Two lists, flown so many times, and once more by a page that is slowed so many times. */
const FLIGHTS = 3
const SLOWER = 6
/** What is aimed at, of half of all turns. */
const GOALS: Readonly<Record<string, number>> = { answerToVoice: 600, item: 2_500 }

/** Nothing where there is no browser. */
export async function measure(): Promise<Record<string, number>> {
  if (!findChromium()) return {}
  const served = await serveSite()
  try {
    const turns: Turn[] = []
    const judged: Judged[] = []
    let again = 0
    for (let flight = 0; flight < FLIGHTS; flight++) {
      const pace = await paceAt(served.address)
      turns.push(...pace.turns)
      judged.push(...pace.judged)
      again += pace.again
    }
    const slowed = await paceAt(served.address, SLOWER)
    const items = turns.flatMap(({ item }) => (item === undefined ? [] : [item]))
    return {
      'pace.turns': turns.length,
      'pace.judged': judged.length,
      'pace.again': again,
      ...spread(
        'voiceToVerdict',
        judged.map(({ fromVoice }) => fromVoice),
      ),
      ...spread(
        'endpointToVerdict',
        judged.map(({ fromEndpoint }) => fromEndpoint),
      ),
      'pace.slowedJudged': slowed.judged.length,
      'pace.slowedAgain': slowed.again,
      ...spread(
        'slowedVoiceToVerdict',
        slowed.judged.map(({ fromVoice }) => fromVoice),
      ),
      ...spread(
        'slowedAnswerToVoice',
        slowed.turns.map(({ toVoice }) => toVoice),
      ),
      ...spread(
        'answerToTick',
        turns.map(({ toTick }) => toTick),
      ),
      ...spread(
        'answerToVoice',
        turns.map(({ toVoice }) => toVoice),
      ),
      ...spread('item', items),
    }
  } finally {
    await served.close()
  }
}

const spread = (name: string, values: readonly number[]) => ({
  [`pace.${name}MedianMs`]: Math.round(percentile(values, 0.5)),
  [`pace.${name}95Ms`]: Math.round(percentile(values, 0.95)),
})

const ROWS = [
  ['voiceToVerdict', 'end of the last voiced frame of a right answer to its verdict, by the log'],
  ['endpointToVerdict', 'end of the pause that ends an answer of its form to the verdict, by the log'],
  ['answerToTick', 'last sound of a right answer to the tick'],
  ['answerToVoice', 'last sound of a right answer to the first sound of the next challenge'],
  ['item', 'one challenge to the next, without the pilot’s own speech (200 ms of thought included)'],
] as const

export function table(measured: Readonly<Record<string, number>>): string {
  if (measured['pace.turns'] === undefined) return 'Not measured: there is no Chromium or Chrome here.'
  const rows = ROWS.map(
    ([name, what]) =>
      `| ${what} | ${measured[`pace.${name}MedianMs`]} | ${measured[`pace.${name}95Ms`]} | ${GOALS[name] ?? ''} |`,
  )
  const ofSlowed = [
    ['slowedVoiceToVerdict', 'end of the last voiced frame to the verdict'],
    ['slowedAnswerToVoice', 'last sound of a right answer to the first sound of the next challenge'],
  ].map(
    ([name, what]) =>
      `| page slowed ${SLOWER} times: ${what} | ${measured[`pace.${name}MedianMs`]} | ${measured[`pace.${name}95Ms`]} | |`,
  )
  return [
    `Right answers that the ear asked for again: ${measured['pace.again']}, by the slowed page ${measured['pace.slowedAgain']}.`,
    '',
    `| ms, of ${measured['pace.judged']} answers and ${measured['pace.turns']} turns told apart by sound | median | 95 of 100 | goal |`,
    '| --- | --- | --- | --- |',
    ...rows,
    ...ofSlowed,
  ].join('\n')
}
