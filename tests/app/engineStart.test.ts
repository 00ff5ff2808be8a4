/** The engine start of the demo in the words of pilots: what each is taken for, what is said to it, what the debrief has. */

import { beforeAll, describe, expect, it } from 'vitest'
import { viewOf } from '../../src/app/view/view.ts'
import { debriefLines } from '../../src/cli/debriefText.ts'
import { completeness } from '../../src/kernel/hearing/completeness.ts'
import { grammarOf } from '../../src/kernel/hearing/grammar.ts'
import { startOf } from '../../src/kernel/hearing/grammarWalk.ts'
import { spokenWords } from '../../src/kernel/hearing/phrases.ts'
import { vocabularyOf } from '../../src/kernel/hearing/vocabulary.ts'
import { interpret } from '../../src/kernel/interpret/interpret.ts'
import type { Pack } from '../../src/kernel/pack/checklist.ts'
import { hearableAt } from '../../src/kernel/run/core/hearableAt.ts'
import type { RunState } from '../../src/kernel/run/core/state.ts'
import { debriefOf } from '../../src/kernel/run/debrief/debrief.ts'
import { LEFT, TALK, TO_ALTIMETERS, TO_AWAY, TO_CLEARANCE, TO_CREW } from './demoAnswers.ts'
import { demoPack, rig } from './rig.ts'

const BEGIN = 'starting the right engine'
const ALL = [...TO_CLEARANCE, ...TO_ALTIMETERS, ...TO_CREW, ...TO_AWAY]

async function started(begins = BEGIN) {
  const flight = await rig({ talk: TALK })
  for (const text of [...ALL.slice(0, ALL.indexOf(BEGIN)), begins]) await flight.hear(text, { by: 'typed' })
  /** What is said to it. */
  const say = async (text: string) => {
    const before = flight.voice.said.length
    await flight.hear(text, { by: 'typed' })
    return flight.voice.said.slice(before).map((one) => one.text)
  }
  const call = (label: string) =>
    debriefOf(flight.pack, flight.log.events).watches[0]?.calls.find((one) => one.label === label)
  return { ...flight, say, call }
}

let pack: Pack
let starting: RunState
beforeAll(async () => {
  pack = await demoPack()
  starting = (await started()).state()
})

function takenFor(text: string): string {
  const at = starting.startedAt + starting.t
  const { event } = interpret(pack, starting, {
    text,
    by: 'voice',
    listenId: starting.listenId,
    beganAt: at,
    endedAt: at,
  })
  if (event.type === 'watchCalled') return [event.call, event.value].filter((part) => part !== undefined).join(' ')
  if (event.type === 'watchStopped') return `stopped: ${event.abnormal}`
  return event.type === 'commanded' ? event.command : event.type
}

/** Common practice, no source; "light off", "E G T rising" and "both running" as training notes have them. */
const SAYINGS: readonly (readonly [string, string])[] = [
  ['rotation', 'turning'],
  ['N two rotation', 'turning'],
  ['engine turning', 'turning'],
  ['N one rotation', 'fan'],
  ['fan turning', 'fan'],
  ['two four percent fuel on', 'fuel 24'],
  ['fuel on two four', 'fuel 24'],
  ['at two four percent fuel is on', 'fuel 24'],
  ['fuel is on', 'fuel'],
  ['light off', 'lightUp'],
  ['light up', 'lightUp'],
  ['E G T rising', 'lightUp'],
  ['temperature rising', 'lightUp'],
  ['oil pressure', 'oil'],
  ['oil pressure rising', 'oil'],
  ['peak six eight five', 'peak 685'],
  ['peak temperature seven zero zero degrees', 'peak 700'],
  ['peak', 'peak'],
  ['starter cut out', 'starter'],
  ['starter out', 'starter'],
  ['engine stable five eight percent', 'stable 58'],
  ['stable at five eight', 'stable 58'],
  ['engine running five eight', 'stable 58'],
  ['starter not out', 'stopped: starterIn'],
  ['starter stays in', 'stopped: starterIn'],
  ['tailpipe fire', 'stopped: fire'],
  ['fire in the tail pipe', 'stopped: fire'],
  ['no light up', 'stopped: noLight'],
  ['fuel off', 'stop'],
  ['right engine rotation', 'turning'],
  ['number two light up', 'lightUp'],
  ['right engine stable five nine', 'stable 59'],
]
/** The engine named in the pilot's own way. */
const NAMED: readonly (readonly [string, string])[] = [
  ['right engine stable at fifty nine percent', 'stable 59'],
  ['engine two stable, 59', 'stable 59'],
  ['oil pressure rising on the right engine', 'oil'],
  ['starter out on the right', 'starter'],
  ['fuel on number two at two four percent', 'fuel 24'],
  ['fuel on the right engine two four', 'fuel 24'],
  ['hot start on number two', 'stopped: hot'],
  ['right engine fire', 'stop'],
  ['fire on number two', 'stop'],
  ['stable on number two, fifty nine', 'stable 59'],
  ["number two's stable at fifty eight percent", 'stable 58'],
]
/** In other words than the pack's; the ear's grammar has not all of them. */
const OTHERWISE: readonly (readonly [string, string])[] = [
  ['fan is rotating', 'fan'],
  ['the fan is spinning', 'fan'],
  ["oil pressure's coming up", 'oil'],
  ['oil pressure climbing', 'oil'],
  ['peaked at six ninety', 'peak 690'],
]
/** The end of it, told rather than ordered. */
const ENDED: readonly (readonly [string, string])[] = [
  ['fuel cut off, start aborted', 'stop'],
  ['aborting the start', 'stop'],
  ['no light up, fuel off', 'stopped: noLight'],
]
const NOT_CALLS = [
  'left engine stable five nine',
  'number one light up',
  'engine two four percent fuel on',
  'fuel not on',
  'no fuel',
  'rotation not seen',
  'peak below six eight five',
  'two four percent',
  'not stable five eight',
]

describe('what a pilot calls in the start', () => {
  it.each(SAYINGS)('"%s" is %s', (text, meaning) => expect(takenFor(text)).toBe(meaning))

  it.each(NAMED)('"%s" is %s', (text, meaning) => expect(takenFor(text)).toBe(meaning))

  it.each(OTHERWISE)('"%s" is %s', (text, meaning) => expect(takenFor(text)).toBe(meaning))

  it.each(ENDED)('"%s" is %s', (text, meaning) => expect(takenFor(text)).toBe(meaning))

  it.each(NOT_CALLS)('"%s" is no call', (text) => expect(takenFor(text)).toBe('overheard'))

  it('"both running" is the last call of the left engine, of which the speed is asked', async () => {
    const flight = await rig({ talk: TALK })
    for (const text of [...ALL, '@wait 13s', ...LEFT.slice(0, -1)]) await flight.hear(text, { by: 'typed' })
    await flight.hear('both running')
    expect(flight.said()).toBe('Speed?')
    await flight.hear('five niner')
    expect(flight.said()).toMatch(/^Left engine stable\./)
  })

  it('can be heard in all of these words, the stop words too', () => {
    const from = startOf(grammarOf(hearableAt(pack, starting), vocabularyOf(pack)))
    const unheard = [...SAYINGS.map(([text]) => text), 'both running'].filter((text) => {
      const end = spokenWords(text).reduce<typeof from | undefined>((state, word) => state?.next.get(word)?.(), from)
      return end?.isFinal !== true
    })
    expect(unheard).toEqual([])
  })

  it('is complete with one value, whatever others are asked for, and may go on', () => {
    const hearable = hearableAt(pack, starting)
    // One shape serves all values of a kind, or their number would tell them apart.
    expect(hearable.shapes).toEqual([{ kind: 'integer' }])
    expect(completeness(hearable, 'two four percent')).toBe('complete')
    expect(completeness(hearable, 'fuel on two four')).toBe('complete')
  })
})

describe('a start by the name of its engine', () => {
  it.each(['starting number two', 'starting engine two', 'starting two', 'starting the number two engine'])(
    'is begun by "%s"',
    async (begins) => {
      const { say, state } = await started(begins)
      expect(state().watches.rightStart?.status).toBe('running')
      expect(await say('starting number one')).toEqual(['Not yet, right engine start is not complete.'])
    },
  )
})

describe('before a start was begun', () => {
  it.each(['hot start', 'no oil pressure', 'rotation', 'two four percent fuel on'])(
    '"%s" is told that none is running, and changes nothing',
    async (text) => {
      const { say, state } = await started('done')
      expect(await say(text)).toEqual(['No start is running.'])
      expect(state()).toMatchObject({ watches: {}, standingBy: false, question: undefined })
    },
  )

  it('an abnormal call is told so at other places too', async () => {
    const flight = await rig({ talk: TALK })
    await flight.hear('hot start')
    expect(flight.said()).toBe('No start is running.')
  })

  it.each(['tailpipe fire', 'fire in the tail pipe'])('"%s" is a cry to stop', async (text) => {
    const { say, state } = await started('done')
    expect(await say(text)).toEqual(['Stopping. Confirm brakes set.'])
    expect(state().question).toEqual({ about: 'brakes' })
  })
})

describe('the start of the demo', () => {
  it('is put short; the hold and whose the limits are come once a run', async () => {
    const flight = await rig({ talk: TALK })
    for (const text of [...ALL, '@wait 13s', ...LEFT]) await flight.hear(text, { by: 'typed' })
    const said = flight.voice.said.map(({ text }) => text)
    const having = (words: string) => said.filter((text) => text.includes(words))
    expect(having('Ready for right engine.')).toEqual([
      "Ready for right engine. Hand on the start selector until stable. Limits are the flight manual's. Look before you act.",
    ])
    expect(having('Hand on the start')).toHaveLength(1)
    expect(having('Look before you act')).toHaveLength(1)
    expect(having('Right engine stable.')).toEqual(['Right engine stable.'])
    expect(having('Left engine')).toEqual(['Left engine when ready.', expect.stringMatching(/^Left engine stable\./)])
  })

  it('has no deviation where each call came when it could be seen', async () => {
    const flight = await rig({ talk: TALK })
    for (const text of [...ALL, '@wait 13s', ...LEFT]) await flight.hear(text, { by: 'typed' })
    const debrief = debriefOf(flight.pack, flight.log.events)
    expect(debrief.watches.map(({ status }) => status)).toEqual(['done', 'done'])
    expect(debrief.totals.startDeviations).toBe(0)
    expect(debriefLines(debrief).some((line) => line.includes('in engine starts'))).toBe(false)
  })

  it.each([
    ['two two', ['Twenty two is low. Fuel off, or recheck.'], [22]],
    ['two three', [], []],
  ])('with fuel on at %s percent draws %j', async (speed, words, outside) => {
    const { say, call } = await started()
    for (const text of ['@wait 1s', 'rotation', '@wait 4s']) await say(text)
    expect(await say(`${speed} percent, fuel on`)).toEqual(words)
    expect(call('fuel on')?.outside.map(({ value }) => value)).toEqual(outside)
  })

  it.each([
    ['seven six five', []],
    ['seven six six', ['Seven six six is high. Fuel off, or recheck.']],
  ])('with a peak of %s draws %j', async (peak, words) => {
    const { say } = await started()
    for (const text of ['@wait 1s', 'rotation', '@wait 4s', 'two four percent, fuel on', '@wait 1s', 'light off'])
      await say(text)
    await say('@wait 2s')
    expect(await say(`peak ${peak}`)).toEqual(words)
  })

  it('called at once is questioned call by call; on the screen and in the debrief it stands', async () => {
    const { say, pack: own, state, log } = await started()
    expect(await say('rotation')).toEqual(['Already? Confirm rotation.'])
    expect(viewOf(own, state())).toMatchObject({ headline: 'Already? Confirm rotation.', hint: 'Affirm or negative.' })
    await say('affirm')
    expect(await say('fuel on')).toEqual(['Already? Confirm fuel on.'])
    // The value alone confirms it.
    expect(await say('two four percent')).toEqual([])
    expect(state().watches.rightStart).toMatchObject({ values: { fuel: 24 }, early: { turning: 0, fuel: 0 } })
    const lines = debriefLines(debriefOf(own, log.events))
    expect(lines).toContain('  rotation: after 0.0 s (called after 0.0 s, sooner than it can be seen)')
    expect(lines.some((line) => line.includes('2 in engine starts'))).toBe(true)
  })

  it('ends at a fire in its stop words, the rest is the flight manual’s', async () => {
    const { say, state } = await started()
    expect(await say('fire in the tail pipe')).toEqual(['Fuel off. Then by the flight manual.'])
    expect(state().watches.rightStart).toMatchObject({ status: 'stopped', because: 'tailpipe fire' })
  })
})
