/** What a pilot says to stations beside what is right: their names, and the contrary of what was done. */

import { describe, expect, it } from 'vitest'
import { LEFT, TALK, TO_ALTIMETERS, TO_AWAY, TO_CLEARANCE, TO_CREW, TO_FLAP } from './demoAnswers.ts'
import { idle, rig } from './rig.ts'

async function seat(answers: readonly string[]) {
  const flight = await rig({ talk: TALK })
  const say = async (text: string) => {
    await flight.hear(text, { by: 'typed' })
    const event = flight.log.events.at(-1)
    if (event?.type !== 'transmitted') return event?.type
    return [event.turn, event.judgement.verdict] as const
  }
  for (const answer of answers) await say(answer)
  return { ...flight, say }
}

describe('a read-back', () => {
  it('that is waited for is not asked for because somebody on the radio is told to go on', async () => {
    const { hear, log } = await seat(TO_CLEARANCE)
    for (const text of ['go on', 'continue']) {
      await hear(text)
      expect(log.events.at(-1)?.type).toBe('overheard')
    }
    await hear('stand by')
    await hear('continue')
    expect(log.events.at(-1)).toMatchObject({ type: 'commanded', command: 'continue' })
  })

  it('may begin with the name of the station, and is right or wrong by what follows', async () => {
    const { say, said } = await seat(TO_CLEARANCE)
    expect(await say('heron hill delivery, cleared to willow lake lantern two alfa departure')).toEqual([
      'clearance.departure',
      'incomplete',
    ])
    expect(said()).toBe('Saltmarsh four two one, read back runway, level, frequency, squawk.')
    expect(await say('heron hill delivery, squawk two six one four')).toEqual(['clearance.departure', 'negative'])
    expect(said()).toBe('Saltmarsh four two one, negative, squawk two six one three.')
  })
})

describe('an item that both seats answer: the other seat is simulated, and says so', () => {
  it.each([
    ['one zero one zero', 'One zero one zero set, simulated.'],
    ['two niner eight three', 'Two nine eight three set, simulated.'],
  ])('in %s is answered alike', async (answer, other) => {
    const { say, said } = await seat([...TO_CLEARANCE, ...TO_ALTIMETERS])
    expect(await say(answer)).toBe('answered')
    expect(said()).toContain(other)
  })
})

describe('to the ground crew', () => {
  const CREW = [...TO_CLEARANCE, ...TO_ALTIMETERS, ...TO_CREW]

  it('the contrary of a step is of that step', async () => {
    const { say, said } = await seat(CREW)
    expect(await say('beacon off')).toEqual(['crew.beacon', 'negative'])
    expect(said()).toBe('Confirm beacon.')
  })

  it('the contrary of what was done opens it again, and with it the order that rests on it', async () => {
    const { say, said } = await seat(CREW)
    expect(await say('external power off')).toEqual(['crew.power', 'correct'])
    expect(await say('external power on')).toEqual(['crew.power', 'negative'])
    expect(await say('disconnect the cable')).toEqual(['crew.unplug', 'correct'])
    expect(said()).toBe('Not yet, power off before the cable.')
    await say('external power is off')
    await say('disconnect the cable')
    expect(said()).toBe('Cable removed and clear.')
    for (const call of ['confirm doors and steps', 'beacon on', 'beacon off', 'clear to start']) await say(call)
    expect(said()).toBe('Not yet, beacon on before any engine.')
  })

  it('the same once more opens nothing', async () => {
    const { say, state } = await seat([...CREW, 'brakes set'])
    await say('brakes set')
    expect(state().turns['crew.brake']?.status).toBe('done')
  })

  it('brakes that are off are a wrong answer to "confirm brakes set"', async () => {
    const { say, voice, clock, hear } = await seat([...CREW, ...TO_AWAY])
    clock.advance(13_000)
    for (const call of LEFT) await hear(call, { by: 'typed' })
    expect(voice.said.map(({ text }) => text)).toContain('Pushback completed, confirm brakes set.')
    expect(await say('brakes off')).toEqual(['away.brake', 'negative'])
    expect(await say('brakes set')).toEqual(['away.brake', 'correct'])
  })

  it('an order that is insisted on is echoed as it was given, and what lacks is asked for by its name', async () => {
    const { say, said, clock, hear } = await seat([...CREW, ...TO_AWAY])
    clock.advance(13_000)
    for (const call of [...LEFT, ...TO_FLAP]) await hear(call, { by: 'typed' })
    expect(await say('flap nineteen')).toEqual(['flapOrder.order', 'negative'])
    await say('affirm')
    expect(said()).toBe('Flap nineteen.')
    expect(await say('flap twelve')).toEqual(['flapOrder.done', 'incomplete'])
    expect(said()).toBe('Flap set?')
  })
})

describe('a list that is called while the station still says that the read-back was right', () => {
  const WRONG_SQUAWK =
    'cleared to willow lake lantern two alfa departure runway two four climb five thousand departure frequency one two four decimal six seven five squawk two six three one'

  async function calledInMidAir() {
    const { log } = await seat([...TO_CLEARANCE, WRONG_SQUAWK])
    const flight = await rig({ events: log.events, holds: true })
    const say = async (text: string) => {
      await flight.hear(text, { by: 'typed', listenId: flight.state().listenId })
      await idle()
    }
    await say('squawk two six one three')
    expect(flight.voice.speaking()).toBe('Saltmarsh four two one, read back correct.')
    await say('before start list')
    return { ...flight, say }
  }

  it('waits for the exchange that was begun: it asks, and what was read back is in force', async () => {
    const { state, voice, say } = await calledInMidAir()
    expect(state().values.transponder).toBe('2613')
    expect(voice.speaking()).toBe('Departure clearance not finished. Do that first?')
    await say('affirm')
    expect(voice.speaking()).toContain('contact heron hill ground')
  })

  it('may be run all the same', async () => {
    const { state, say } = await calledInMidAir()
    await say('negative')
    expect(state().floor).toMatchObject({ list: 'beforeStart' })
    expect(state().values.transponder).toBe('2613')
  })
})
