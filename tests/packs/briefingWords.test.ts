/** Topics of both packs' briefings as different captains would word them; and what a briefing must never say, in any of these words. */

import { beforeAll, describe, expect, it } from 'vitest'
import { transcriptOf } from '../../src/kernel/numbers/tokens.ts'
import type { Pack } from '../../src/kernel/pack/checklist.ts'
import { figuresFor } from '../../src/kernel/pack/place.ts'
import { topicsIn } from '../../src/kernel/response/topics.ts'
import type { RunState } from '../../src/kernel/run/core/state.ts'
import { topicsOf } from '../../src/kernel/run/talk/briefing.ts'
import { briefingsOf } from '../../src/kernel/run/talk/talk.ts'
import { flown } from '../app/flown.ts'
import { marramLines, twinLines } from '../flight/lines.ts'

type Name = 'marram' | 'pair'
const at = {} as Record<Name, { readonly pack: Pack; readonly state: RunState }>

beforeAll(async () => {
  const jet = marramLines('icao', 'push')
  const twin = twinLines('icao')
  at.marram = await flown('marram', jet.slice(0, jet.indexOf('runway two four, lantern two alfa departure')))
  at.pair = await flown('pair', twin.slice(0, twin.indexOf('departing runway one one, rotate seven seven')))
}, 60_000)

function said(name: Name, text: string) {
  const { pack, state } = at[name]
  const topics = briefingsOf(pack).flatMap((briefing) => topicsOf(briefing, state))
  const names = topics.flatMap(({ say }) => say.flatMap(({ figures }) => figures))
  const found = topicsIn(topics, figuresFor(pack, state.values, names), transcriptOf(text)).topics
  return Object.fromEntries(Object.entries(found).map(([id, is]) => [id.split('.')[1], is]))
}

const WORDED: readonly [Name, string, readonly string[]][] = [
  ['marram', 'runway', ['taking off from two four', 'runway in use two four', 'departure runway is two four']],
  [
    'marram',
    'level',
    ['level off at five thousand', 'first altitude five thousand feet', 'climb to five thousand feet'],
  ],
  ['marram', 'speeds', ['V1 128, VR 134, V2 141', 'decision speed one two eight, rotate at one three four']],
  [
    ...(['marram', 'reject'] as const),
    [
      "any failure before V one I'll call stop, thrust levers idle, maximum braking",
      'below V one any fire, failure or unsafe condition I reject',
      'for any failure before V one we abort',
      'before V1, stop',
      'up to V one we reject',
      'prior to V one I will stop',
      "if we have a failure before V one I'll say stop",
      "anything before V one we're stopping",
      'low speed reject for anything',
      'before V one no continuing, we stop',
    ],
  ],
  [
    ...(['marram', 'failure'] as const),
    [
      'failure at or after V one, continue, rotate at V r',
      "after V one we're going flying",
      'past V1 we fly',
      'continue beyond V one',
      'once past V one we continue',
      'losing an engine after V one we climb straight ahead to one thousand',
      'after V one no stop, we continue',
      'after V one we stop, correction, we continue',
    ],
  ],
  ['pair', 'rotate', ['rotation at seven seven', 'unstick at seven seven', 'V R seven seven']],
  ['pair', 'control', ['V M C six two', 'V M C A is six two']],
  [
    ...(['pair', 'before'] as const),
    [
      'anything before lift off, throttles closed and brakes',
      "any problem before rotation we'll stop",
      'close the throttles before lift off',
      'before rotate I reject',
    ],
  ],
  ['pair', 'gearDown', ['gear down, landing straight ahead', 'gear still down and runway left, land ahead']],
  [
    'pair',
    'gearUp',
    ['no runway left, gear up, identify verify feather', 'identify the engine, then verify, then feather'],
  ],
  ['pair', 'bestRate', ['best rate of climb speed niner zero', 'single engine climb speed niner zero']],
]

describe('a topic of a briefing', () => {
  it.each(WORDED.flatMap(([name, topic, all]) => all.map((text) => [text, name, topic] as const)))(
    '"%s" (%s) covers %s alone',
    (text, name, topic) => {
      expect(said(name, text)).toEqual({ [topic]: 'ok' })
    },
  )

  it.each([
    ...['acceleration altitude one thousand five hundred', 'acceleration altitude five thousand'],
    ...['transition altitude six thousand', 'minimum safe altitude four thousand'],
  ])('"%s" is not the first level', (text) => {
    expect(said('marram', text)).toEqual({})
  })

  it('is not covered by what is denied', () => {
    const none = ['before V one we do not stop', 'before V one we will never, whatever happens, stop']
    for (const text of [...none, 'after V one we will not continue']) expect(said('marram', text), text).toEqual({})
    expect(said('pair', 'before lift off the doors are closed')).toEqual({})
  })
})

describe('what a briefing must never say', () => {
  it.each([
    ['marram', 'after V1 we stop', { failure: 'wrong' }],
    ['marram', 'beyond V one we stop', { failure: 'wrong' }],
    ['marram', 'at V one I reject', { failure: 'wrong' }],
    ['marram', 'after V one, going to stop', { failure: 'wrong' }],
    ['marram', 'after V one we continue, correction, we stop', { failure: 'wrong' }],
    ['marram', 'before V1 we go', { reject: 'wrong' }],
    ['marram', 'prior to V one I continue', { reject: 'wrong' }],
    ['marram', 'stop after V one, go before V one', { reject: 'wrong', failure: 'wrong' }],
    ['pair', 'before rotation we fly', { before: 'wrong' }],
    ['pair', 'before lift off close the gap and continue', { before: 'wrong' }],
  ] as const)('%s: "%s"', (name, text, topics) => {
    expect(said(name, text)).toEqual(topics)
  })
})
