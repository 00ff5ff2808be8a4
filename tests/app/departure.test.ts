import { describe, expect, it } from 'vitest'
import { revisedBy } from '../../src/app/run/revision.ts'
import { headlineOf } from '../../src/app/view/headline.ts'
import { viewOf } from '../../src/app/view/view.ts'
import { fold } from '../../src/kernel/run/core/step.ts'
import { debriefOf } from '../../src/kernel/run/debrief/debrief.ts'
import { rig } from './rig.ts'

async function atTrim() {
  const flight = await rig()
  await flight.hear('load figures list')
  await flight.hear('two four three six zero')
  expect(flight.said()).toBe('Takeoff trim?')
  return flight
}

describe('an answer', () => {
  it('that is right is kept with what was heard and what was expected, and leads to the next challenge', async () => {
    const flight = await atTrim()
    await flight.hear('four point three up')
    expect(flight.said()).toBe('V one?')
    expect(flight.log.events.at(-1)).toMatchObject({
      type: 'answered',
      item: 'loadFigures.trim',
      evidence: { by: 'voice', text: 'four point three up' },
      judgement: { verdict: 'correct' },
      expected: { takeoffTrim: 4.3 },
      challengeRevision: 1,
      revision: 1,
    })
  })

  it('that is wrong is refused with what was heard, and the item stays', async () => {
    const flight = await atTrim()
    await flight.hear('four point eight up')
    expect(flight.said()).toBe('I heard four point eight up.')
    expect(flight.state().floor).toMatchObject({ item: 'loadFigures.trim' })
  })

  it('without its direction is asked for the direction, not told it', async () => {
    const flight = await atTrim()
    await flight.hear('four point three')
    expect(flight.said()).toBe('Takeoff trim, direction?')
  })

  it('that says that it is done, without the value, is asked for the value and counts as a miss', async () => {
    const flight = await atTrim()
    await flight.hear('checked')
    expect(flight.said()).toBe('Value?')
    await flight.hear('set', { by: 'typed' })
    expect(flight.said()).toBe('Value?')
    expect(flight.state().items['loadFigures.trim']).toMatchObject({ misses: 2, sayAgains: 0, revealed: false })
    const [list] = debriefOf(flight.pack, flight.log.events).lists
    expect(list?.items[1]).toMatchObject({ challenge: 'takeoff trim', misses: 2, sayAgains: 0 })
    await flight.hear('four point three up')
    expect(flight.said()).toBe('V one?')
  })

  it('to an item before, heard late, is judged against nothing', async () => {
    const flight = await atTrim()
    const old = flight.ear.requests.at(-1)?.listenId ?? 0
    await flight.hear('four point three up')
    await flight.hear('one two six', { listenId: old })
    expect(flight.log.events.at(-1)).toMatchObject({ type: 'voided', because: 'late' })
    expect(flight.state().floor).toMatchObject({ item: 'loadFigures.v1' })
  })

  it('begun before final figures came is void, and the challenge is put again', async () => {
    const flight = await atTrim()
    const listenId = flight.ear.listening()?.listenId ?? 0
    await flight.revise('final')
    expect(flight.said()).toMatch(/^Final figures are in\. .*Redo figures flow, .*trim/)
    await flight.hear('four point three up', { listenId })
    expect(flight.log.events.at(-1)).toMatchObject({ type: 'voided', because: 'figuresChanged' })
    expect(flight.state().items['loadFigures.trim']?.status).toBe('open')
    // What sets the changed values comes before the items that say them.
    await flight.hear('done')
    await flight.hear('two four six two zero')
    await flight.hear('three point one up')
    expect(flight.state().items['loadFigures.trim']).toMatchObject({ status: 'done', revision: 2 })
  })

  it('typed is judged by the same rules and logged as typed', async () => {
    const flight = await atTrim()
    await flight.hear('4.3 up', { by: 'typed' })
    expect(flight.log.events.at(-1)).toMatchObject({ evidence: { by: 'typed' }, judgement: { verdict: 'correct' } })
  })

  it('that the ear itself doubts is never right, however well it reads', async () => {
    const flight = await atTrim()
    await flight.hear('four point three up', { doubt: 'unsure', score: 0.8 })
    expect(flight.log.events.at(-1)).toMatchObject({ judgement: { verdict: 'sayAgain' } })
    expect(flight.said()).toBe('Say again, takeoff trim.')
    const said = flight.voice.said.length
    flight.clock.advance(7_900)
    await flight.hear('four point three up', { doubt: 'unsure', score: 0.8 })
    expect(flight.voice.tones.at(-1)).toBe('soft')
    expect(flight.voice.said).toHaveLength(said)
    flight.clock.advance(200)
    await flight.hear('four point three up', { doubt: 'unsure', score: 0.8 })
    expect(flight.said()).toBe('Say again takeoff trim, digit by digit.')
    expect(flight.state().items['loadFigures.trim']).toMatchObject({ misses: 0, sayAgains: 2 })
  })
})

describe('other speech', () => {
  it('that is bent onto numbers is asked for again once, until something like an answer comes', async () => {
    const flight = await atTrim()
    const asked = () => flight.voice.said.filter(({ text }) => text.startsWith('Say again')).length
    const bent = ['set ninety lantern down six minus nineteen', 'ninety eight three four decimal eight']
    for (const text of [...bent, ...bent]) {
      flight.clock.advance(7_000)
      await flight.hear(text, { score: 1 })
      flight.clock.advance(7_000)
      await flight.hear('five point two', { doubt: 'unsure' })
    }
    expect(asked()).toBe(1)
    expect(flight.state().items['loadFigures.trim']).toMatchObject({ status: 'open', misses: 0 })
    await flight.hear('five point two up', { doubt: 'unsure', score: 0.75 })
    expect(asked()).toBe(2)
    await flight.hear(bent[0] ?? '', { doubt: 'onsetCut' })
    expect(asked()).toBe(2)
    await flight.hear('four point three up')
    expect(flight.state().items['loadFigures.trim']).toMatchObject({ status: 'done', misses: 0 })
  })

  it('that has "continue" in it continues nothing: only a stand by ends with it', async () => {
    const flight = await atTrim()
    await flight.hear('continue')
    expect(flight.log.events.at(-1)?.type).toBe('overheard')
    await flight.hear('stand by')
    await flight.hear('continue')
    expect(flight.log.events.at(-1)).toMatchObject({ type: 'commanded', command: 'continue' })
  })

  it('in a silence does not let the open item be asked for over and over', async () => {
    const flight = await atTrim()
    const said = flight.voice.said.length
    for (let count = 0; count < 4; count++) {
      flight.clock.advance(9_000)
      await flight.settled()
      await flight.hear('look at that aircraft beside the hangar')
    }
    expect(flight.voice.said.slice(said).map(({ text }) => text)).toEqual(['Takeoff trim?'])
  })

  it('draws no reaction and is kept in the log', async () => {
    const flight = await atTrim()
    const said = flight.voice.said.length
    await flight.hear('look at that aircraft beside the hangar')
    await flight.hear('nice weather today')
    expect(flight.log.events.at(-1)?.type).toBe('overheard')
    expect(flight.voice.said.length).toBe(said)
  })

  it('is not heard at all while the voice speaks', async () => {
    const flight = await rig({ holds: true })
    expect(flight.voice.speaking()).toContain('Figures flow')
    expect(flight.ear.listening()).toBeUndefined()
    flight.voice.end()
    await flight.settled()
    expect(flight.ear.listening()).toBeDefined()
  })
})

describe('correction', () => {
  it('right after an advance opens the item before and takes the new answer', async () => {
    const flight = await atTrim()
    await flight.hear('four point three up')
    await flight.hear('correction four point three up')
    expect(flight.said()).toBe('V one?')
    expect(flight.log.events.slice(-2).map((event) => event.type)).toEqual(['commanded', 'answered'])
  })
})

describe('silence', () => {
  it('is prompted once after eight seconds, then a soft tone, and never moves anything on', async () => {
    const flight = await atTrim()
    const said = flight.voice.said.length
    flight.clock.advance(8_000)
    await flight.settled()
    expect(flight.voice.said.length).toBe(said + 1)
    expect(flight.said()).toBe('Takeoff trim?')
    flight.clock.advance(60_000)
    await flight.settled()
    expect(flight.voice.said.length).toBe(said + 1)
    expect(flight.voice.tones.at(-1)).toBe('soft')
    flight.clock.advance(600_000)
    await flight.settled()
    expect(flight.state().floor).toMatchObject({ item: 'loadFigures.trim' })
  })

  it.each(['prompt', 'tone'])('is not counted while the pilot speaks (%s)', async (after) => {
    const flight = await atTrim()
    if (after === 'tone') await flight.pass(8_000)
    const before = { said: flight.voice.said.length, tones: flight.voice.tones.length }
    const noticed = () => ({ said: flight.voice.said.length, tones: flight.voice.tones.length })
    flight.ear.emit({ type: 'state', state: 'hearing' })
    await flight.pass(600_000)
    expect(noticed()).toEqual(before)
    flight.ear.emit({ type: 'state', state: 'open' })
    await flight.pass(1_000)
    expect(noticed()).not.toEqual(before)
  })

  it('is not counted while standing by', async () => {
    const flight = await atTrim()
    await flight.hear('stand by')
    const said = flight.voice.said.length
    flight.clock.advance(120_000)
    await flight.settled()
    expect(flight.voice.said.length).toBe(said)
    await flight.hear('four point three up')
    expect(flight.state().items['loadFigures.trim']?.status).not.toBe('done')
    await flight.hear('continue')
    expect(flight.said()).toContain('Takeoff trim?')
  })
})

describe('a run', () => {
  it('goes on at the same item from its log', async () => {
    const flight = await atTrim()
    await flight.hear('four point three')
    const again = await rig({ events: flight.log.events })
    expect(again.state()).toEqual(flight.state())
    await again.run.resume()
    await again.settled()
    expect(again.said()).toBe('Resuming load figures list, one back if you like. Takeoff trim?')
    await again.hear('up')
    expect(again.state().floor).toMatchObject({ item: 'loadFigures.trim' })
  })

  it('folds to the state it had, whatever was said', async () => {
    const flight = await atTrim()
    for (const text of ['five up', 'say again', 'four point three up', 'what is left', 'one two six', 'go back one']) {
      await flight.hear(text)
      expect(fold(flight.pack, 'run', flight.log.events)).toEqual(flight.state())
    }
  })

  it('shows a challenge that the voice could not say', async () => {
    const flight = await rig({ outcome: 'failed' })
    await flight.settled()
    expect(flight.store.getState().voice.failed).toBe(true)
    expect(flight.voice.tones).toContain('attention')
    expect(flight.log.events.some((event) => event.type === 'voiceFailed')).toBe(true)
  })
})

describe('"radio check"', () => {
  it.each(['radio check', 'how do you read'])('(%s) is answered at any time, and nothing moves', async (words) => {
    const flight = await atTrim()
    await flight.hear('four point three')
    const { floor, items } = flight.state()
    await flight.hear(words)
    expect(flight.said()).toBe('Reading you five.')
    expect(flight.state()).toMatchObject({ floor, items })
    await flight.hear('stand by')
    await flight.hear(words)
    expect(flight.said()).toBe('Reading you five.')
    expect(flight.state().standingBy).toBe(true)
  })
})

describe('an ear that dies', () => {
  const failure = { code: 'lost', message: 'The microphone is gone.' } as const

  it('is told aloud with a tone of its own, and what is open is put once more', async () => {
    const flight = await atTrim()
    flight.ear.emit({ type: 'failed', failure })
    await flight.settled()
    expect(flight.voice.tones.at(-1)).toBe('deaf')
    expect(flight.said()).toBe('Nothing heard. Microphone? Takeoff trim?')
    expect(flight.log.events.at(-1)).toMatchObject({ type: 'earFailed', message: 'The microphone is gone.' })
    expect(flight.store.getState().ear.failure).toEqual(failure)
  })

  it('says nothing to a pilot who types, and says it again a minute after the last key', async () => {
    const flight = await atTrim()
    const said = flight.said()
    flight.run.typing()
    flight.ear.emit({ type: 'failed', failure })
    await flight.settled()
    expect(flight.voice.tones.at(-1)).toBe('deaf')
    expect(flight.said()).toBe(said)
    flight.clock.advance(60_000)
    flight.ear.emit({ type: 'failed', failure })
    await flight.settled()
    expect(flight.said()).toBe('Nothing heard. Microphone? Takeoff trim?')
  })

  it('says so when it hears again, and takes an answer to the same item', async () => {
    const flight = await atTrim()
    flight.ear.emit({ type: 'failed', failure })
    await flight.ear.open({} as never)
    flight.ear.emit({ type: 'back' })
    await flight.settled()
    expect(flight.said()).toBe('I hear you again. Takeoff trim?')
    expect(flight.store.getState().ear.failure).toBeUndefined()
    await flight.hear('four point three up')
    expect(flight.state().items['loadFigures.trim']?.status).toBe('done')
  })
})

describe('the screen of a run', () => {
  it('never holds an expected value before it was said', async () => {
    const flight = await atTrim()
    const shown = JSON.stringify(viewOf(flight.pack, flight.state()))
    expect(shown).not.toMatch(/4\.3|four point three/)
  })
})

describe('an answer in two breaths', () => {
  it('is whole when the direction that was asked for follows', async () => {
    const flight = await atTrim()
    await flight.hear('four point three')
    expect(flight.said()).toBe('Takeoff trim, direction?')
    await flight.hear('down')
    expect(flight.state().items['loadFigures.trim']).toMatchObject({ status: 'open', misses: 1 })
    await flight.hear('four point three')
    await flight.hear('up')
    expect(flight.state().items['loadFigures.trim']).toMatchObject({ status: 'done', expected: { takeoffTrim: 4.3 } })
  })
})

describe('a cross-check aloud', () => {
  it('asks for the reading, takes it as the flight computer states it, and says that it agrees', async () => {
    const flight = await atTrim()
    await flight.hear('cross check takeoff weight')
    expect(flight.said()).toBe('Read me the takeoff weight, from the flight computer.')
    expect(flight.ear.listening()?.hearable.shapes).toMatchObject([{ kind: 'weight' }])
    await flight.hear('two nine four two zero')
    await flight.settled()
    expect(flight.said()).toBe('Takeoff weight agrees. Takeoff trim?')
    expect(flight.state().inputs?.stated?.flightComputer).toEqual({ takeoffWeight: 29420 })
  })

  it('that differs leaves the figure without a value until it is settled, and opens what rested on it', async () => {
    const flight = await atTrim()
    await flight.hear('cross check zero fuel weight')
    await flight.hear('two four eight six zero')
    await flight.settled()
    expect(flight.said()).toMatch(/^Zero fuel weight disagrees, settle it on the figures page\. Recheck /i)
    expect(flight.state().values.zeroFuelWeight).toBeUndefined()
    expect(flight.state().items['loadFigures.zeroFuelWeight']?.status).toBe('reopened')
    expect(flight.said()).not.toMatch(/two four|2[0-9]/)
  })

  it.each([
    ['cross check runway', 'runway two four', 'flightComputer', 'runway', '24'],
    ['crosscheck the runway off the takeoff data', 'two four', 'takeoffData', 'runway', '24'],
    ['cross check flap', 'flap twelve', 'takeoffData', 'takeoffFlap', '12'],
    ['cross check fuel on board', 'five two four zero', 'flightComputer', 'blockFuel', 5240],
    ['cross check block fuel against the load sheet', 'five two five zero kilograms', 'loadSheet', 'blockFuel', 5250],
    ['cross check V1 with takeoff data', 'V one one two six', 'takeoffData', 'v1', 126],
  ])('"%s" is answered with "%s"', async (asked, read, source, figure, value) => {
    const flight = await atTrim()
    await flight.hear(asked)
    expect(flight.said()).toMatch(/^Read me the .+, from the (load sheet|takeoff data|flight computer)\.$/)
    await flight.hear(read)
    await flight.settled()
    expect(flight.said()).toMatch(/ agrees\. Takeoff trim\?$/)
    expect(flight.state().inputs?.stated?.[source]?.[figure]).toBe(value)
  })

  it('of what was typed in, that differs, opens the flap again', async () => {
    const flight = await atTrim()
    await flight.hear('cross check flap')
    await flight.hear('nineteen')
    await flight.settled()
    expect(flight.said()).toMatch(/^Takeoff flap disagrees, settle it on the figures page\./)
    expect(flight.state().values.takeoffFlap).toBeUndefined()
    // No flap, no trim: the item waits for it, and says nothing of what it was.
    expect(flight.said()).toContain('Takeoff flap disagrees, settle it on the figures page')
    expect(flight.said()).not.toMatch(/nineteen|twelve/)
  })

  it('stands in the debrief with its source, as do a choice with its reason and a warning', async () => {
    const flight = await atTrim()
    await flight.hear('cross check flap')
    await flight.hear('nineteen')
    await flight.settled()
    const stated = flight.state().inputs
    if (!stated) throw new Error('no inputs')
    const settle = { takeoffFlap: { use: 'entered', reason: 'the sheet is for another runway' } }
    const revised = revisedBy(flight.pack, { ...stated, settled: settle }, flight.run.revisions().at(-1))
    await flight.run.happen({ ...revised, warnings: ['takeoff weight is beyond its limit'] })
    const notes = () => debriefOf(flight.pack, flight.run.events()).revisions.map((one) => one.notes)
    expect(notes()).toEqual([
      [],
      ['takeoff flap read from the takeoff data: differs'],
      [
        'takeoff flap: entered here 12, takeoff data 19; you chose the value entered here: “the sheet is for another runway”',
        'warning: takeoff weight is beyond its limit',
      ],
    ])
  })

  it('chosen without a reason settles nothing, and the screen and the debrief say so', async () => {
    const flight = await atTrim()
    const inputs = flight.state().inputs
    if (!inputs) throw new Error('no inputs')
    const stated = { ...inputs.stated, loadSheet: { ...inputs.stated?.loadSheet, takeoffCg: 25 } }
    await flight.run.enter({ ...inputs, stated })
    await flight.settled()
    await flight.hear('done')
    const hint = () => headlineOf(flight.pack, flight.state()).hint
    expect(hint()).toBe(
      'Takeoff CG differs: worked out here 23.5 % MAC, load sheet 25.0 % MAC. Settle it on the figures page.',
    )
    const settled = { takeoffCg: { use: 'loadSheet', reason: ' ' } }
    await flight.run.enter({ ...inputs, stated, settled })
    await flight.settled()
    expect(hint()).toBe('Takeoff CG: the load sheet is chosen, and the reason is missing. Give it on the figures page.')
    expect(flight.state().inputs?.settled).toEqual(settled)
    expect(debriefOf(flight.pack, flight.run.events()).revisions.at(-1)?.notes).toEqual([
      'takeoff CG: worked out here 23.5 % MAC, load sheet 25.0 % MAC; you chose the load sheet without a reason, so it did not count',
    ])
  })

  it('takes for the reading what was said, whatever the figure is', async () => {
    const flight = await atTrim()
    await flight.hear('cross check takeoff trim')
    await flight.hear('four point three')
    await flight.settled()
    // The direction lacks, although the figure itself is four point three up.
    expect(flight.said()).toBe('Read me the takeoff trim, from the flight computer.')
    await flight.hear('disregard')
    expect(flight.said()).toBe('Takeoff trim?')
  })

  it('is asked for again where what was heard is no one value', async () => {
    const flight = await atTrim()
    await flight.hear('cross check zero fuel weight')
    await flight.hear('two four')
    await flight.settled()
    expect(flight.said()).toBe('Read me the zero fuel weight, from the flight computer.')
    expect(flight.log.events.some(({ type }) => type === 'stated')).toBe(false)
  })
})
