import { describe, expect, it } from 'vitest'
import { debriefLines } from '../../../../src/cli/debriefText.ts'
import { debriefOf, headlineOf } from '../../../../src/kernel/run/debrief/debrief.ts'
import { SAID, TALK, type TalkRun, talkRun } from '../talkFixture.ts'

const WHOLE = 'cleared to corrie, tarn two alfa departure, climb five thousand, squawk four two seven one'
const WRONG = WHOLE.replace('seven one', 'seven two')
const BRIEFED = ['departing runway two seven left', 'level five thousand', 'rejected takeoff', 'briefing complete']
const TO_THE_ORDER = [
  'before push',
  'four two seven one',
  'external power off',
  'beacon on',
  'brakes released',
  'ready to push',
]

function debriefAfter(
  texts: readonly string[],
  script = SAID,
  meddle: (run: TalkRun, text: string) => void = () => {},
) {
  const run = talkRun(script)
  for (const text of texts) {
    run.hear(text)
    meddle(run, text)
  }
  return debriefOf(TALK, run.events)
}
const turnOf = (debrief: ReturnType<typeof debriefAfter>, id: string) =>
  debrief.exchanges.flatMap(({ turns }) => turns).find((turn) => turn.id === id)

describe('what besides lists was left out', () => {
  const flown = () => {
    const run = talkRun()
    for (const text of ['request clearance', WHOLE, ...BRIEFED, 'before push', 'four two seven one']) run.hear(text)
    return run
  }

  it('stands in the headline once the run has ended, and before that what comes next, the lists being complete, and is among the deviations', () => {
    const under = debriefOf(TALK, flown().events)
    expect(headlineOf(under)).toBe('All lists complete; next: ground crew')
    const over = debriefOf(TALK, flown().happen({ type: 'ended' }).events)
    expect(headlineOf(over)).toBe('All lists complete; left out: ground crew, flap order, taxi clearance')
    expect(over.deviations.map(({ kind, where }) => [kind, where])).toContainEqual(['notBegun', 'taxi clearance'])
    expect(over.foremost[0]).toMatchObject({ kind: 'crewNotDone', about: 'flap order' })
    expect(debriefLines(over)).toContain(`${headlineOf(over)}.`)
  })

  it('is nothing of a run that ended before its lists were complete', () => {
    const run = talkRun().hear('request clearance').hear(WHOLE).happen({ type: 'ended' })
    expect(headlineOf(debriefOf(TALK, run.events))).toBe('Not all lists are complete')
  })
})

describe('the debrief of an exchange', () => {
  it('has every call and read-back with its verdict, what was missed, and what was asked again', () => {
    const debrief = debriefAfter(['request clearance', 'say again squawk', WRONG, 'squawk four two seven one'])
    const turn = turnOf(debrief, 'clearance.full')
    expect(turn).toMatchObject({ done: true, misses: 1, asked: 1, shown: false, byKey: false })
    expect(turn?.tries.map(({ part, judgement }) => [part, judgement.verdict])).toEqual([
      ['call', 'correct'],
      ['readBack', 'negative'],
      ['readBack', 'correct'],
    ])
    expect(debrief.totals).toMatchObject({ radioMisses: 1, wordsShown: 0 })
  })

  it('counts what was acknowledged instead of read back, as a miss', () => {
    const turn = turnOf(debriefAfter(['request clearance', 'roger', 'wilco', WHOLE]), 'clearance.full')
    expect(turn).toMatchObject({ done: true, misses: 2, acknowledged: 2 })
  })

  it('counts what was said to a controller without call sign, and nothing where there is none, or that was not understood', () => {
    const callsign = { kind: 'callsign', telephony: ['Sandbar'] } as const
    const declared = { name: 'callsign', label: 'call sign', spec: callsign, alsoCalled: [], input: true }
    const declarations = { ...TALK.figures.declarations, callsign: declared } as typeof TALK.figures.declarations
    const pack = { ...TALK, figures: { ...TALK.figures, declarations } }
    const run = talkRun({ ...SAID, values: { ...SAID.values, callsign: 'SANDBAR 37' } }, pack)
    for (const text of [
      'request clearance',
      'did you see that bird',
      WRONG,
      'squawk four two seven one, sandbar three seven',
    ]) {
      run.hear(text)
    }
    const turns = debriefOf(pack, run.events).exchanges.flatMap((exchange) => exchange.turns)
    const clearance = turns.find(({ id }) => id === 'clearance.full')
    expect(clearance).toMatchObject({ done: true, unsigned: 2, misses: 1 })
    expect(turnOf(debriefAfter(['request clearance', WHOLE]), 'clearance.full')?.unsigned).toBe(0)
  })

  it('tells that the words were shown', () => {
    const debrief = debriefAfter(['request clearance', WHOLE], SAID, (run, text) => {
      if (text !== 'request clearance') return
      run.happen({ type: 'wordsShown', turn: 'clearance.full', evidence: { by: 'key', text: '' } })
    })
    expect(turnOf(debrief, 'clearance.full')).toMatchObject({ done: true, shown: true })
    expect(debrief.totals.wordsShown).toBe(1)
  })

  it.each([
    ['was noticed', 'negative, squawk four two seven one', true],
    ['was not noticed', 'squawk four two seven two', false],
  ])('tells that a controller’s slip %s', (_, answer, noticed) => {
    const slip = { turn: 'clearance.full', figure: 'code', seed: 3, kind: 'saysAnother' } as const
    const debrief = debriefAfter(['request clearance', WHOLE, answer], { ...SAID, slip })
    expect(turnOf(debrief, 'clearance.full')).toMatchObject({
      slip: { kind: 'saysAnother', noticed },
      // The objection is no read-back of which the rest is missing.
      ...(noticed && { misses: 0, tries: [{}, {}, { judgement: { verdict: 'correct' } }] }),
    })
  })

  it('tells that a wrong read-back went by that the controller called correct', () => {
    const slip = { turn: 'clearance.full', figure: 'code', seed: 3, kind: 'acceptsWrong' } as const
    const debrief = debriefAfter(['request clearance', WRONG], { ...SAID, slip })
    expect(turnOf(debrief, 'clearance.full')).toMatchObject({
      slip: { kind: 'acceptsWrong', noticed: false },
      misses: 1,
    })
  })

  it.each([
    ['saysAnother', WHOLE, 'squawk four two seven two'],
    ['acceptsWrong', WRONG],
  ] as const)('tells nothing of a slip (%s) before the run is over', (kind, ...answers) => {
    const slip = { turn: 'clearance.full', figure: 'code', seed: 3, kind } as const
    const run = talkRun({ ...SAID, slip })
    for (const text of ['request clearance', ...answers]) run.hear(text)
    const under = debriefOf(TALK, run.events, true)
    expect(turnOf(under, 'clearance.full')).toMatchObject({ done: true, misses: 0 })
    expect(turnOf(under, 'clearance.full')?.slip).toBeUndefined()
    expect([...under.foremost, ...under.deviations]).toEqual([])
    expect(under.timeline.filter(({ went }) => went === 'missed')).toEqual([])
    const over = debriefOf(TALK, run.happen({ type: 'ended' }).events, true)
    expect(turnOf(over, 'clearance.full')?.slip).toEqual({ kind, noticed: false })
  })

  it('tells that an order was kept to against the figure', () => {
    const debrief = debriefAfter(['request clearance', WHOLE, ...BRIEFED, ...TO_THE_ORDER, 'flap fifteen', 'affirm'])
    expect(turnOf(debrief, 'flap.order')).toMatchObject({ done: true, insisted: 'fifteen', misses: 1 })
  })

  it('is left out where the voices outside the crew were', () => {
    const run = talkRun()
    const [started, ...rest] = run.events
    if (started?.type !== 'runStarted') throw new Error('no run')
    const { script: _, ...alone } = started
    expect(debriefOf(TALK, [alone, ...rest])).toMatchObject({ exchanges: [], briefings: [] })
  })
})

describe('the debrief of a briefing', () => {
  it('has what was left out when it was first called complete, and what was said wrong', () => {
    const texts = ['runway two seven right', 'rejected takeoff', 'briefing complete', ...BRIEFED]
    const { briefings, totals } = debriefAfter(['request clearance', WHOLE, ...texts])
    expect(briefings).toEqual([
      {
        id: 'briefing',
        name: 'departure briefing',
        done: true,
        passed: false,
        topics: [
          // Said wrong, and not left out.
          {
            ...{ label: 'runway', state: 'ok', leftOut: false },
            wrong: [{ t: expect.any(Number), said: 'runway two seven right', right: ['runway: 27L'] }],
          },
          { label: 'first level', state: 'ok', wrong: [], leftOut: true },
          { label: 'rejected takeoff', state: 'ok', wrong: [], leftOut: false },
        ],
        refused: [{ t: expect.any(Number), said: 'briefing complete', open: ['runway', 'first level'] }],
      },
    ])
    expect(totals.topicsLeftOut).toBe(1)
  })
})
