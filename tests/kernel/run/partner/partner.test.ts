/** A partner who errs, fault by fault, on the small pack: what is said, what the pilot's objection brings, what is left. */

import { describe, expect, it } from 'vitest'
import type { RunSettings } from '../../../../src/kernel/run/core/events.ts'
import { debriefOf } from '../../../../src/kernel/run/debrief/debrief.ts'
import type { Fault } from '../../../../src/kernel/run/partner/model.ts'
import { WHOLE } from '../../interpret/places.ts'
import { begun, call, FINAL, PACK, PRELIMINARY, revision, type TestRun } from '../fixture.ts'
import { SAID, talkRun } from '../talkFixture.ts'

const ERRS: Partial<RunSettings> = { partner: { seed: 1, rate: 0 } }
const FLAP_SAID = { parts: [{ name: 'flap', kind: 'figure', state: 'ok' } as const] }
const planned = (run: TestRun, fault: Fault) => run.happen({ type: 'faultPlanned', fault })
const atFlap = (settings = ERRS) => begun(settings).happen(call('load')).answer('correct')
const chances = ({ state }: TestRun) => state.partner?.chances ?? []

const WRONG: Fault = { kind: 'wrongValue', grade: 'hard', about: 'load.flap', figure: 'flap', said: 24, right: 14 }

describe('its own seat', () => {
  it('that says another value is told the right one, puts itself right, and the run goes on', () => {
    const run = planned(atFlap(), WRONG).answer('correct', FLAP_SAID)
    expect(run.said()).toMatch(/^Two four, simulated\. Windows\?$|^Twenty four, simulated\. Windows\?$/)
    expect(run.hear('negative, one four').said()).toMatch(/^Correction\. (One four|Fourteen), simulated\. Windows\?$/)
    expect(chances(run)[0]).toMatchObject({ kind: 'move' })
    expect(chances(run).find(({ fault }) => fault)).toMatchObject({ objection: { text: 'negative, one four' } })
    expect(run.answer('correct').state.lists.load?.complete).toBe(true)
  })

  it('that leaves the value out is caught by "check that"', () => {
    const run = planned(atFlap(), { kind: 'valueless', grade: 'obvious', about: 'load.flap' }).answer(
      'correct',
      FLAP_SAID,
    )
    expect(run.said()).toBe('Checked, simulated. Windows?')
    expect(run.hear('check that').said()).toMatch(/^Correction\. .+, simulated\. Windows\?$/)
  })

  it('that was right is plainly right, and the false objection is counted', () => {
    const run = atFlap().answer('correct', FLAP_SAID).hear('negative, two four')
    expect(run.said()).toMatch(/ is correct\. Windows\?$/)
    expect(chances(run).filter(({ objection }) => objection)).toMatchObject([{ kind: 'answer', about: 'load.flap' }])
  })

  it('that was right is not told with a value that nobody has said since', () => {
    const run = atFlap().answer('correct', FLAP_SAID)
    run.happen(revision(2, 'final', { ...PRELIMINARY, flap: 20 }, PRELIMINARY))
    expect(run.hear('negative, two four').said()).not.toMatch(/twenty|two zero/i)
  })

  it('that is missed is not mentioned again', () => {
    const run = planned(atFlap(), WRONG).answer('correct', FLAP_SAID).answer('correct')
    expect(run.said()).toMatch(/^Load list complete on preliminary figures\./)
    expect(chances(run).filter(({ fault }) => fault)).toMatchObject([{ fault: WRONG }])
    expect(chances(run).some(({ objection }) => objection)).toBe(false)
    // Afterwards it stands on the timeline; not while it could still be noticed.
    const toldIn = () => debriefOf(PACK, run.events).timeline.map(({ told }) => told)
    const told = 'Flap: Otherseat erred, and nobody objected.'
    expect(toldIn()).not.toContain(told)
    run.happen({ type: 'ended' })
    expect(toldIn()).toContain(told)
  })
})

describe('an item that is gone by', () => {
  const SKIP: Fault = { kind: 'skipped', grade: 'middling', about: 'load.flap', items: ['load.flap'] }
  const skipped = () => planned(begun(ERRS).happen(call('load')), SKIP).answer('correct')

  it('is come back to when the pilot names it', () => {
    const run = skipped()
    expect(run.said()).toBe('Windows?')
    expect(run.hear('you skipped flap').said()).toBe('Correction. Flap?')
    run.answer('correct', FLAP_SAID).answer('correct')
    expect(run.state.lists.load?.complete).toBe(true)
  })

  it('is come back to by "go back one", and that is a catch', () => {
    const run = skipped().command('goBack')
    expect(run.state.floor).toMatchObject({ item: 'load.flap' })
    expect(chances(run).find(({ fault }) => fault)?.objection).toBeDefined()
  })

  it('stays open where nobody notices, and its list is never complete though it is called so', () => {
    const run = skipped().answer('correct')
    expect(run.said()).toMatch(/^Load list complete on preliminary figures\./)
    expect(run.state.lists.load).toMatchObject({ complete: false })
    expect(run.state.items['load.flap']?.status ?? 'open').toBe('open')
    // Later it is not asked for either.
    run.happen(call('start')).command('affirm').command('affirm')
    expect(run.state.floor).toMatchObject({ item: 'start.code' })
  })

  it('is nothing of another item', () => {
    expect(skipped().hear('you skipped windows').said()).toBe('Correction. Flap?')
    const sound = atFlap().hear('you skipped takeoff trim')
    expect(sound.said()).toBe('Nothing skipped. Flap?')
  })
})

describe('a list that is called complete too early', () => {
  const EARLY: Fault = { kind: 'completeEarly', grade: 'hard', about: 'load', items: ['load.windows'] }

  it('is gone back to when the pilot says so', () => {
    const run = planned(atFlap(), EARLY).answer('correct', FLAP_SAID)
    expect(run.said()).toMatch(/Load list complete on preliminary figures\./)
    expect(run.hear('not complete').said()).toBe('Correction. Load list incomplete. Windows?')
    expect(run.answer('correct').state.lists.load?.complete).toBe(true)
  })

  it('and was put right, is not called complete when the pilot says so again', () => {
    const run = planned(atFlap(), EARLY).answer('correct', FLAP_SAID).hear('not complete')
    expect(run.hear('not complete').said()).toBe('Load list incomplete. Windows?')
  })

  it('is judged by what is open now: no false objection once figures have reopened it', () => {
    const run = atFlap().answer('correct', FLAP_SAID).answer('correct')
    run.happen(revision(2, 'final', FINAL, PRELIMINARY))
    expect(run.hear('not complete').said()).toMatch(/^Load list incomplete\./)
    expect(chances(run).some(({ objection }) => objection)).toBe(false)
  })

  it('that was right is said so again', () => {
    const run = atFlap().answer('correct', FLAP_SAID).answer('correct').hear('not complete')
    expect(run.said()).toMatch(/^Load list complete on preliminary figures\./)
  })
})

describe('a controller', () => {
  it('who comes back with another value is caught by a doubt alone', () => {
    const run = talkRun(SAID)
    run.state = { ...run.state, settings: { ...run.state.settings, ...ERRS } }
    run.hear('request clearance')
    const fault = { kind: 'readBack', grade: 'middling', about: 'clearance.full', figure: 'code', seed: 3 } as const
    run.happen({ type: 'faultPlanned', fault }).hear(WHOLE)
    expect(run.state.turns['clearance.full']).toMatchObject({ status: 'slipped' })
    run.hear('check that')
    expect(run.state.turns['clearance.full']).toMatchObject({ status: 'done', slip: 'noticed' })
    expect(run.state.partner?.chances).toMatchObject([{ kind: 'station', fault, objection: { text: 'check that' } }])
  })
})

describe('where the pilot challenges', () => {
  const swapped = () => begun({ ...ERRS, roles: 'pilotChallenges' }).happen(call('load'))

  it('Otherseat says nothing first, answers when challenged, and the next challenge accepts', () => {
    const run = swapped()
    expect(run.said()).toBe('Load list.')
    expect(run.hear('takeoff trim').said()).toBe('Five point two up set, simulated.')
    expect(run.state.items['load.trim']?.status).toBe('open')
    expect(run.hear('flap').said()).toMatch(/, simulated\.$/)
    expect(run.state.items['load.trim']).toMatchObject({ status: 'done', seat: 'otherseat' })
    expect(run.hear('checked').state.floor).toMatchObject({ item: 'load.windows' })
  })

  it('a wrong answer is objected to before anything else is taken for an answer', () => {
    const fault: Fault = { ...WRONG, about: 'load.trim', figure: 'trim', said: 5.6, right: 5.2 }
    const run = planned(swapped(), fault).hear('takeoff trim')
    expect(run.said()).toBe('Five point six up set, simulated.')
    expect(run.hear('negative, five point two up').said()).toBe('Correction. Five point two up set, simulated.')
    expect(run.hear('negative, five point six up').said()).toBe('Five point two up is correct.')
  })

  it('the next list is called behind the last answer, which is accepted by that; not where more is open', () => {
    const all = swapped().hear('takeoff trim').hear('flap').hear('windows')
    all.hear('start list')
    expect(all.state.items['load.windows']).toMatchObject({ status: 'done', seat: 'otherseat' })
    expect(all.state.lists.load?.complete).toBe(true)
    expect(all.said()).toMatch(/^Final figures/)
    const two = swapped().hear('takeoff trim').hear('flap').hear('start list')
    expect(two.said()).toBe('Load list not done. Do that first?')
  })

  it('new figures take the answer back: it is challenged again', () => {
    const run = swapped().hear('takeoff trim')
    run.happen(revision(2, 'final', FINAL, PRELIMINARY))
    expect(run.hear('checked').state.items['load.trim']?.status).not.toBe('done')
  })

  it('going back leaves open what was answered and not accepted', () => {
    const run = swapped().hear('takeoff trim').hear('flap').command('goBack')
    expect(run.state.floor).toMatchObject({ item: 'load.trim' })
    run.hear('takeoff trim').hear('checked')
    expect(run.state.items['load.flap']?.status).not.toBe('done')
    expect(run.state.floor).toMatchObject({ item: 'load.flap' })
  })

  it.each(['checked', 'check that', 'five point two up', 'five point six up', 'you skipped flap'])(
    'nothing is judged before a challenge: %s',
    (words) => {
      const run = swapped().hear(words, { by: 'typed' })
      expect(run.said()).toBe(words.startsWith('you') ? 'Nothing skipped.' : 'Your challenge.')
      expect(run.state.items['load.trim'] ?? {}).not.toMatchObject({ misses: 1 })
      expect(run.events.some(({ type }) => type === 'answered')).toBe(false)
    },
  )

  it('"correction" is said of its last answer', () => {
    const fault: Fault = { ...WRONG, about: 'load.trim', figure: 'trim', said: 5.6, right: 5.2 }
    const run = planned(swapped(), fault).hear('takeoff trim').hear('correction, five point two up')
    expect(run.said()).toBe('Correction. Five point two up set, simulated.')
    expect(run.state.items['load.trim']?.misses ?? 0).toBe(0)
    expect(chances(run)[0]?.objection?.text).toBe('correction, five point two up')
  })

  it('"check that" is said of its last answer, and a state is not confirmed', () => {
    const run = swapped().hear('windows')
    expect(run.said()).toBe('Closed, simulated.')
    expect(run.hear('check that').said()).toBe('Closed, as I said, simulated.')
    run.hear('checked')
    expect(run.hear('check that').said()).toBe('Closed, as I said, simulated.')
    expect(chances(run).some(({ objection }) => objection)).toBe(false)
  })

  it.each([
    ['you skipped flap', 'Nothing skipped.'],
    ['not complete', 'Load list incomplete.'],
    ['that was not for us', 'Nobody called us.'],
  ])('"%s" is an objection where there was nothing to object to', (words, said) => {
    const run = swapped().hear('takeoff trim').hear(words)
    expect(run.said()).toBe(said)
    expect(run.state.items['load.trim']?.sayAgains ?? 0).toBe(0)
  })
})
