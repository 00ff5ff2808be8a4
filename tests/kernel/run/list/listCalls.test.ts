/** What comes before a list that is called, and ways back into one: questions, briefings, what was left open, what the line waits for. */

import { beforeAll, describe, expect, it } from 'vitest'
import type { Pack } from '../../../../src/kernel/pack/checklist.ts'
import { packAt } from '../../figures/marram.ts'
import * as demoRun from '../demoRun.ts'
import { begun, call } from '../fixture.ts'
import { TALK, talkRun } from '../talkFixture.ts'

const WHOLE = 'cleared to corrie, tarn two alfa departure, climb five thousand, squawk four two seven one'

describe('a list that is called', () => {
  it('while something else is asked waits for the answer, which is asked for again', () => {
    const run = begun().happen(call('load')).command('pass', 'training').happen(call('start'))
    expect(run.state.question).toMatchObject({ about: 'pass', item: 'load.trim' })
    expect(run.said()).toBe('Pass takeoff trim, training. Confirm?')
    run.command('disregard').happen(call('start'))
    expect(run.said()).toBe('Load list not done. Do that first?')
    run.happen(call('load'))
    expect(run.state.question).toBeUndefined()
  })

  it('before its briefing was covered is questioned: on affirm the briefing comes first, on negative what is missing, then the list', () => {
    const run = talkRun().hear('request clearance').hear(WHOLE).hear('runway two seven left').hear('before push')
    expect(run.said()).toEqual(['otherseat: Departure briefing not done. Do that first?'])
    run.hear('affirm')
    expect(run.state.floor.at).toBe('briefing')
    run.hear('before push').hear('negative')
    expect(run.said()).toEqual(['otherseat: Nothing on first level and rejected takeoff yet.'])
    run.hear('before push').hear('negative')
    expect(run.state.floor).toMatchObject({ item: 'list.code' })
  })

  it('in typed words while a station has the floor is no call to that station', () => {
    const run = talkRun().hear('before push')
    expect(run.said()).toEqual(['otherseat: Departure briefing not done. Do that first?'])
  })

  it('is asked for at once where the voices outside the crew are left out', () => {
    const { script: _, ...none } = { script: undefined }
    const run = begun(none, TALK).happen(call('list'))
    expect(run.state.question).toBeUndefined()
  })
})

describe('stand by', () => {
  it('ends with "correction", which opens the item before: screen and voice agree', () => {
    const run = begun().happen(call('load')).answer('correct').command('standBy').hear('correction')
    expect(run.state).toMatchObject({ standingBy: false, floor: { item: 'load.trim' } })
    run.answer('correct').command('standBy').hear('correction five two up')
    expect(run.state).toMatchObject({ standingBy: false, floor: { item: 'load.flap' } })
  })

  it('asks nothing, since no answer would be taken', () => {
    const run = begun().happen(call('load')).command('standBy').command('whatIsLeft')
    expect(run.said()).toBe('Three items left, takeoff trim, flap, windows.')
    expect(run.state.standingBy).toBe(true)
  })
})

describe('"recheck"', () => {
  it('goes to an item that was left open, which is no reopened one', () => {
    const run = begun().happen(call('load')).command('leaveOpen').hear('recheck takeoff trim')
    expect(run.said()).toBe('Takeoff trim?')
    expect(run.state.items['load.trim']?.status).toBe('open')
  })
})

describe('"go back to" an exchange', () => {
  const later = (run = talkRun()) => run.hear('before push').hear('negative')

  it('that was left makes it, and one that was over is read back once more', () => {
    const run = later().hear('go back to the departure clearance')
    expect(run.state.floor.at).toBe('exchange')
    expect(run.hear('request clearance').said().join(' ')).toContain('leared to corrie')
    const over = later(talkRun().hear('request clearance').hear(WHOLE)).hear('recheck departure clearance')
    expect(over.said().join(' ')).toContain('Read back clearance limit, departure, level, squawk.')
    expect(over.state.turns['clearance.full']?.status).toBe('said')
  })

  it('that is still to come is not gone to', () => {
    const run = later()
    const { floor } = run.state
    run.hear('go back to the taxi clearance')
    expect(run.state.floor).toEqual(floor)
  })

  it('that the pack does not have asks which', () => {
    const run = later()
    const { floor } = run.state
    expect(run.hear('recheck oceanic clearance').said().join(' ')).toContain('Recheck what?')
    expect(run.state.floor).toEqual(floor)
  })
})

describe('an item without a figure yet', () => {
  let demo: Pack
  beforeAll(async () => {
    demo = await packAt('checklists/marram')
  })

  it('is left open, and at the line what the clearance waits for comes first', () => {
    const activities = demo.phases.flatMap((phase) => phase.activities)
    const ids = ['clearance', 'beforeStart', 'startUp']
    const some = activities.filter(({ id }) => ids.includes(id))
    const list = some.map((one) =>
      one.type === 'list'
        ? { ...one, entries: one.entries.filter(({ id }) => /transponder|push|doors/.test(id)) }
        : one.id === 'clearance' && one.type === 'exchange'
          ? { ...one, turns: one.turns.slice(0, 1).map(({ interlocks: _, ...turn }) => turn) }
          : one,
    )
    const said = { transponder: '2613', clearanceLimit: 'willow', firstLevel: 5000 }
    const from = { situation: { stand: 'push', icing: 'no' }, said, values: {} }
    let run = demoRun.begun(demo, list, from)
    run = demoRun.happen(run, call('beforeStart'))
    expect(demoRun.words(run)).toEqual(['otherseat: Before start list. No figure yet for transponder.'])
    run = demoRun.hear(run, 'leave it open')
    expect(demoRun.words(run)).toEqual(['otherseat: Before start list to the line. Departure clearance.'])
  })
})
