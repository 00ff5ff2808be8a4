import { describe, expect, it } from 'vitest'
import { hiddenFigures } from '../../src/app/figures/hiddenFigures.ts'
import { buttonsOf } from '../../src/app/view/buttons.ts'
import { talkView } from '../../src/app/view/exchangeView.ts'
import { judgementShown, partsShown } from '../../src/app/view/partsShown.ts'
import { withProperNames } from '../../src/app/view/properNames.ts'
import { viewOf } from '../../src/app/view/view.ts'
import { readPackDir } from '../../src/cli/packDir.ts'
import { keyPress, type Press } from '../../src/kernel/interpret/keyPress.ts'
import { SAID, TALK, type TalkRun, talkRun } from '../kernel/run/talkFixture.ts'

const WHOLE = 'cleared to corrie, tarn two alfa departure, climb five thousand, squawk four two seven one'
const CLEARANCE = ['request clearance', WHOLE]
const BRIEFED = [...CLEARANCE, 'departing runway two seven left', 'level five thousand', 'rejected takeoff']
const GROUND = [...BRIEFED, 'briefing complete', 'before push', 'four two seven one']
const ORDER = [...GROUND, 'external power off', 'beacon on', 'brakes released', 'ready to push']

function flown(texts: readonly string[], script = SAID): TalkRun {
  const run = talkRun(script)
  for (const text of texts) run.hear(text)
  return run
}
const press = (run: TalkRun, what: Press) => {
  return run.happen(keyPress(TALK, run.state, what, 0))
}
const elements = (run: TalkRun) =>
  Object.fromEntries(
    (talkView(TALK, run.state)?.exchange?.pending?.elements ?? []).map(({ label, state }) => [label, state]),
  )
const labels = (run: TalkRun) => buttonsOf(TALK, run.state).map(({ label }) => label)
/** Every text of the view, keys and all. */
const shown = (run: TalkRun) => JSON.stringify(viewOf(TALK, run.state)).toLowerCase()
const VALUES = /corrie|melton|tarn|loch|five thousand|5000|four two seven one|4271/

describe('a correction', () => {
  const correction = (run: TalkRun) => talkView(TALK, run.state)?.exchange?.pending?.correction

  it('can be read after it was heard, in the words of the station and no others, and marks nothing', () => {
    const run = flown(['request clearance', WHOLE.replace('seven one', 'seven two')])
    expect(correction(run)).toBe('Negative, squawk four two seven one.')
    expect(JSON.stringify(talkView(TALK, run.state)).toLowerCase()).not.toMatch(/corrie|tarn|five thousand/)
    expect(run.state.turns['clearance.full']?.shown).toBe(false)
  })

  it('is none where nothing was wrong', () => {
    for (const text of ['corrie', 'roger', 'did you see that bird'])
      expect(correction(flown(['request clearance', text]))).toBeUndefined()
  })
})

describe('a clearance on the screen', () => {
  it('says whom to call with which words', () => {
    expect(viewOf(TALK, flown([]).state)).toMatchObject({
      kind: 'exchange',
      headline: 'departure clearance',
      hint: 'Call Sandmere Delivery: "delivery request clearance".',
      exchange: { station: 'Sandmere Delivery', role: 'controller' },
    })
  })

  it('names what must be read back, and no value of it', () => {
    const run = flown(['request clearance'])
    expect(elements(run)).toEqual({
      'clearance limit': 'ahead',
      departure: 'ahead',
      level: 'ahead',
      squawk: 'ahead',
    })
    expect(shown(run)).not.toMatch(VALUES)
  })

  it('tells after a read-back which element is right, wrong or missing', () => {
    const run = flown(['request clearance', 'cleared to corrie, climb five thousand, squawk four two seven two'])
    expect(elements(run)).toEqual({ 'clearance limit': 'right', departure: 'missing', level: 'right', squawk: 'wrong' })
    run.hear('tarn two alfa departure')
    expect(elements(run)).toMatchObject({ departure: 'right', squawk: 'missing' })
  })

  it('leaves them as they are where nothing was understood', () => {
    expect(elements(flown(['request clearance', 'blah blah']))).toMatchObject({ squawk: 'ahead' })
  })

  it('shows the words when they are asked for, and the turn is marked', () => {
    const run = flown(['request clearance'])
    press(run, { type: 'showWords', turn: 'clearance.full' })
    expect(run.events.at(-1)).toMatchObject({ type: 'wordsShown', evidence: { by: 'key' } })
    expect(talkView(TALK, run.state)?.exchange?.pending?.words).toBe(
      'Cleared to corrie, tarn two alfa departure, climb to five thousand, squawk four two seven one.',
    )
    expect(run.state.turns['clearance.full']?.shown).toBe(true)
  })

  it('offers no key in the place of values', () => {
    expect(labels(flown(['request clearance']))).toEqual(['Say again', 'Stand by', 'From the top'])
  })
})

describe('proper names', () => {
  it.each([
    ['Contact sandmere ground, one two one decimal nine.', 'Contact Sandmere Ground, one two one decimal nine.'],
    ['Sandmere departure information bravo.', 'Sandmere departure information bravo.'],
    ['monitor SANDMERE tower', 'monitor Sandmere tower'],
    ['sandmeresque delivery', 'sandmeresque delivery'],
    ['tell the ground crew', 'tell the ground crew'],
  ])('are as the pack writes them: "%s"', (said, shown) => expect(withProperNames(TALK, said)).toBe(shown))

  it('of more than one word, and of operators, keep each capital on the demo’s screen', async () => {
    const { pack } = await readPackDir('checklists/marram')
    if (!pack) throw new Error('the demo does not read')
    expect(withProperNames(pack, 'Heron hill departure information, contact heron hill ground, saltmarsh four')).toBe(
      'Heron Hill departure information, contact Heron Hill Ground, Saltmarsh four',
    )
  })
})

describe('a controller who errs', () => {
  const slip = { turn: 'clearance.full', figure: 'code', seed: 3 }
  const another = { ...SAID, slip: { ...slip, kind: 'saysAnother' } } as const
  const accepts = { ...SAID, slip: { ...slip, kind: 'acceptsWrong' } } as const

  it('says another value in the words that are shown to those who cannot hear', () => {
    const run = flown(CLEARANCE, another)
    press(run, { type: 'showWords', turn: 'clearance.full' })
    expect(talkView(TALK, run.state)?.exchange?.pending?.words).toBe('Read back correct, squawk four two seven two.')
  })

  it('is not given away by the verdict on the screen', () => {
    const run = flown(['request clearance', WHOLE.replace('seven one', 'seven two')], accepts)
    const { last } = run.state
    if (!last) throw new Error('nothing was said')
    expect(last.judgement.verdict).toBe('negative')
    expect(judgementShown(run.state, last).verdict).toBe('correct')
    expect(partsShown(TALK, run.state).filter(({ state }) => state !== 'ok')).toEqual([])
  })
})

describe('what was heard of a transmission', () => {
  it('has its parts by the names of the elements', () => {
    const run = flown(['request clearance', 'cleared to corrie, squawk four two seven two'])
    const states = partsShown(TALK, run.state).map(({ label, state }) => `${label}: ${state}`)
    expect(states).toContain('squawk: wrong')
    expect(states).toContain('departure: missing')
    expect(states).toContain('clearance limit: ok')
  })
})

describe('a briefing on the screen', () => {
  it('ticks topics in any order, marks wrong ones and ends by key only when all are covered', () => {
    const run = flown([...CLEARANCE, 'rejected takeoff', 'departing runway two seven right'])
    const topics = () => viewOf(TALK, run.state).briefing?.topics.map(({ label, state }) => `${label}: ${state}`)
    expect(topics()).toEqual(['runway: wrong', 'first level: open', 'rejected takeoff: ok'])
    expect(labels(run)[0]).toBe('Briefing complete')
    press(run, { type: 'briefingDone', briefing: 'briefing' })
    expect(run.said().join(' ')).toContain('Nothing on first level yet. Runway?')
    run.hear('runway two seven left').hear('level five thousand')
    press(run, { type: 'briefingDone', briefing: 'briefing' })
    expect(run.state.briefingsClosed).toEqual(['briefing'])
  })

  it('gives no value away', () => {
    expect(shown(flown([...CLEARANCE, 'runway two seven right']))).not.toMatch(/27l|seven left/)
  })
})

describe('the ground crew on the screen', () => {
  const turns = (run: TalkRun) =>
    talkView(TALK, run.state)?.exchange?.turns.map(({ label, state, note }) => `${label}, ${state}: ${note}`)

  it('stands with all that is to be exchanged, and what each waits for', () => {
    expect(turns(flown(GROUND))).toEqual([
      'external power, call: say "external power off"',
      'beacon, call: say "beacon on"',
      'brakes, waits: beacon first',
      'push, waits: the ground crew asks for the brakes first',
    ])
    expect(turns(flown([...GROUND, 'beacon on']))?.slice(1, 3)).toEqual([
      'beacon, done: done',
      'brakes, now: waiting for your answer',
    ])
  })

  it('says why a call that is right is not acted on', () => {
    const run = flown([...GROUND, 'ready to push'])
    expect(talkView(TALK, run.state)?.exchange?.refusal).toBe('the ground crew asks for the brakes first')
    run.hear('beacon on')
    expect(talkView(TALK, run.state)?.exchange?.refusal).toBeUndefined()
  })

  it('takes calls of words alone by key, logged as just that', () => {
    const run = flown(GROUND)
    expect(labels(run)).toEqual([
      'Stop',
      'Confirm by key: external power',
      'Confirm by key: beacon',
      ...['Say again', 'Stand by', 'From the top'],
      'Confirm by key: push',
    ])
    expect(buttonsOf(TALK, run.state).flatMap(({ waitsFor }) => waitsFor ?? [])).toEqual([
      'the ground crew asks for the brakes first',
    ])
    press(run, { type: 'confirmTurn', turn: 'crew.push', part: 'call' })
    expect(run.said().join(' ')).toContain('Not yet')
    press(run, { type: 'confirmTurn', turn: 'crew.beacon', part: 'call' })
    expect(run.events.at(-1)).toMatchObject({ type: 'transmitted', evidence: { by: 'key', text: '' } })
    const [, answer] = buttonsOf(TALK, run.state)
    expect(answer).toMatchObject({ label: 'Confirm by key: brakes', phrase: '' })
    press(run, { type: 'confirmTurn', turn: 'crew.brakes', part: 'readBack' })
    expect(run.state.turns['crew.brakes']?.status).toBe('done')
  })
})

describe('an order between the seats', () => {
  it('is asked for by the name of its figure', () => {
    expect(talkView(TALK, flown(ORDER).state)?.hint).toBe('Give the order: "flap …", with takeoff flap.')
  })

  it('that differs from the figure is a question with affirm and negative', () => {
    const run = flown([...ORDER, 'flap fifteen'])
    expect(viewOf(TALK, run.state)).toMatchObject({ kind: 'question', hint: 'Affirm or negative.' })
    expect(viewOf(TALK, run.state).headline).toContain('Confirm')
    expect(labels(run)).toEqual(['Affirm', 'Negative'])
    press(run, { type: 'command', command: 'affirm' })
    expect(run.state.turns['flap.order']?.insisted).toContain('fifteen')
  })
})

describe('figures that are yet to be said in an order or a briefing', () => {
  const hidden = (run: TalkRun) => [...hiddenFigures(TALK, run.state).keys()]

  it('are hidden until they are', () => {
    expect(hidden(flown(CLEARANCE))).toEqual(expect.arrayContaining(['runway', 'level', 'flap']))
    const after = hidden(flown([...GROUND, 'external power off']))
    expect(after).toContain('flap')
    expect(after).not.toContain('level')
  })
})

describe('the procedure at a glance', () => {
  const overview = (run: TalkRun) =>
    viewOf(TALK, run.state).lists.map(({ name, type, state, openItems }) => [name, type, state, openItems.join()])

  it('has exchanges and briefings in their places', () => {
    expect(overview(flown([...CLEARANCE, 'rejected takeoff'])).slice(0, 4)).toEqual([
      ['departure clearance', 'exchange', 'complete', ''],
      ['departure briefing', 'briefing', 'open', 'runway,first level'],
      ['before push', 'list', 'ahead', ''],
      ['ground crew', 'exchange', 'ahead', ''],
    ])
  })

  it('leaves them out where nobody is to be talked to', () => {
    const { state } = flown([])
    expect(viewOf(TALK, { ...state, script: undefined }).lists.map(({ type }) => type)).toEqual(['list'])
  })
})
