/** Whole departures with a partner who errs: an ideal listener catches all, a deaf one nothing, and the log has each first. */

import { describe, expect, it } from 'vitest'
import { debriefLines } from '../../../src/cli/debriefText.ts'
import { deaf, flyCrew, ideal, type Listener } from './crew.ts'

const DENSE = { partner: { seed: 3, rate: 0.3 } } as const

describe.each([
  ['marram', 'pilotAnswers'],
  ['marram', 'pilotChallenges'],
  ['pair', 'pilotChallenges'],
] as const)('the %s, %s', (name, roles) => {
  it('is flown to its end; what is caught is put right, and what is missed is told afterwards alone', async () => {
    const settings = { ...DENSE, roles, breaks: { seed: 3, rate: 0.2, cues: 'mixed' as const } }
    const caught = await flyCrew({ name, settings, listener: ideal })
    const { partner, complete } = caught.debrief
    expect([complete, partner?.sensitivity.hitRate, partner?.falseObjections]).toEqual([true, 1, []])
    expect(partner?.breaks.every(({ place }) => place === 'right')).toBe(true)

    const missed = await flyCrew({ name, settings, listener: deaf })
    const { counts, faults } = missed.debrief.partner ?? {}
    expect(missed.run.state().floor.at).toBe('end')
    expect([counts?.caught, counts?.falseObjections]).toEqual([0, 0])
    expect(faults?.length).toBeGreaterThan(2)
    const text = debriefLines(missed.debrief).join('\n')
    for (const one of faults ?? []) expect(text).toContain(`missed, ${one.grade}: ${one.told}`)

    // Each was stored as planned before it was said, and the same number deals the same.
    const plannedIn = ({ log }: typeof missed) =>
      log.events.flatMap((event) => (event.type === 'faultPlanned' ? [JSON.stringify(event.fault)] : []))
    expect(plannedIn(missed)).toHaveLength(faults?.length ?? 0)
    for (const fault of plannedIn(missed)) expect(plannedIn(caught)).toContain(fault)
  })
})

describe('somebody who objects to everything', () => {
  it('catches all, and is told each time that it was right', async () => {
    const all: Listener = (chance, state, pack) =>
      ideal(chance, state, pack) ?? (chance.objection ? undefined : 'check that')
    const { debrief } = await flyCrew({
      name: 'marram',
      settings: { ...DENSE, roles: 'pilotChallenges' },
      listener: all,
    })
    const { sensitivity, falseObjections } = debrief.partner ?? {}
    expect([debrief.complete, sensitivity?.hitRate]).toEqual([true, 1])
    expect(falseObjections?.length).toBeGreaterThan(10)
    expect(sensitivity?.bias).toBeLessThan(0)
  })
})
