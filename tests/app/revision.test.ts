/** From figures that came in to a revision of the run, and what of them holds against a sheet that comes later. */

import { describe, expect, it } from 'vitest'
import {
  revisedBy,
  revisionsAfter,
  withoutGiven,
  withoutTaken,
  withStated,
  withTaken,
} from '../../src/app/run/revision.ts'
import { compute } from '../../src/kernel/figures/compute.ts'
import type { Inputs } from '../../src/kernel/figures/model.ts'
import type { Value } from '../../src/kernel/kinds/kind.ts'
import type { RunEvent } from '../../src/kernel/run/core/events.ts'
import { demoInputs, demoPack, rig } from './rig.ts'

const pack = await demoPack()
const preliminary = await demoInputs(pack, 'preliminary')
const final = await demoInputs(pack, 'final')
const { stated: _, ...unchecked } = preliminary
const before = { revision: 4, set: compute(pack.figures, unchecked) }
const withLoads = (loads: Inputs['loads']): Inputs => ({ ...unchecked, loads: { ...unchecked.loads, ...loads } })

describe('a revision', () => {
  it('has the next number, the name of its sheet and how it came about', () => {
    expect(revisedBy(pack, preliminary, undefined)).toMatchObject({
      ...{ type: 'figuresRevised', revision: 1, status: 'preliminary', label: 'preliminary load sheet' },
      inputs: preliminary,
    })
    expect(revisedBy(pack, final, before, { crossChecked: 'v1' })).toMatchObject({
      ...{ revision: 5, status: 'final', crossChecked: 'v1' },
    })
    expect(revisedBy(pack, final, before)).not.toHaveProperty('crossChecked')
  })

  it('is called by its status where its sheet has no name', () => {
    const { label: _, ...nameless } = final
    expect(revisedBy(pack, nameless, undefined).label).toBe('final')
  })

  it('has the values of all figures that have one, and none of the others', () => {
    const { blockFuel: _, ...values } = unchecked.values
    const revised = revisedBy(pack, { ...unchecked, values }, before)
    expect(revised.values).toMatchObject({ zeroFuelWeight: 24_360, transponder: '4271' })
    for (const figure of ['blockFuel', 'takeoffWeight']) expect(revised.values).not.toHaveProperty(figure)
    expect(revised.changes).toContainEqual(
      expect.objectContaining({ figure: 'blockFuel', from: 5_240, to: undefined, spoken: true }),
    )
  })

  it('changes nothing where the same comes in again, and everything where it is the first', () => {
    expect(revisedBy(pack, unchecked, before).changes).toEqual([])
    expect(revisedBy(pack, unchecked, undefined).changes).toContainEqual(
      expect.objectContaining({ figure: 'blockFuel', from: undefined, to: 5_240 }),
    )
  })

  it('warns of a limit that is broken, and of nothing else that is wrong with it', () => {
    const heavy = { ...withLoads({ frontCabin: 2_700 }), stated: { loadSheet: { zeroFuelWeight: 24_360 } } }
    const { problems } = compute(pack.figures, heavy)
    expect(problems.map(({ code }) => code)).toEqual(['limit.station', 'source.differs'])
    expect(revisedBy(pack, heavy, undefined).warnings).toEqual([
      'load front cabin 2,700 kg is over its limit of 2,600 kg',
    ])
  })

  it('warns of a change that is probably a slip, once there is something to change from', () => {
    const heavier = withLoads({ frontCabin: 2_564, rearCabin: 2_480 })
    expect(revisedBy(pack, heavier, before).warnings).toEqual([
      expect.stringMatching(/^zero fuel weight changes .* more than 1,500 kg: is it a slip\?$/),
    ])
    expect(revisedBy(pack, heavier, undefined).warnings).toEqual([])
  })
})

describe('the revisions of a run', () => {
  it('grow only by figures, each with what it opened again and what was open already', async () => {
    const flight = await rig()
    for (const text of ['load figures list', 'two four three six zero', 'four point three up']) await flight.hear(text)
    const first = flight.run.revisions()
    expect(first).toMatchObject([{ revision: 1, reopened: [], inputs: preliminary }])
    await flight.revise('final')
    expect(flight.run.revisions().at(-1)?.reopened).toEqual(['zero fuel weight', 'takeoff trim'])
    await flight.revise('amended')
    const all = flight.run.revisions()
    expect(all.at(-1)).toMatchObject({ revision: 3, reopened: [] })
    await flight.hear('say again')
    const [event, state] = [flight.log.events.at(-1) as RunEvent, flight.state()]
    expect(event.type).toBe('commanded')
    expect(flight.run.revisions()).toBe(all)
    expect(revisionsAfter(pack, all, { before: state, event, state })).toBe(all)
  })
})

describe('a value that was read aloud', () => {
  it('joins what its source and the others have stated', () => {
    const event = { type: 'stated', source: 'loadSheet', figure: 'v1', value: 126, evidence: { by: 'key', text: '' } }
    const stated = withStated(preliminary, event as Parameters<typeof withStated>[1])
    const { loadSheet } = preliminary.stated ?? {}
    expect(stated).toEqual({ ...preliminary, stated: { ...preliminary.stated, loadSheet: { ...loadSheet, v1: 126 } } })
    const other = withStated(stated, { ...event, source: 'flightComputer' } as Parameters<typeof withStated>[1])
    expect(other.stated).toEqual({ ...stated.stated, flightComputer: { v1: 126 } })
    expect(withStated(unchecked, event as Parameters<typeof withStated>[1]).stated).toEqual({ loadSheet: { v1: 126 } })
  })
})

describe('what a station gives', () => {
  it('takes the place of what was entered, and leaves the rest', () => {
    const taken = withTaken(pack, preliminary, { altimeter: 1_010, transponder: '2613' })
    expect(taken).toEqual({ ...preliminary, values: { ...preliminary.values, altimeter: 1_010, transponder: '2613' } })
  })

  it('is not in a sheet before the station has spoken, and no sheet changes it afterwards', () => {
    const { transponder: _, ...others } = preliminary.values
    expect(withoutGiven(pack, preliminary, undefined).values).toEqual(others)
    const inForce = { ...preliminary, values: { ...preliminary.values, transponder: '2613', blockFuel: 9_999 } }
    expect(withoutGiven(pack, preliminary, inForce).values).toEqual({ ...others, transponder: '2613' })
    expect(withoutGiven(pack, preliminary, inForce)).toMatchObject({ loads: preliminary.loads, status: 'preliminary' })
  })

  const sheet = (altimeter?: Value): Inputs => ({
    ...final,
    values: altimeter === undefined ? { blockFuel: 5_640 } : { blockFuel: 5_640, altimeter },
  })
  const run = (altimeter?: Value, over: Value | undefined = 1_009) => ({
    fromStations: { altimeter: { over } },
    inputs: { ...preliminary, values: altimeter === undefined ? {} : { altimeter } },
  })

  it.each([
    ['stays where a sheet has what the papers had before', sheet(1_009), run(1_010), 1_010],
    ['stays where a sheet says nothing of it', sheet(), run(1_010), 1_010],
    ['stays where the papers had nothing, and a sheet has nothing either', sheet(), run(1_010, undefined), 1_010],
    ['gives way to other news in a sheet', sheet(1_008), run(1_010), 1_008],
    ['is not made up where it is in force no more', sheet(1_009), run(), 1_009],
    ['is nothing before a run', sheet(1_009), undefined, 1_009],
    ['is nothing before figures', sheet(1_009), { fromStations: run().fromStations, inputs: undefined }, 1_009],
  ])('%s', (_, inputs, at, altimeter) => {
    expect(withoutTaken(pack, inputs, at)).toEqual({ ...inputs, values: { blockFuel: 5_640, altimeter } })
  })

  it('leaves a sheet as it is where nothing was taken down', () => {
    const inputs = sheet(1_009)
    expect(withoutTaken(pack, inputs, { fromStations: {}, inputs: preliminary })).toBe(inputs)
  })
})
