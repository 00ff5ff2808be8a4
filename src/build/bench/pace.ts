/**
 * How fast a list goes in a real browser, from recordings of what is to be heard. Wall times: to be measured on a
 * machine that does nothing else. Needs Chromium or Chrome.
 */

import { paceAt, type Turn } from '../../../tests/browser/pace.ts'
import { serveSite } from '../../../tests/browser/site.ts'
import { findChromium } from '../../../tests/chromium.ts'
import { percentile } from './tally.ts'

/** Two lists, flown so many times. */
const FLIGHTS = 3
/** What is aimed at, of half of all turns. */
const GOALS: Readonly<Record<string, number>> = { answerToVoice: 600, item: 2_500 }

/** Nothing where there is no browser. */
export async function measure(): Promise<Record<string, number>> {
  if (!findChromium()) return {}
  const served = await serveSite()
  try {
    const turns: Turn[] = []
    for (let flight = 0; flight < FLIGHTS; flight++) turns.push(...(await paceAt(served.address)))
    const items = turns.flatMap(({ item }) => (item === undefined ? [] : [item]))
    return {
      'pace.turns': turns.length,
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
  return [
    `| ms, of ${measured['pace.turns']} turns | median | 95 of 100 | goal |`,
    '| --- | --- | --- | --- |',
    ...rows,
  ].join('\n')
}
