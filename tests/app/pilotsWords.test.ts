/** What pilots say of flows, briefings, orders and figures in their own words, and what the second crew member makes of it. */

import { describe, expect, it } from 'vitest'
import { interpret } from '../../src/kernel/interpret/interpret.ts'
import { refused } from '../../src/kernel/run/core/questions.ts'
import { listCalled } from '../../src/kernel/run/list/listCalls.ts'
import { type Line, marramLines } from '../flight/lines.ts'
import { flown, goneOn, upTo } from './flown.ts'

const JET = marramLines('icao', 'push')
const TO_FLOW = upTo(JET, 'ground one two one decimal eight, saltmarsh four two one')
const BEGUN: readonly Line[] = []
const TO_BRIEFING = [...TO_FLOW, 'done']
const BRIEFED = upTo(JET, 'engine failure')
const HALF_BRIEFED = upTo(JET, 'flap twelve')

/** Each beginning is flown once, and gone on from by its log. */
const beginnings = new Map<readonly Line[], ReturnType<typeof flown>>()
async function then(before: readonly Line[], ...lines: readonly Line[]) {
  const begun = beginnings.get(before) ?? flown('marram', before)
  beginnings.set(before, begun)
  const { pack, events } = await begun
  return goneOn(pack, events, ...lines)
}

describe('a flow', () => {
  it.each(["that's the cockpit flow complete", 'cockpit flow complete', 'that completes the cockpit flow'])(
    'is complete by "%s"',
    async (words) => {
      const { answers } = await then(TO_FLOW, words)
      expect(answers).toEqual(['Departure briefing.'])
    },
  )

  it.each(["flow's done again", "that's all redone", "right, flow's complete", 'gauges looked at, flow complete'])(
    'is complete by "%s"',
    async (words) => {
      const { state } = await then(TO_FLOW, words)
      expect(state.flowsClosed).toContain('cockpitFlow')
    },
  )

  it.each([
    ...['start flow complete', 'cockpit flow not complete', 'is the cockpit flow complete'],
    ...['brake not set, flow complete', 'cockpit flow complete?'],
  ])('is not by "%s"', async (words) => {
    const { state } = await then(TO_FLOW, words)
    expect(state.floor.at).toBe('flow')
    expect(state.flowsClosed).not.toContain('cockpitFlow')
  })

  it.each([
    [TO_FLOW, "park brake's set, pressure checked", 'cockpitFlow.brake'],
    [BEGUN, 'bug moved', 'figuresFlow.speeds'],
    [BEGUN, 'bugs reset', 'figuresFlow.speeds'],
  ] as const)('has a step ticked by its words', async (before, words, step) => {
    const { state } = await then(before, words)
    expect(state.stepsDone).toContain(step)
  })
})

describe('"the APU is off"', () => {
  it('answers the auxiliary power unit, and "not off" does not', async () => {
    const before = [...upTo(JET, 'tow bar clear, pin in hand'), 'flap twelve set', 25]
    const { events, state } = await flown('marram', before, 'APU not off', "APU's off")
    const verdicts = events.flatMap((one) => (one.type === 'answered' ? one.judgement.verdict : []))
    expect(verdicts.slice(-2)).toEqual(['negative', 'correct'])
    expect(state.items['enginesRunning.unit']?.status).toBe('done')
  })
})

describe('a briefing', () => {
  it('that is announced is under way, and draws no words', async () => {
    const { answers, state } = await then(TO_BRIEFING, 'okay, departure briefing')
    expect(answers).toEqual([''])
    expect(state.notUnderstood).toBeUndefined()
    expect(state.topics).toEqual({})
  })

  it('that is announced in the flow before it waits for that', async () => {
    const { answers, state } = await then(TO_FLOW, 'okay, departure briefing')
    expect(answers).toEqual(['Not yet, Cockpit flow is not complete.'])
    expect(state.floor.at).toBe('flow')
  })

  it.each(['briefing complete, any questions?', 'any questions or comments?'])('ends with "%s"', async (words) => {
    const { answers } = await then(BRIEFED, words)
    expect(answers[0]).toMatch(/^Departure briefing complete\./)
    const half = await then(HALF_BRIEFED, words)
    expect(half.answers).toEqual(['Nothing on takeoff speeds, rejected takeoff and engine failure yet.'])
  })

  it('of which the pilot says "no" is not finished: what is missing is told', async () => {
    const { answers, state } = await then(HALF_BRIEFED, 'no')
    expect(answers[0]).toMatch(/^Three items left, takeoff speeds, rejected takeoff, engine failure\./)
    expect(state.floor.at).toBe('briefing')
  })

  it('that was begun is gone on from only when "no" is said a second time', async () => {
    const insisted = ['before start list', 'no', 'before start list', 'no'] as const
    const { answers, debrief } = await then(HALF_BRIEFED, ...insisted)
    expect(answers).toEqual([
      'Departure briefing not done. Do that first?',
      'Nothing on takeoff speeds, rejected takeoff and engine failure yet.',
      'Departure briefing not done. Do that first?',
      'Before start list. Parking brake?',
    ])
    expect(debrief.outOfOrder.map(({ wasRun = false }) => wasRun)).toEqual([false, true])
  })
})

describe('the control check', () => {
  it('is announced with its first call', async () => {
    const { answers } = await flown('marram', upTo(JET, 'unit off'), 'checking the controls, full left')
    expect(answers).toEqual(['Display.'])
  })
})

describe('the value that the pilot worked out', () => {
  it('is another one where it is beyond the scale', async () => {
    const { pack, state } = await flown('marram', [])
    const asked = { ...state, question: { about: 'ownValue', figure: 'takeoffTrim' } } as const
    const heard = { by: 'typed', beganAt: 0, endedAt: 0, listenId: state.listenId } as const
    const eventOf = (text: string) => interpret(pack, asked, { ...heard, text }).event
    expect(eventOf('six point five down')).toMatchObject({ type: 'ownValueSaid', value: -6.5, isRight: false })
    expect(eventOf('six point five')).toMatchObject({ type: 'ownValueBegun', lacks: 'direction' })
  })
})

describe('a call to a station', () => {
  const AT_INFORMATION = upTo(JET, 'edition two, seven two on board')
  const NO_INFORMATION = upTo(JET, 'runway two four')
  const WITH_CREW = upTo(JET, 'all pumps on')

  it('is not asked for a letter that was not broadcast yet', async () => {
    const { answers } = await then(AT_INFORMATION, 'information kilo', 'get the weather')
    expect(answers[0]).not.toMatch(/letter/)
    expect(answers[1]).toMatch(/heron hill departure information/i)
    const half = 'heron hill delivery, saltmarsh four two one, information, request clearance'
    const early = await then(NO_INFORMATION, half, half.replace('information', 'information lima'))
    expect(early.answers).toEqual(Array(2).fill('Not yet, take the departure information first.'))
    expect(early.state.turns['clearance.departure']?.misses ?? 0).toBe(0)
  })

  it.each(['remove external power', 'disconnect the external power', 'remove the cable'])(
    '"%s" before the power is off comes too early, and is half of nothing else',
    async (words) => {
      const { answers } = await then(WITH_CREW, words)
      expect(answers).toEqual(['Not yet, power off before the cable.'])
    },
  )
})

describe('what was said wrong', () => {
  it('is of the other speed whose name was said before it', async () => {
    const { events, debrief } = await flown('marram', upTo(JET, 'one two eight'), 'V two one four one')
    const last = events.findLast((one) => one.type === 'answered')
    expect(last?.type === 'answered' && last.judgement).toMatchObject({
      parts: [{ name: 'vr', read: 141 }],
      causes: [{ cause: 'otherFigure', detail: 'V two' }],
    })
    expect(debrief.foremost[0]?.why).toBe('Rotate speed: 134 kt was right; it looks like V two.')
  })

  it('is told with the whole element where only one part of it was wrong', async () => {
    const { debrief } = await flown('marram', upTo(JET, 'via bravo echo charlie'), 'cross runway three three')
    expect(debrief.foremost[0]?.why).toMatch(/“hold short of runway 33” was right/)
  })

  it('three times sends the eyes to the papers, and gives nothing away', async () => {
    const { pack, events } = await then(upTo(JET, 'three point one up'))
    const coached = events.map((one) =>
      one.type === 'runStarted' ? { ...one, settings: { ...one.settings, coachAfter: 3 } } : one,
    )
    const { answers, state } = await goneOn(pack, coached, 'one two niner', 'one three zero', 'one three one')
    expect(answers[2]).toBe('I heard one three one. Check the takeoff data and speed card.')
    expect(state.items['loadFigures.v1']?.revealed).toBe(false)
  })
})

describe('speeds that changed after the briefing', () => {
  it('are briefed anew before a list of any later phase is begun', async () => {
    const { pack, state } = await flown('marram', upTo(JET, 'signal in sight'))
    const topics = Object.fromEntries(Object.entries(state.topics).filter(([id]) => !id.endsWith('.speeds')))
    const reopened = { ...state, topics, briefingsClosed: [] }
    const called = listCalled(pack, reopened, 'pushAndStart')
    expect(called.state.question).toMatchObject({ about: 'outOfOrder', next: 'departureBriefing' })
    const insisted = refused(pack, called.state)
    expect(insisted.state.floor.at).toBe('briefing')
    expect(insisted.state.said).toMatch(/^Nothing on takeoff speeds yet\./)
    expect(listCalled(pack, state, 'pushAndStart').state.question).toBeUndefined()
  })
})
