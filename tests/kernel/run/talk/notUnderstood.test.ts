/** Words that nothing is made of are kept for the screen; a call to another station spoils no broadcast. */

import { beforeAll, describe, expect, it } from 'vitest'
import type { Pack } from '../../../../src/kernel/pack/checklist.ts'
import { packAt } from '../../figures/marram.ts'
import * as demoRun from '../demoRun.ts'
import { begun, call } from '../fixture.ts'
import { talkRun } from '../talkFixture.ts'

const WHOLE = 'cleared to corrie, tarn two alfa departure, climb five thousand, squawk four two seven one'

describe('words that nothing is made of', () => {
  it('typed in a flow, or while it stands by, are kept until something else is said', () => {
    const run = begun().hear('banana', { by: 'typed' })
    expect(run.state.notUnderstood).toBe('banana')
    run.happen(call('load'))
    expect(run.state.notUnderstood).toBeUndefined()
    run.command('standBy').hear('one moment please', { by: 'typed' }).hear('hello', { by: 'typed' })
    expect(run.state).toMatchObject({ notUnderstood: 'hello', standingBy: true })
  })

  it('typed where something is asked are shown, and the question is put again', () => {
    const run = begun().happen(call('start'))
    expect(run.state.question).toBeDefined()
    run.hear('banana', { by: 'typed' })
    expect(run.state.notUnderstood).toBe('banana')
    expect(run.state.question).toBeDefined()
    run.hear('negative', { by: 'typed' })
    expect(run.state.notUnderstood).toBeUndefined()
  })

  it('that the ear takes for other speech are not, but in a briefing they were meant', () => {
    expect(begun().hear('banana', { by: 'voice', doubt: 'otherSpeech' }).state.notUnderstood).toBeUndefined()
    const run = talkRun().hear('request clearance').hear(WHOLE).hear('the weather is fine', { by: 'voice' })
    expect(run.state.notUnderstood).toBe('the weather is fine')
    run.hear('rejected takeoff', { by: 'voice' })
    expect(run.state.notUnderstood).toBeUndefined()
  })
})

describe('the demo', () => {
  let demo: Pack
  beforeAll(async () => {
    demo = await packAt('checklists/marram')
  })
  const activity = (id: string) => {
    const found = demo.phases.flatMap(({ activities }) => activities).find((one) => one.id === id)
    return found ?? expect.unreachable(id)
  }
  const said = { information: 'K', windDirection: 220, windSpeed: 14, altimeter: 1009, runway: '24', firstLevel: 5000 }
  const values = { callsign: 'SALTMARSH 421', standNumber: '14', firstLevel: 5000, runway: '24' }
  const from = { situation: { stand: 'push', icing: 'no' }, said, values }

  it.each(['heron hill delivery saltmarsh four two one request clearance', 'request clearance', 'heron hill delivery'])(
    'takes "%s" for no read-back of the broadcast, which comes first',
    (text) => {
      let run = demoRun.begun(demo, [activity('information'), activity('clearance')], from)
      run = demoRun.hear(demoRun.hear(run, 'get the information'), 'information kilo')
      const before = run.state.turns
      run = demoRun.hear(run, text)
      expect(demoRun.words(run)).toEqual(['otherseat: Not yet, departure information.'])
      expect(run.state.turns).toEqual(before)
    },
  )

  it.each([
    ["confirm the tow bar's on and steering pin's in", 'incomplete'],
    ['pin in and tow bar connected?', 'sayAgain'],
    ['external power on', 'negative'],
    ['beacon off', 'negative'],
  ])('takes "%s" for no state of a thing that it does not name', (text, verdict) => {
    const crew = activity('crew')
    if (crew.type !== 'exchange') throw new Error('the ground crew is an exchange')
    const turns = crew.turns.map(({ interlocks: _, ...turn }) => turn)
    let run = demoRun.begun(demo, [{ ...crew, turns }], from)
    for (const call of ['parking brake set', 'external power off', 'disconnect the cable'])
      run = demoRun.hear(run, call)
    run = demoRun.hear(run, text)
    expect(run.state.last?.judgement.verdict).toBe(verdict)
    expect(run.state.turns['crew.power']?.status).toBe(text.includes('power') ? 'ahead' : 'done')
  })

  it.each([
    ['initially five thousand', 'level', 'ok'],
    ['initially six thousand', 'level', 'wrong'],
    ['climbing to five thousand', 'level', 'ok'],
    ['below V one I call stop', 'reject', 'ok'],
    ['I will not call stop', 'reject', undefined],
    ['after V one we continue', 'failure', 'ok'],
  ])('credits "%s" as pilots brief it', (text, topic, state) => {
    const run = demoRun.hear(demoRun.begun(demo, [activity('departureBriefing')], from), text)
    expect(run.state.topics[`departureBriefing.${topic}`]).toBe(state)
    expect(run.state.notUnderstood).toBe(state ? undefined : text)
  })
})
