import { describe, expect, it } from 'vitest'
import { TALK, TO_ALTIMETERS, TO_AWAY, TO_CLEARANCE, TO_CREW } from '../../../app/demoAnswers.ts'
import { rig } from '../../../app/rig.ts'

/** Flown so far; what is said then, and what Otherseat says to it. */
async function at(answers: readonly string[]) {
  const flight = await rig({ talk: TALK })
  for (const text of answers) await flight.hear(text, { by: 'typed' })
  return async (text: string) => {
    await flight.hear(text, { by: 'typed' })
    return flight.said()
  }
}
const TRIM = TO_CLEARANCE.slice(0, 2)
const ALL = [...TO_CLEARANCE, ...TO_ALTIMETERS, ...TO_CREW, ...TO_AWAY]
const upTo = (text: string) => ALL.slice(0, ALL.indexOf(text) + 1)

describe('what can I say', () => {
  it.each<readonly [string, readonly string[], string]>([
    ['an item', TRIM, 'You can say, the answer, say again, leave it open.'],
    ['a flow', [], 'You can say, done, read the flow, what is left.'],
    ['a read-back', upTo('request clearance'), 'You can say, read it back, say again, stand by.'],
    ['a briefing', upTo('done'), 'You can say, any topic, briefing complete, what is left.'],
    ['a start', upTo('rotation seen'), 'You can say, fuel on, stop, say again.'],
    ['stand by', [...TRIM, 'stand by'], 'You can say, continue, where are we, stop.'],
    ['a question', [...TRIM, 'pass', 'training'], 'You can say, affirm, negative, say again.'],
  ])('names three things at %s', async (_, answers, said) => {
    const say = await at(answers)
    expect(await say('what can I say')).toBe(said)
    expect(await say('help')).toBe(said)
  })
})

describe('where are we', () => {
  it('names the list and puts the item', async () => {
    const say = await at(TRIM)
    expect(await say('where are we')).toBe('Load figures list. Takeoff trim?')
    expect(await say("what's next")).toBe('Load figures list. Takeoff trim?')
  })

  it('asks nothing while it stands by, and an item left open goes on from there', async () => {
    const say = await at([...TRIM, 'stand by'])
    expect(await say('where are we')).toBe('Load figures list. Standing by.')
    expect(await say('skip')).toBe('Standing by.')
    expect(await say('leave it open')).toBe('Resuming load figures list. V one?')
    expect(await say('one two eight')).toBe('Rotate speed?')
  })

  it('names a flow once', async () => {
    const say = await at([])
    expect(await say('where are we')).toBe('Figures flow.')
  })

  it('puts the next call of a start', async () => {
    const say = await at(upTo('rotation seen'))
    expect(await say('where are we')).toBe('Fuel on?')
  })

  it('counts nothing against the item', async () => {
    const flight = await rig({ talk: TALK })
    for (const text of [...TRIM, 'where are we', 'skip', 'next', 'help']) await flight.hear(text, { by: 'typed' })
    expect(flight.state().items['loadFigures.trim']).toMatchObject({ status: 'open', misses: 0, sayAgains: 0 })
  })
})

describe('the crew’s other words', () => {
  it('skip and next are asked about, and skip nothing', async () => {
    const say = await at(TRIM)
    expect(await say('skip')).toBe('Leave it open or pass?')
    expect(await say('next item')).toBe('Leave it open or pass?')
    expect(await say('leave it open')).toBe('V one?')
  })

  it.each([
    ['hold the checklist', 'continue the checklist'],
    ['checklist hold', 'continue checklist'],
  ])('"%s" stands by until "%s"', async (hold, go) => {
    const say = await at(TRIM)
    expect(await say(hold)).toBe('Standing by.')
    expect(await say(go)).toMatch(/Takeoff trim\?$/)
  })
})
