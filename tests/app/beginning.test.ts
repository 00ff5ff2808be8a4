/** How a run begins: where it is, and what the stations will say in it. */

import { describe, expect, it } from 'vitest'
import { type Beginning, dealtBy, startOf } from '../../src/app/run/beginning.ts'
import { compute } from '../../src/kernel/figures/compute.ts'
import type { Inputs } from '../../src/kernel/figures/model.ts'
import type { Pack } from '../../src/kernel/pack/checklist.ts'
import { readBackOf } from '../../src/kernel/pack/rests.ts'
import { demoInputs, demoPack } from './rig.ts'

const pack = await demoPack()
const inputs = await demoInputs(pack, 'preliminary')

function begun(more: Partial<Beginning> = {}, own: Pack = pack) {
  const settings = { phraseology: 'plain', coachAfter: 0 } as const
  const start = startOf(own, { inputs, settings, ...more }, 0)
  if (start.type !== 'runStarted') throw new Error(`it begins with ${start.type}`)
  return start
}
const scriptOf = (more: Partial<Beginning> = {}, own?: Pack) => begun({ stations: { seed: 7 }, ...more }, own).script

/** The demo pack with these activities only. */
function only(...types: readonly string[]): Pack {
  const phases = pack.phases.map((phase) => ({
    ...phase,
    activities: phase.activities.filter(({ type }) => types.includes(type)),
  }))
  return { ...pack, phases }
}

const dealt = (number: number) => {
  const departure = dealtBy(pack, number)
  if (!departure) throw new Error('the demo pack deals nothing')
  return departure
}

describe('the situation of a run', () => {
  it('is the pack’s own where the sheet says nothing of it, and the sheet’s where it does', () => {
    const { situation: _, ...silent } = inputs
    expect(begun({ inputs: silent }).situation).toEqual({ stand: 'push', icing: 'no' })
    expect(begun({ inputs: { ...inputs, situation: { stand: 'own' } } }).situation).toEqual({
      ...{ stand: 'own', icing: 'no' },
    })
  })
})

describe('what stations will say', () => {
  it('is written only where they have voices, and the pack has talk for them', () => {
    expect(begun().script).toBeUndefined()
    expect(scriptOf({}, only('exchange', 'flow'))).toBeDefined()
    expect(scriptOf({}, only('briefing', 'flow'))).toBeDefined()
    expect(scriptOf({}, only('flow', 'list', 'watch'))).toBeUndefined()
  })

  it('has a slip of the controller in it only where that is asked for', () => {
    expect(scriptOf({ stations: { seed: 7 } })).not.toHaveProperty('slip')
    expect(scriptOf({ stations: { seed: 7, slips: true } })).toHaveProperty('slip')
  })

  it('follows from the seed, or from the number of a departure that was dealt', () => {
    expect(scriptOf({ stations: { seed: 1 } })).toEqual(scriptOf({ stations: { seed: 1 } }))
    expect(scriptOf({ stations: { seed: 1 } })).not.toEqual(scriptOf({ stations: { seed: 2 } }))
    const of = (seed: number) => scriptOf({ inputs: dealt(42).preliminary, dealt: 42, stations: { seed } })
    expect(of(1)).toEqual(of(2))
  })

  it('leaves what is read back of final figures that come later as it is', () => {
    // A departure in which a station gives another altimeter setting than the sheet: not each one does.
    const number = Array.from({ length: 50 }, (_, at) => at).find((at) => {
      const { values = {} } = scriptOf({ inputs: dealt(at + 1).preliminary, dealt: at }) ?? {}
      return 'altimeter' in values
    })
    if (number === undefined) throw new Error('no station gives an altimeter setting')
    const [{ final }, { preliminary }] = [dealt(number), dealt(number + 1)]
    const said = scriptOf({ inputs: preliminary, dealt: number })?.values ?? {}
    const others = readBackOf(pack).filter((name) => !(name in said))
    const readBack = (values: Inputs['values']) => {
      const { stated: _, ...bare } = final
      const { figures } = compute(pack.figures, { ...bare, values: { ...final.values, ...values } })
      return others.map((name) => [name, figures[name]?.value])
    }
    expect(readBack(said)).toEqual(readBack({}))
  })

  it('is written also where a pack without rules for dealing is flown under a number', () => {
    const { basis, ...figures } = pack.figures
    const { deal: _, ...rest } = basis ?? {}
    const own = { ...pack, figures: { ...figures, basis: rest } } as Pack
    expect(dealtBy(own, 42)).toBeUndefined()
    expect(scriptOf({ dealt: 42 }, own)).toBeDefined()
  })
})
