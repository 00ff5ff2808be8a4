import { describe, expect, it } from 'vitest'
import { fold } from '../../../../src/kernel/run/core/step.ts'
import { HELD, SAID, TALK, type TalkRun, talkRun } from '../talkFixture.ts'

const WHOLE = 'cleared to corrie, tarn two alfa departure, climb five thousand, squawk four two seven one'

/** Flown to a place by right answers. */
const CLEARANCE = ['request clearance', WHOLE]
const BRIEFING = [...CLEARANCE, 'departing runway two seven left', 'level five thousand', 'rejected takeoff']
const PUSH = [...BRIEFING, 'briefing complete', 'before push', 'four two seven one']
const ORDER = [...PUSH, 'external power off', 'beacon on', 'brakes released', 'ready to push']
const TAXI = [...ORDER, 'flap five', 'request taxi']

function flown(texts: readonly string[], script = SAID): TalkRun {
  const run = talkRun(script)
  for (const text of texts) run.hear(text)
  return run
}

describe('a clearance', () => {
  it('is spoken when it was asked for, in the voice of its station', () => {
    expect(flown(['request clearance']).said()).toEqual([
      'controller: Cleared to corrie, tarn two alfa departure, climb to five thousand, squawk four two seven one.',
    ])
  })

  it.each([
    ['right', WHOLE, 'Read back correct.'],
    ['in another order', 'squawk four two seven one, climb five thousand, tarn two alfa, corrie', 'Read back correct.'],
    ['with a correction', `${WHOLE.replace('one', 'two')} correction squawk four two seven one`, 'Read back correct.'],
    ['with a wrong limit', WHOLE.replace('corrie', 'melton'), 'Negative, cleared to corrie.'],
    ['with a wrong departure', WHOLE.replace('alfa', 'bravo'), 'Negative, tarn two alfa departure.'],
    ['with a wrong level', WHOLE.replace('five', 'four'), 'Negative, climb to five thousand.'],
    ['with a wrong code', WHOLE.replace('seven one', 'seven seven'), 'Negative, squawk four two seven one.'],
    [
      'with two wrong elements',
      WHOLE.replace('seven one', 'one seven').replace('corrie', 'harbour'),
      'Negative, cleared to corrie, squawk four two seven one.',
    ],
    ['without its limit', WHOLE.replace('cleared to corrie, ', ''), 'Read back clearance limit.'],
    ['without its departure', WHOLE.replace('tarn two alfa departure, ', ''), 'Read back departure.'],
    ['without its level', WHOLE.replace('climb five thousand, ', ''), 'Read back level.'],
    ['without its code', WHOLE.replace(', squawk four two seven one', ''), 'Read back squawk.'],
    ['as roger', 'roger', 'Read back.'],
    ['as wilco', 'wilco', 'Read back.'],
  ])('read back %s is answered in its own words', (_, text, answer) => {
    expect(flown(['request clearance', text]).said()[0]).toBe(`controller: ${answer}`)
  })

  it('is asked for again once where one look of the ear took it for other speech', () => {
    const run = flown(['request clearance'])
    const half = { by: 'voice', doubt: 'unsure' } as const
    run.hear('squawk four two seven one', half)
    expect(run.said()[0]).toBe('controller: Say again.')
    const { seq } = run.state
    for (const text of ['squawk four two seven one', 'squawk four two seven']) run.hear(text, half)
    expect(run.events.slice(seq + 1).map(({ type }) => type)).toEqual(['overheard', 'overheard'])
    run.hear('squawk four two seven one', { ...half, score: 0.75 })
    expect(run.events.at(-1)).toMatchObject({ type: 'transmitted', judgement: { verdict: 'sayAgain' } })
  })

  it('is read back again only in the element that was wrong', () => {
    const run = flown(['request clearance', WHOLE.replace('seven one', 'seven two'), 'squawk four two seven one'])
    expect(run.said()[0]).toBe('controller: Read back correct.')
    const { point: _, ...given } = SAID.values
    expect(run.state.values).toEqual({ ...given, ...HELD })
    expect(run.state.cleared).toEqual(['route'])
  })

  it('gives no figure while an element is wrong', () => {
    const run = flown(['request clearance', WHOLE.replace('seven one', 'seven two')])
    expect(run.state.values.code).toBeUndefined()
    expect(run.state.floor.at).toBe('exchange')
  })

  it.each([
    [
      'say again',
      'I say again, cleared to corrie, tarn two alfa departure, climb to five thousand, squawk four two seven one.',
    ],
    ['say again squawk', 'Squawk four two seven one.'],
    ['say again the code', 'Squawk four two seven one.'],
    ['say again level', 'Climb to five thousand.'],
  ])('is said again on "%s"', (text, answer) => {
    expect(flown(['request clearance', text]).said()).toEqual([`controller: ${answer}`])
  })

  it('waits on stand by and asks for its read-back on continue', () => {
    const run = flown(['request clearance', 'stand by', 'continue'])
    expect(run.said()).toEqual(['controller: Read back.'])
  })

  it('waits in its own voice, and hears the read-back without more ado', () => {
    const run = flown(['request clearance', 'stand by'])
    expect(run.said()).toEqual(['controller: Standing by.'])
    expect(run.hear('what a day').said()).toEqual([])
    expect(run.hear(WHOLE).said()[0]).toBe('controller: Read back correct.')
    expect(run.state.standingBy).toBe(false)
  })

  it('gives figures that later items rest on', () => {
    expect(flown([...BRIEFING, 'briefing complete', 'before push', 'four two seven seven']).said()[0]).toMatch(
      /I heard four two seven seven/,
    )
  })
})

describe('"correction" and "go back one" behind an exchange', () => {
  const AFTER = ['request clearance', WHOLE]
  const isOpen = (run: TalkRun) => run.state.turns['clearance.full']?.status === 'said'

  it('mean the exchange, and what it cleared is not cleared any more', () => {
    for (const text of ['correction', 'go back one']) {
      const run = flown([...AFTER, text])
      expect(run.said(), text).toEqual([
        'controller: Read back clearance limit, departure, level, squawk.',
        'otherseat: Recheck departure clearance.',
      ])
      expect([isOpen(run), run.state.cleared], text).toEqual([true, []])
      run.hear(WHOLE)
      expect([isOpen(run), run.state.cleared], text).toEqual([false, ['route']])
    }
  })

  it('replace only what is said again: the rest of the read-back stands', () => {
    const run = flown([...AFTER, 'correction squawk four two seven two'])
    expect(run.said()).toEqual(['controller: Negative, squawk four two seven one.'])
    expect(run.hear('squawk four two seven one').said()[0]).toBe('controller: Read back correct.')
  })

  it('mean what was closed last, one behind the other', () => {
    const run = flown([...BRIEFING, 'briefing complete', 'correction'])
    expect(run.state.floor.at).toBe('briefing')
    expect(run.hear('go back one').state.floor.at).toBe('exchange')
    expect(isOpen(run)).toBe(true)
    const listed = flown([...PUSH, 'correction'])
    expect(listed.state.floor).toMatchObject({ item: 'list.code' })
  })

  it('mean what is under way once something was said there', () => {
    const run = flown([...CLEARANCE, 'first level six thousand', 'correction, first level five thousand'])
    expect(run.state.floor.at).toBe('briefing')
    expect(run.state.topics['briefing.level']).toBe('ok')
  })

  it('open an order between the seats, or a word to the ground crew, to be said anew', () => {
    const ordered = flown([...ORDER, 'flap five', 'correction'])
    expect(ordered.state.turns['flap.order']?.status).toBe('ahead')
    expect(ordered.hear('flap fifteen').said()[0]).toMatch(/Confirm fifteen/)
    const crew = flown([...PUSH, 'external power off', 'correction'])
    expect(crew.state.turns['crew.power']?.status).toBe('ahead')
  })
})

describe('a controller who errs', () => {
  const accepts = {
    ...SAID,
    slip: { turn: 'clearance.full', figure: 'code', kind: 'acceptsWrong', seed: 3 },
  } as const
  const another = {
    ...SAID,
    slip: { turn: 'clearance.full', figure: 'code', kind: 'saysAnother', seed: 3 },
  } as const

  it('calls a wrong read-back correct, and the pilot comes back to it', () => {
    const run = flown(['request clearance', WHOLE.replace('seven one', 'seven two')], accepts)
    expect(run.said()[0]).toBe('controller: Read back correct.')
    expect(run.state.turns['clearance.full']?.slip).toBe('open')
    expect(run.state.values.code).toBe('4271')
    expect(run.hear('correction, squawk four two seven one').said()[0]).toBe(
      'controller: Affirm, squawk four two seven one.',
    )
    expect(run.state.turns['clearance.full']?.slip).toBe('noticed')
  })

  it.each([
    ['level', WHOLE.replace('five', 'six'), 'climb five thousand', 'Affirm, climb to five thousand.'],
    ['limit', WHOLE.replace('corrie', 'melton'), 'cleared to corrie', 'Affirm, cleared to corrie.'],
  ])('calls the first wrong value correct, whichever it is: %s', (_, wrong, right, affirmed) => {
    const run = flown(['request clearance', wrong], accepts)
    expect(run.said()[0]).toBe('controller: Read back correct.')
    expect(run.hear(`correction, ${right}`).said()[0]).toBe(`controller: ${affirmed}`)
  })

  it('errs once: the next wrong value is corrected', () => {
    const start = [...TAXI.slice(0, 1), WHOLE.replace('five', 'six'), ...TAXI.slice(2)]
    const run = flown([...start, 'taxi to holding point alfa four, hold short of runway two seven left'], accepts)
    expect(run.said()[0]).toBe('controller: Negative, taxi to holding point alfa three.')
  })

  it('says another value behind a right read-back, and is objected to', () => {
    const run = flown(['request clearance', WHOLE], another)
    expect(run.said()).toEqual(['controller: Read back correct, squawk four two seven two.'])
    expect(run.hear('negative, squawk four two seven one').said()[0]).toBe(
      'controller: Affirm, squawk four two seven one.',
    )
    expect(run.state.turns['clearance.full']?.slip).toBe('noticed')
  })

  it('says another value, and the pilot takes it', () => {
    const run = flown(['request clearance', WHOLE, 'squawk four two seven two'], another)
    expect(run.state.turns['clearance.full']?.slip).toBe('unnoticed')
    expect(run.state.values.code).toBe('4271')
  })
})

describe('a briefing', () => {
  it('ticks topics in any order, compares their values, and asks for what was left out', () => {
    const run = flown([...CLEARANCE, 'rejected takeoff as usual and departing runway two seven left'])
    expect(run.state.topics).toEqual({ 'briefing.reject': 'ok', 'briefing.runway': 'ok' })
    expect(run.hear('first level six thousand').said()).toEqual(['otherseat: I heard six thousand. First level?'])
    expect(run.hear('briefing complete').said()).toEqual(['otherseat: First level?'])
    run.hear('level five thousand')
    expect(run.hear('briefing complete').state.briefingsClosed).toEqual(['briefing'])
  })

  it('is ended by its last words behind a long sentence, if all of it is right and none is left out', () => {
    const all = 'departing runway two seven left, first level five thousand, rejected takeoff as usual'
    const closed = (text: string) => flown([...CLEARANCE, text]).state.briefingsClosed
    expect(closed(`${all}, and that is it, briefing complete`)).toEqual(['briefing'])
    expect(closed(all)).toEqual([])
    expect(closed(`${all}, not briefing complete`)).toEqual([])
    expect(closed(`${all.replace('five', 'six')}, briefing complete`)).toEqual([])
    const short = flown([...CLEARANCE, 'runway two seven left and level five thousand, briefing complete'])
    expect(short.said()).toEqual(['otherseat: Nothing on rejected takeoff yet.'])
    expect(short.state.topics).toEqual({ 'briefing.runway': 'ok', 'briefing.level': 'ok' })
  })
})

describe('the ground crew', () => {
  it('is called in an order of the pilot’s, as far as what must come first allows', () => {
    const run = flown([...PUSH, 'ready to push'])
    expect(run.said()).toEqual(['otherseat: Not yet, the ground crew asks for the brakes first.'])
    expect(run.hear('beacon on').said()).toEqual(['groundCrew: Release brakes.'])
    run.hear('brakes released').hear('external power off')
    expect(run.hear('ready to push').said()[0]).toBe('groundCrew: Pushing.')
  })
})

describe('an order between the seats', () => {
  it('is echoed where it is the figure', () => {
    expect(flown([...ORDER, 'flap five']).said()[0]).toBe('otherseat: Flap five.')
  })

  it('is questioned where it is another one, without the figure being said', () => {
    const run = flown([...ORDER, 'flap fifteen'])
    expect(run.said()).toEqual(['otherseat: Confirm fifteen?'])
    expect(run.hear('flap five').said()[0]).toBe('otherseat: Flap five.')
  })

  it('is corrected where it was questioned, whatever was closed before', () => {
    const run = flown([...ORDER, 'flap fifteen', 'correction, flap five'])
    expect(run.said()[0]).toBe('otherseat: Flap five.')
    expect(run.state.turns['crew.push']?.status).toBe('done')
  })

  it('is asked for by the name of its figure where that is left out, and completed by it alone', () => {
    const run = flown([...ORDER, 'flap'])
    expect(run.said()).toEqual(['otherseat: Flap, takeoff flap?'])
    expect(run.hear('five').said()[0]).toBe('otherseat: Flap five.')
  })

  it('is kept to on affirm, and the log tells', () => {
    const run = flown([...ORDER, 'flap fifteen', 'affirm'])
    expect(run.said()[0]).toBe('otherseat: Flap fifteen.')
    expect(run.state.turns['flap.order']?.insisted).toBe('fifteen')
  })
})

describe('an order to the ground crew', () => {
  it('with the opposite state is heard back by its name, and counts as a miss', () => {
    const run = flown([...ORDER.slice(0, ORDER.indexOf('external power off')), 'external power on'])
    expect(run.said()).toEqual(['groundCrew: Confirm external power.'])
    expect(run.state.turns['crew.power']).toMatchObject({ status: 'ahead', misses: 1 })
  })

  it('that comes before what it waits for is not yet', () => {
    const run = flown([...ORDER.slice(0, ORDER.indexOf('external power off')), 'ready to push'])
    expect(run.said()).toEqual(['otherseat: Not yet, the ground crew asks for the brakes first.'])
    expect(run.state.turns['crew.push']?.status ?? 'ahead').toBe('ahead')
  })
})

describe('a taxi clearance', () => {
  it('is not read back without hold short', () => {
    const run = flown([...TAXI, 'taxi to holding point alfa three runway two seven left'])
    expect(run.said()).toEqual(['controller: Read back hold short.'])
    expect(run.hear('hold short of runway two seven left').said()[0]).toBe('controller: Read back correct.')
    expect(run.state.floor.at).toBe('end')
  })
})

it('is left out where the voices outside the crew are', () => {
  const run = talkRun()
  const { script: _, ...bare } = run.events[0] as Extract<(typeof run.events)[number], { type: 'runStarted' }>
  const events = [bare, run.events[1]] as typeof run.events
  expect(fold(TALK, 'talk', events).floor).toMatchObject({ at: 'call' })
})

it('folds to the same state from its log', () => {
  const run = flown([...TAXI, 'hold short runway two seven left, taxi to holding point alfa three'])
  expect(fold(TALK, 'talk', run.events)).toEqual(run.state)
})

it('gives an order again, before anything else, when its figure has changed', () => {
  const run = flown([...ORDER, 'flap five'])
  run.happen({
    type: 'figuresRevised',
    revision: run.state.revision + 1,
    status: 'amended',
    label: 'amended',
    inputs: { status: 'amended', values: { ...run.state.values, flap: 'fifteen' }, loads: {} },
    values: { ...run.state.values, flap: 'fifteen' },
    changes: [{ figure: 'flap', label: 'takeoff flap', from: 'five', to: 'fifteen', spoken: true }],
    warnings: [],
  })
  expect(run.state.turns['flap.order']).toMatchObject({ status: 'ahead', again: true })
  expect(run.hear('flap fifteen').said()[0]).toBe('otherseat: Flap fifteen.')
  expect(run.state.turns['flap.order']?.again).toBe(false)
})
