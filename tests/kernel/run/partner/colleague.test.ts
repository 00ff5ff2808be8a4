/** A colleague who works the radio: each fault caught and missed, right read-backs objected to, and the same from the log. */

import { describe, expect, it } from 'vitest'
import { viewOf } from '../../../../src/app/view/view.ts'
import type { RunSettings, Script } from '../../../../src/kernel/run/core/events.ts'
import { fold } from '../../../../src/kernel/run/core/step.ts'
import { debriefOf } from '../../../../src/kernel/run/debrief/debrief.ts'
import type { Fault } from '../../../../src/kernel/run/partner/model.ts'
import { plannedBefore } from '../../../../src/kernel/run/partner/plan.ts'
import { SAID, TALK, type TalkRun, talkRun } from '../talkFixture.ts'

const COLLEAGUE: Partial<RunSettings> = { readBacks: 'colleague', partner: { seed: 1, rate: 0 } }
const SQUAWK: Fault = {
  ...{ kind: 'misread', grade: 'hard', about: 'clearance.full', element: 'code' },
  ...{ figure: 'code', said: '4217', right: '4271' },
}
const NO_LEVEL: Fault = {
  ...{ kind: 'leftOut', grade: 'hard', about: 'clearance.full', element: 'level' },
  ...{ figure: 'level', right: 5000 },
}

/** The clearance is called for, and its read-back holds this. */
function called(fault?: Fault, script: Script = SAID, settings = COLLEAGUE): TalkRun {
  const run = talkRun(script, TALK, { settings })
  run.plan = (_, event) =>
    fault && event.type === 'radioed' && event.part === (fault.kind === 'readBack' ? 'hearBack' : 'readBack')
      ? [{ type: 'faultPlanned', fault }]
      : []
  return run.hear('request clearance')
}
const chances = ({ state }: TalkRun) => state.partner?.chances ?? []
const objections = (run: TalkRun) => chances(run).flatMap(({ objection }) => objection?.text ?? [])
function toldAtEnd(run: TalkRun) {
  run.happen({ type: 'ended' })
  return debriefOf(TALK, run.events)
}

describe('the colleague', () => {
  it('reads back by itself, the controller hears it, and the turn closes with its values', () => {
    const run = called()
    expect(run.said()).toEqual([
      'controller: Cleared to corrie, tarn two alfa departure, climb to five thousand, squawk four two seven one.',
      'otherseat: Cleared to corrie, tarn two alfa departure, climb to five thousand, squawk four two seven one.',
      'controller: Read back correct.',
      'otherseat: Departure briefing.',
    ])
    expect(run.state.turns['clearance.full']).toMatchObject({ status: 'done' })
    expect(run.state.inputs?.values).toMatchObject({ code: '4271', level: 5000 })
    expect(run.state.floor).toMatchObject({ at: 'briefing' })
    expect(run.events.map(({ type }) => type).slice(2)).toEqual(['transmitted', 'radioed', 'radioed', 'figuresRevised'])
    expect(chances(run).map(({ kind }) => kind)).toEqual(['colleague', 'station'])
    const { timeline } = toldAtEnd(run)
    expect(timeline.find(({ lane }) => lane === 'talk')).toMatchObject({
      went: 'right',
      told: expect.not.stringMatching(/not done/),
    })
  })

  it('says nothing where the pilot reads back', () => {
    const run = called(undefined, SAID, {})
    expect(run.said()).toHaveLength(1)
    expect(run.state.turns['clearance.full']).toMatchObject({ status: 'said' })
  })

  it('leaves the ground crew to the pilot', () => {
    const run = called()
    for (const text of ['runway two seven left', 'level five thousand', 'rejected takeoff', 'briefing complete'])
      run.hear(text)
    for (const text of ['before push', 'four two seven one', 'external power off', 'beacon on']) run.hear(text)
    expect(run.state.turns['crew.brakes']).toMatchObject({ status: 'said' })
    run.hear('brakes released')
    expect(run.state.turns['crew.brakes']).toMatchObject({ status: 'done' })
  })

  it('waits until the pilot lets it go on, and then the controller says it once more', () => {
    const run = talkRun(SAID, TALK, { settings: COLLEAGUE })
    const { happen } = run
    // The page is left after the call.
    run.happen = (body) => (body.type === 'radioed' ? run : happen(body))
    run.hear('request clearance')
    expect(run.state.turns['clearance.full']).toMatchObject({ status: 'relaying' })
    run.happen = happen
    run.happen({ type: 'resumed' })
    expect(run.said()[0]).toMatch(/^controller: I say again, cleared to corrie/)
    expect(run.said()[1]).toMatch(/^otherseat: Cleared to corrie/)
    expect(run.state.turns['clearance.full']).toMatchObject({ status: 'done' })
  })

  it('says what is due once, whatever comes twice', () => {
    const run = called()
    const { length } = chances(run)
    run.happen({ type: 'radioed', turn: 'clearance.full', part: 'readBack' })
    run.happen({ type: 'radioed', turn: 'clearance.full', part: 'hearBack' })
    expect(run.said()).toEqual([])
    expect(chances(run)).toHaveLength(length)
  })
})

describe('a wrong value', () => {
  it('is read back, and called correct; the figures are what the controller said', () => {
    const run = called(SQUAWK)
    expect(run.said()[1]).toMatch(/squawk four two one seven\.$/)
    expect(run.said()[2]).toBe('controller: Read back correct.')
    expect(run.state.inputs?.values).toMatchObject({ code: '4271' })
  })

  it.each([
    'negative, squawk four two seven one',
    'negative, four two seven one',
    'check that',
    'correction, squawk four two seven one',
    'you left out the squawk',
    'no, squawk four two seven one',
    'hang on, the squawk is four two seven one',
    "wasn't the squawk four two seven one?",
    'he said squawk four two seven one',
    'did he say squawk four two seven one?',
    "that's wrong, it should be squawk 4271",
    'sorry, I have four two seven one for the squawk',
    'the squawk was wrong',
    'you read back one seven, the squawk was four two seven one',
    'check the squawk please, it was four two seven one',
    "hang on, that's not what he said, squawk four two seven one",
    'no, it was squawk four two seven one',
    'I heard squawk four two seven one',
    'four two seven one, not four two one seven',
    'you got the squawk wrong, it is four two seven one',
    'confirm squawk four two seven one?',
    'that was four two one seven, should be four two seven one',
    "I don't think that was right",
    'wrong squawk',
    'check the squawk',
    "that's not what he said",
    "are you sure? I've got squawk four two seven one",
  ])('is caught by "%s": the colleague corrects, the controller affirms', (text) => {
    const run = called(SQUAWK).hear(text)
    expect(run.said()).toEqual([
      'otherseat: Correction, squawk four two seven one.',
      'controller: Affirm, squawk four two seven one.',
      'otherseat: Departure briefing.',
    ])
    expect(objections(run)).toEqual([text])
    const { partner, timeline } = toldAtEnd(run)
    expect(partner?.counts).toEqual({ faults: 1, caught: 1, sound: 0, falseObjections: 0 })
    expect(partner?.faults[0]).toMatchObject({
      caught: true,
      grave: true,
      told: 'Departure clearance: your colleague read back squawk four two one seven, right was four two seven one.',
    })
    expect(timeline.map(({ told }) => told)).toContainEqual(
      expect.stringMatching(/^Departure clearance: your colleague erred, caught after/),
    )
  })

  it.each(['I have squawk four two one seven', 'squawk four two one seven', 'level five thousand is right', 'roger'])(
    'is not objected to by who agrees: "%s"',
    (text) => {
      expect(objections(called(SQUAWK).hear(text))).toEqual([])
    },
  )

  it('that is let go is not mentioned before the end', () => {
    const run = called(SQUAWK).hear('runway two seven left')
    expect(run.said().join()).not.toMatch(/correction|squawk/i)
    expect(debriefOf(TALK, run.events).partner).toBeUndefined()
    const { partner, timeline, totals } = toldAtEnd(run)
    expect(partner?.faults).toMatchObject([{ caught: false, kind: 'misread' }])
    expect(timeline.map(({ told }) => told)).toContain(
      'Departure clearance: your colleague erred, and nobody objected.',
    )
    expect(totals.letGo).toBe(1)
  })

  it('is not caught where another element is objected to, which was right', () => {
    const run = called(SQUAWK).hear('negative, level six thousand')
    expect(run.said()[0]).toBe('otherseat: Climb to five thousand is correct. Departure briefing.')
    expect(objections(run)).toEqual([])
    expect(toldAtEnd(run).partner?.counts).toMatchObject({ faults: 1, caught: 0 })
  })

  it('is caught before the controller has answered, too', () => {
    const run = talkRun(SAID, TALK, { settings: COLLEAGUE })
    const { happen } = run
    run.plan = (_, event) => (event.type === 'radioed' ? [{ type: 'faultPlanned', fault: SQUAWK }] : [])
    run.happen = (body) => (body.type === 'radioed' && body.part === 'hearBack' ? run : happen(body))
    run.hear('request clearance')
    expect(run.state.turns['clearance.full']).toMatchObject({ status: 'relayed' })
    run.happen = happen
    run.plan = () => []
    run.hear('negative, squawk four two seven one')
    expect(run.said().slice(0, 3)).toEqual([
      'otherseat: Correction, squawk four two seven one.',
      'controller: Affirm, squawk four two seven one.',
      'controller: Read back correct.',
    ])
    expect(run.state.turns['clearance.full']).toMatchObject({ status: 'done' })
  })
})

describe('an element that is left out', () => {
  it('is not said, and the controller does not ask for it', () => {
    const run = called(NO_LEVEL)
    expect(run.said()[1]).toBe('otherseat: Cleared to corrie, tarn two alfa departure, squawk four two seven one.')
    expect(run.said()[2]).toBe('controller: Read back correct.')
    const { partner } = toldAtEnd(run)
    expect(partner?.faults).toMatchObject([
      { caught: false, told: 'Departure clearance: your colleague did not read back level five thousand.' },
    ])
  })

  it.each([
    'you left out the level',
    'you missed the level',
    'you left out something',
    'negative, level five thousand',
    'check that',
  ])('is caught by "%s"', (text) => {
    const run = called(NO_LEVEL).hear(text)
    expect(run.said().slice(0, 2)).toEqual([
      'otherseat: Correction, climb to five thousand.',
      'controller: Affirm, climb to five thousand.',
    ])
    expect(objections(run)).toEqual([text])
  })
})

describe('a right read-back', () => {
  it.each([
    ['negative, squawk four two one seven', 'otherseat: Squawk four two seven one is correct. Departure briefing.'],
    ['you left out the level', 'otherseat: Climb to five thousand is correct. Departure briefing.'],
    ['check that', /^controller: I say again, cleared to corrie/],
  ])('that is objected to by "%s" is told to be right, and counts as that', (text, said) => {
    const run = called().hear(text)
    expect(run.said()[0]).toMatch(said)
    expect(objections(run)).toEqual([text])
    expect(toldAtEnd(run).partner).toMatchObject({
      faults: [],
      falseObjections: [{ about: 'departure clearance', text }],
    })
  })

  it('may be followed by another value of the controller’s, to object to as ever', () => {
    const fault: Fault = { kind: 'readBack', grade: 'middling', about: 'clearance.full', figure: 'code', seed: 3 }
    const run = called(fault)
    expect(run.state.turns['clearance.full']).toMatchObject({ status: 'slipped' })
    // Nothing is asked of the pilot, who has read back nothing.
    expect(run.hear('you left out the level').said()).toEqual(['otherseat: Climb to five thousand is correct.'])
    run.hear('negative, squawk four two seven one')
    expect(run.state.turns['clearance.full']).toMatchObject({ status: 'done', slip: 'noticed' })
    expect(chances(run)).toMatchObject([{ kind: 'colleague' }, { kind: 'station', fault, objection: {} }])
  })

  it.each([
    ...['check that', "that's not right", 'negative', 'check the squawk', 'negative, squawk four two seven one'],
    ...['four two seven one', 'the squawk was four two seven one', "hang on, wasn't that four two seven one?"],
  ])(
    'another value of the controller’s is caught by "%s", and nothing is taken for a read-back of the pilot’s',
    (text) => {
      const fault: Fault = { kind: 'readBack', grade: 'middling', about: 'clearance.full', figure: 'code', seed: 3 }
      const run = called(fault).hear(text)
      expect(run.state.turns['clearance.full']).toMatchObject({ status: 'done', slip: 'noticed' })
      expect(toldAtEnd(run)).toMatchObject({
        partner: { counts: { faults: 1, caught: 1 } },
        totals: { radioMisses: 0 },
      })
    },
  )

  it.each(['negative, level six thousand', 'check the level', 'how is the weather'])(
    'another value of the controller’s is not caught by "%s", which is no read-back either',
    (text) => {
      const fault: Fault = { kind: 'readBack', grade: 'middling', about: 'clearance.full', figure: 'code', seed: 3 }
      const run = called(fault).hear(text)
      expect(run.state.turns['clearance.full']).toMatchObject({ status: 'slipped' })
      expect(toldAtEnd(run).totals.radioMisses).toBe(0)
    },
  )

  it('is followed by the slip of the script, and a wrong one is not', () => {
    const script: Script = { ...SAID, slip: { turn: 'clearance.full', figure: 'code', kind: 'saysAnother', seed: 3 } }
    expect(called(undefined, script).state.turns['clearance.full']).toMatchObject({ status: 'slipped' })
    expect(called(SQUAWK, script).state.turns['clearance.full']).toMatchObject({ status: 'done' })
  })

  it('that a controller would call correct though it were wrong is no slip of its', () => {
    const script: Script = { ...SAID, slip: { turn: 'clearance.full', figure: 'code', kind: 'acceptsWrong', seed: 3 } }
    const run = called(SQUAWK, script)
    expect(run.state.turns['clearance.full']?.slip).toBeUndefined()
    expect(toldAtEnd(run).totals.letGo).toBe(1)
  })
})

describe('the screen', () => {
  it('says that the colleague reads back, and holds no value', () => {
    const run = talkRun(SAID, TALK, { settings: COLLEAGUE })
    const { happen } = run
    run.happen = (body) => (body.type === 'radioed' ? run : happen(body))
    run.hear('request clearance')
    const { exchange, hint, buttons } = viewOf(TALK, run.state)
    expect(hint).toBe('Listen to both. Object where the read-back is not what was said.')
    expect(exchange).toMatchObject({ isRelayed: true, pending: { turn: 'clearance.full' } })
    expect(exchange?.pending?.elements.map(({ state }) => state)).toEqual(Array(4).fill('relayed'))
    expect(buttons.some(({ label }) => label.startsWith('Confirm by key'))).toBe(false)
  })

  it('offers to object behind it, wherever the run has gone on to', () => {
    const button = (run: TalkRun) => viewOf(TALK, run.state).buttons.find(({ label }) => label === 'Check that')
    expect(button(called())).toMatchObject({ press: { type: 'object', chance: 0 } })
    expect(button(called(SQUAWK))).toMatchObject({ press: { type: 'object', chance: 0 } })
    expect(button(talkRun(SAID, TALK, { settings: COLLEAGUE }))).toBeUndefined()
  })

  it('is told nothing of its words by the run', () => {
    expect(called(SQUAWK).state.said).not.toMatch(/four|squawk/)
  })
})

describe('the log', () => {
  it('gives the same run again, fault and objection and all', () => {
    const run = called(SQUAWK).hear('negative, squawk four two seven one')
    expect(fold(TALK, 'talk', run.events)).toEqual(run.state)
  })

  it('holds the fault before anything of it is said', () => {
    const run = talkRun(SAID, TALK, { settings: { ...COLLEAGUE, partner: { seed: 1, rate: 1 } } })
    run.plan = (state, event) => plannedBefore(TALK, state, event)
    run.hear('request clearance')
    const types = run.events.map(({ type }) => type)
    expect(types.slice(2, 6)).toEqual(['transmitted', 'faultPlanned', 'radioed', 'radioed'])
    expect(chances(run)[0]?.fault).toBeDefined()
  })
})
