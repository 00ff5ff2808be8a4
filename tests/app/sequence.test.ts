/** Things begun out of their order on whole departures of both packs: asked about, refused or told, and always a way on. */

import { describe, expect, it } from 'vitest'
import { debriefLines } from '../../src/cli/debriefText.ts'
import { marramLines, twinLines } from '../flight/lines.ts'
import { flown, upTo } from './flown.ts'

const JET = marramLines('icao', 'push')
const TWIN = twinLines('icao')
const BEGUN = ['starting the right engine', 1, 'rotation seen', 5] as const
const LOW = [...BEGUN, 'fuel on one nine'] as const
const TO_START = [...upTo(JET, 'clear to start'), 'done']

describe('a clearance of another kind in a read-back', () => {
  const READY = 'fallow mill tower, quebec xray papa bravo whiskey, ready for departure'
  it.each([
    'cleared for takeoff runway one one, quebec bravo whiskey',
    'runway one one, cleared for take off',
    'runway one one, hold short',
    'crossing runway one one',
    'line up and wait, cleared for takeoff runway one one, quebec bravo whiskey',
    'runway one one, cleared for takeoff, lining up and waiting',
    'cleared to line up and wait, cleared for takeoff runway one one',
  ])('"%s" for "line up and wait" is wrong at once', async (said) => {
    const { answers, debrief } = await flown('pair', upTo(TWIN, READY), said)
    expect(answers[0]).toMatch(/negative, .*line up and wait/i)
    const turn = debrief.exchanges.flatMap(({ turns }) => turns).find(({ id }) => id === 'ready.lineUp')
    expect(turn?.tries.at(-1)?.judgement).toMatchObject({ verdict: 'negative', because: 'state' })
    expect(debrief.foremost[0]).toMatchObject({ kind: 'runway', why: '“line up” was right.' })
  })

  it('beside the one that was given is wrong too, and nothing where it was put right or denied', async () => {
    const before = JET.slice(0, JET.indexOf('hold short of runway three three'))
    const both = 'hold short and cross, runway three three, saltmarsh four two one'
    const { state } = await flown('marram', before, both)
    expect(state.last?.judgement).toMatchObject({ verdict: 'negative', because: 'state' })
    const right = ['cleared for takeoff, correction, line up', 'not cleared for takeoff, line up']
    for (const words of right) {
      const { answers } = await flown('pair', upTo(TWIN, READY), `${words} and wait runway one one`)
      expect(answers[0]).toMatch(/read back correct/)
    }
  })

  it('"line up and wait" for "cleared for takeoff" is wrong as well', async () => {
    const { answers } = await flown('pair', upTo(TWIN, 'quebec bravo whiskey, lined up and ready'), 'line up and wait')
    expect(answers[0]).toMatch(/negative, .*cleared for takeoff/i)
  })
})

describe('a list that is called before a start that comes ahead of it', () => {
  const FIRST_STABLE = upTo(JET, 'engine stable five eight percent')

  it('asks, and affirm leaves the start to be called', async () => {
    const { answers, state } = await flown('marram', FIRST_STABLE, 'push and start list', 'affirm', 14, 'starting left')
    expect(answers[0]).toBe('Left engine start not done. Do that first?')
    expect(answers[2]).toBe('Left engine when ready.')
    expect(state.watches.leftStart?.status).toBe('running')
  })

  it('can be insisted on, is told afterwards, and the start can be called in it', async () => {
    const then = ['push and start list', 'negative', 14, 'starting the left engine'] as const
    const { state, debrief } = await flown('marram', FIRST_STABLE, ...then)
    expect(state.watches.leftStart?.status).toBe('running')
    expect(debrief.outOfOrder).toMatchObject([{ list: 'push and start', before: 'left engine start' }])
  })

  it('is no reason to ask when the one that was due is called after all', async () => {
    const then = ['run up list', 'negative', 'after start list', 'negative', 'starting the left engine'] as const
    const { answers, state, debrief } = await flown('pair', upTo(TWIN, 'area clear'), ...then)
    expect(answers[0]).toBe('Left engine start not done. Do that first?')
    expect(answers[2]).toBe('Left engine start not done. Do that first?')
    expect(state.watches.leftStart?.status).toBe('running')
    expect(debrief.outOfOrder.map(({ before }) => before)).toEqual(['left engine start', 'left engine start'])
  })
})

describe('a start', () => {
  it('that is begun with the flow before it open is told in the debrief', async () => {
    const { debrief } = await flown('marram', upTo(JET, 'clear to start'), ...BEGUN)
    expect(debrief.notEnded.map(({ text }) => text)).toContain('Start flow not begun before the right engine start')
    const inOrder = await flown('marram', TO_START, ...BEGUN)
    expect(inOrder.debrief.notEnded.some(({ text }) => text.startsWith('Start flow'))).toBe(false)
  })

  it('that is called in the middle of the ground crew is refused, and no step of theirs', async () => {
    const { answers, debrief } = await flown('marram', upTo(JET, 'all pumps on'), 'starting the right engine')
    expect(answers[0]).toBe('Not yet, start not cleared by ground.')
    expect(debrief.tooEarly).toMatchObject([{ what: 'right engine start', caution: 'start not cleared by ground' }])
  })

  it('that was stopped in the push is begun again by "from the top", and the push stays', async () => {
    const then = [...BEGUN, 'fuel off', 'brakes set', 'continue', 'from the top'] as const
    const { answers, state } = await flown('marram', TO_START, ...then)
    expect(answers.at(-1)).toMatch(/^Not yet, let it run down, .* seconds\.$/)
    const open = Object.keys(state.turns).filter((id) => id.startsWith('crew.') && state.turns[id]?.status !== 'done')
    expect(open).toEqual(['crew.release'])
    expect(state.watches.rightStart?.status).toBe('ahead')
  })

  it('takes a value that cannot be only when it is confirmed', async () => {
    const said = [...BEGUN, 'fuel on at two hundred percent'] as const
    const { answers } = await flown('marram', TO_START, ...said)
    expect(answers.at(-1)).toBe('Two zero zero is out of range. Confirm?')
    const affirmed = await flown('marram', TO_START, ...said, 'affirm')
    expect(affirmed.state.watches.rightStart?.values.fuel).toBe(200)
    const again = await flown('marram', TO_START, ...said, 'fuel on at two four percent', 1, 'light up', 2)
    expect(again.state.watches.rightStart?.values.fuel).toBe(24)
    expect(Object.keys(again.state.watches.rightStart?.calls ?? {})).toContain('lightUp')
  })

  it('reads a gauge again at "recheck", and keeps what was out of limits however it was questioned', async () => {
    const low = [...BEGUN.slice(0, -1), 'fuel on at one eight percent'] as const
    const { answers, debrief } = await flown('marram', TO_START, ...low, 'affirm', 'recheck', 'two four percent')
    expect(answers.slice(-4)).toEqual([
      'Already? Confirm fuel on.',
      'Eighteen is low. Fuel off, or recheck.',
      'Speed?',
      '',
    ])
    const corrected = await flown('marram', TO_START, ...low, 'correction, fuel on at two four percent')
    for (const { watches } of [debrief, corrected.debrief]) {
      const [fuel] = watches.flatMap(({ calls }) => calls.filter(({ label }) => label === 'fuel on'))
      expect(fuel?.outside).toMatchObject([{ value: 18 }])
    }
  })

  it('judges a second reading by its own value and time, and the debrief has both', async () => {
    const { state, debrief } = await flown('marram', TO_START, ...LOW, 2, 'fuel on, two four', 1, 'light up')
    expect(state.watches.rightStart?.values.fuel).toBe(24)
    const said = '  fuel on: after 12.5 s, 24 (out of limits: 19 after 9.0 s)'
    expect(debriefLines(debrief)).toContain(said)
    expect(debrief.foremost[0]?.t).toBe((state.watches.rightStart?.beganAt ?? 0) + 9_000)
  })

  it('takes a reading that was asked for behind the next call for the call’s own time', async () => {
    const { debrief } = await flown('marram', TO_START, ...LOW, 2, 'light up', 'two four percent')
    const said = '  fuel on: after 9.0 s, 24 (out of limits: 19)'
    expect(debriefLines(debrief)).toContain(said)
  })

  it('has a reading out of limits in the debrief that came before the engine was seen to turn', async () => {
    const { debrief } = await flown('marram', TO_START, BEGUN[0], 4, 'fuel on one nine', 'fuel on two four')
    const [fuel] = debrief.watches.flatMap(({ calls }) => calls.filter(({ label }) => label === 'fuel on'))
    expect(fuel?.outside).toMatchObject([{ value: 19 }])
  })

  it('takes another value for a call as its correction, and tells one out of limits', async () => {
    const said = [...BEGUN, 'fuel on at two four percent', 1, 'light up', 3, 'peak temperature six eight five'] as const
    const { state } = await flown('marram', TO_START, ...said, 'correction, peak temperature six niner five')
    expect(state.watches.rightStart?.values.peak).toBe(695)
    const { answers } = await flown('marram', TO_START, ...said, 'peak temperature seven niner zero')
    expect(answers.at(-1)).toBe('Seven nine zero is high. Fuel off, or recheck.')
  })
})

describe('a push clearance that is open again', () => {
  it('holds the brakes, whatever the ground crew was told before', async () => {
    const then = ['go back to the push clearance', 'stop', 'brakes set', 'continue', 'brakes released'] as const
    const { answers, state } = await flown('marram', upTo(JET, 'brakes released'), ...then)
    expect(answers.at(-1)).toBe('Not yet, push clearance first.')
    expect(state.turns['crew.release']?.status).toBe('ahead')
  })
})
