/** Blocks of read-backs, flown in Node by a listener that has nothing but what the stations said. */

import { describe, expect, it } from 'vitest'
import { createVirtualClock } from '../../../src/app/rehearsal/virtualClock.ts'
import { createSession } from '../../../src/app/run/session.ts'
import { newRun } from '../../../src/app/run/storedRun.ts'
import { type DialChosen, dialRunOf, dialTold } from '../../../src/app/training/dialRun.ts'
import type { Dial, RunEvent } from '../../../src/kernel/run/core/events.ts'
import { debriefOf } from '../../../src/kernel/run/debrief/debrief.ts'
import { exchangeAt, pendingTurn, turnState } from '../../../src/kernel/run/talk/talk.ts'
import { edgeOf, lengthTrials, trialsAt } from '../../../src/kernel/training/edge.ts'
import { factsOf } from '../../../src/kernel/training/factsOf.ts'
import { createFakeEar } from '../../fakes/ear.ts'
import { createFakeLog } from '../../fakes/log.ts'
import { createFakeVoice } from '../../fakes/voice.ts'

const CALM: Dial = {
  ...{ wordsAMinute: 110, noise: 'light', likeCallSigns: false, steppedOn: false },
  ...{ standBy: false, handOvers: false, amendments: false },
}
const BUSY: Dial = { ...CALM, likeCallSigns: true, steppedOn: true, standBy: true, handOvers: true, amendments: true }
const OWN = 'saltmarsh four two one'

type Listener = (heard: string, flown: Flown) => string
type Flown = Awaited<ReturnType<typeof begin>>

async function begin(chosen: Partial<DialChosen>, seed: number) {
  const { put = CALM, radio = 'icao', length } = chosen
  const { pack, inputs, steppedOn } = await dialRunOf([], { put, radio, length }, seed)
  const clock = createVirtualClock()
  const [ear, voice, log] = [createFakeEar(clock.now), createFakeVoice(), createFakeLog()]
  const settings = () => ({ isHeadset: false, pauses: 'usual', fiveNine: false, keepsSound: false }) as const
  const run = createSession({ clock, log, ear, voice, settings }, newRun(pack, 'run'))
  await run.begin({
    ...{ inputs, drill: {}, dial: { put, steppedOn }, stations: { seed } },
    settings: { phraseology: 'plain', coachAfter: 3, radio },
  })
  await run.settled()
  return { pack, ear, voice, run, steppedOn, events: () => run.events() as RunEvent[] }
}

/** What was said to our own call sign last, without it. */
function ownWords(heard: string): string {
  return heard.split(/saltmarsh four (?:two|twenty) one/i).at(-1) ?? heard
}

/** Flown to the end; `answers` makes a read-back of what was heard since the last one. */
async function fly(flown: Flown, answer: Listener) {
  const { voice, run, ear } = flown
  let [heardTo, tonesTo] = [0, 0]
  for (let turn = 0; run.state().floor.at === 'exchange' && turn < 80; turn++) {
    const heard = voice.said.slice(heardTo).map(({ text }) => text)
    const wasSteppedOn = voice.tones.slice(tonesTo).includes('steppedOn')
    heardTo = voice.said.length
    tonesTo = voice.tones.length
    const { turns } = run.state()
    const exchange = exchangeAt(flown.pack, run.state().floor)
    const pending = exchange && pendingTurn(exchange, run.state())
    const isCall = exchange !== undefined && pending === undefined
    const text = isCall
      ? `${exchange.station.name.toLowerCase()}, ${OWN}`
      : wasSteppedOn && turnState({ ...run.state(), turns }, pending?.id ?? '').partsSoFar.length === 0
        ? 'say again'
        : answer(heard.join(' '), flown)
    ear.hear(text, { by: 'typed' })
    await run.settled()
  }
  return { ...flown, facts: factsOf(flown.pack, flown.events()) }
}

/** Reads back the words as they came. */
const faithful: Listener = (heard) =>
  `${ownWords(heard)
    .replace(/[.,]/g, ' ')
    .replace(/recleared|amended clearance|I say again/i, '')} ${OWN}`

const PUT = {
  calm: CALM,
  busy: BUSY,
  'with others of other call signs': { ...BUSY, likeCallSigns: false },
  amended: { ...CALM, amendments: true },
}
const WAYS = (['icao', 'faa'] as const).flatMap((radio) =>
  Object.entries(PUT).map(([how, put]) => ({ radio, how, put })),
)

describe('a block of read-backs', () => {
  it.each(WAYS)('is all right for who reads back what was said: $radio, $how', async ({ radio, put }) => {
    for (const seed of [2, 5, 8]) {
      const { facts, run, pack } = await fly(await begin({ put, radio, length: 1 + (seed % 9) }, seed), faithful)
      const trials = lengthTrials(facts)
      expect(run.state().floor.at, `seed ${seed}`).toBe('end')
      expect(trials, `seed ${seed}`).toHaveLength(6)
      for (const trial of trials) expect(trial).toEqual({ elements: 1 + (seed % 9), right: true })
      expect(facts.dial).toEqual(put)
      expect(debriefOf(pack, run.events()).exchanges.length).toBeGreaterThan(0)
    }
  })

  it('goes by the edge where no length is chosen, and tells it at the end', async () => {
    const { facts } = await fly(await begin({}, 11), faithful)
    expect(
      lengthTrials(facts)
        .map(({ elements }) => elements)
        .sort(),
    ).toEqual([4, 4, 5, 5, 5, 6])
    expect(dialTold(facts, 'done')).toEqual({ asked: 6, right: 6, why: 'done' })
    expect(edgeOf(trialsAt([facts], CALM)).value).toBeGreaterThan(5.5)
    // Put otherwise, nothing is known.
    expect(trialsAt([facts], BUSY)).toEqual([])
  })

  it('is wrong for who answers what was for a like call sign', async () => {
    const first: Listener = (heard) => {
      const others = /saltmarsh (?!four two one)[a-z ]+?,([^.]*)\./i.exec(heard)?.[1]
      return others === undefined ? faithful(heard, undefined as never) : `${others} ${OWN}`
    }
    const { facts } = await fly(await begin({ put: { ...CALM, likeCallSigns: true }, length: 2 }, 3), first)
    expect(lengthTrials(facts).filter(({ right }) => right).length).toBeLessThan(3)
  })

  it('counts the first try alone, and a transmission that had to be said again as not held', async () => {
    const flown = await begin({ length: 3 }, 5)
    flown.ear.hear('say again', { by: 'typed' })
    await flown.run.settled()
    const { facts } = await fly(flown, faithful)
    expect(lengthTrials(facts).map(({ right }) => right)).toEqual([false, true, true, true, true, true])
  })

  it('asks for "say again" where somebody transmitted over it: that is no help, and a guess is wrong', async () => {
    const put = { ...CALM, steppedOn: true }
    const asked = await fly(await begin({ put, length: 3 }, 8), faithful)
    expect(asked.voice.tones).toContain('steppedOn')
    expect(lengthTrials(asked.facts).every(({ right }) => right)).toBe(true)
    const flown = await begin({ put, length: 3 }, 8)
    // Whatever was heard of each, and no question.
    const guessed = await fly({ ...flown, voice: { ...flown.voice, tones: [] } }, faithful)
    const [second] = Object.keys(flown.steppedOn)
    expect(second).toBe('r2.clearance')
    expect(lengthTrials(guessed.facts).map(({ right }) => right)).toEqual([true, false])
  })

  it('is the same for the same number, and another for another', async () => {
    const said = async (seed: number) => (await begin({ put: BUSY }, seed)).voice.said.map(({ text }) => text)
    expect(await said(4)).toEqual(await said(4))
    expect(await said(4)).not.toEqual(await said(5))
  })
})
