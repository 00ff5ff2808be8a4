/** Where a wrong number may have come from: named by what a pilot has read or heard. */

import { describe, expect, it } from 'vitest'
import { readPackDir } from '../../../src/cli/packDir.ts'
import { compute } from '../../../src/kernel/figures/compute.ts'
import { causesOf } from '../../../src/kernel/interpret/causes.ts'
import { readableFigures } from '../../../src/kernel/pack/readable.ts'
import { emptyRun } from '../../../src/kernel/run/core/emptyRun.ts'
import type { RunState } from '../../../src/kernel/run/core/state.ts'
import { revision } from '../figures/marram.ts'

const { pack } = await readPackDir('checklists/marram')
if (!pack) throw new Error('the demo does not read')

const valuesOf = (status: 'preliminary' | 'final') => {
  const { figures } = compute(pack.figures, revision(pack, status))
  return Object.fromEntries(Object.entries(figures).map(([name, { value }]) => [name, value])) as RunState['values']
}
const label = 'preliminary load sheet'
function inForce(values: RunState['values'], before: readonly RunState['values'][]): RunState {
  const history = [...before, values].map((one, at) => ({ revision: at + 1, label, values: one }))
  return { ...emptyRun('run'), values, history }
}
const details = (state: RunState, figure: string, read: number | string) =>
  causesOf(pack, state, figure, read).map(({ cause, detail }) => `${cause}: ${detail}`)

describe('a value of earlier figures', () => {
  const values = valuesOf('final')
  const old = { ...values, altimeter: 998, takeoffTrim: 2.2, runway: '08' }

  it('is named by the revision and the one paper that prints it, never by a sheet that has no such line', () => {
    expect(details(inForce(values, [old]), 'altimeter', 998)).toEqual([
      'earlierRevision: earlier figures, revision 1 (takeoff data)',
    ])
  })

  it('is named by the revision alone where several papers print it, or none', () => {
    expect(details(inForce(values, [old]), 'runway', '08')).toContain('earlierRevision: earlier figures, revision 1')
    expect(details(inForce(values, [old]), 'takeoffTrim', 2.2)).toContain(
      'earlierRevision: earlier figures, revision 1',
    )
  })

  it('is one cause however many revisions it stood in: the one that brought it', () => {
    const found = details(inForce(values, [valuesOf('preliminary'), old, old]), 'altimeter', 998)
    expect(found).toEqual(['earlierRevision: earlier figures, revision 2 (takeoff data)'])
  })
})

describe('another figure that was read instead', () => {
  const values = { ...valuesOf('final'), takeoffMargin: 1.7, v1Table: 117.3 }

  it('is one that somebody reads or says', () => {
    expect(details(inForce(values, []), 'v1', Number(valuesOf('final').vr))).toContain('otherFigure: rotate speed')
  })

  it('is never a working that stands on no paper and in no answer', () => {
    expect(details(inForce(values, []), 'takeoffTrim', 1.7).join()).not.toContain('margin')
    const readable = readableFigures(pack)
    for (const working of ['takeoffMargin', 'zeroFuelMargin', 'landingMargin', 'v1Table', 'v1Sum', 'takeoffArm'])
      expect(readable.has(working), working).toBe(false)
    for (const read of [
      'takeoffTrim',
      'takeoffCg',
      'v1',
      'altimeter',
      'transponder',
      'holdingPoint',
      'performanceWeight',
    ])
      expect(readable.has(read), read).toBe(true)
  })
})
