/** What the broadcast of the demo has later than the papers of dealt departures. */

import { beforeAll, expect, test } from 'vitest'
import { compute } from '../../../../src/kernel/figures/compute.ts'
import { type Departure, deal } from '../../../../src/kernel/figures/deal.ts'
import type { Inputs } from '../../../../src/kernel/figures/model.ts'
import type { Value } from '../../../../src/kernel/kinds/kind.ts'
import type { Pack } from '../../../../src/kernel/pack/checklist.ts'
import { readBackOf } from '../../../../src/kernel/pack/rests.ts'
import { scriptFor } from '../../../../src/kernel/run/talk/script.ts'
import { packAt } from '../../figures/marram.ts'

const LATER = ['altimeter', 'altimeterInches', 'windDirection', 'windSpeed']

let pack: Pack
let departures: { dealt: Departure; said: Readonly<Record<string, Value>> }[]
beforeAll(async () => {
  pack = await packAt('checklists/marram')
  departures = Array.from({ length: 60 }, (_, seed) => {
    const dealt = deal(pack.figures, readBackOf(pack), seed) as Departure
    return { dealt, said: scriptFor(pack, dealt.preliminary, seed, { others: [dealt.final] }).values }
  })
})

/** Our own figures alone: what sheets state beside them is another matter. */
const computed = ({ stated: _, ...inputs }: Inputs, over: Readonly<Record<string, Value>> = {}) =>
  compute(pack.figures, { ...inputs, values: { ...inputs.values, ...over } })

test('is another wind and altimeter setting than the papers, near them', () => {
  for (const { dealt, said } of departures) {
    const papers = dealt.preliminary.values
    const away = (name: string) => Math.abs(Number(said[name]) - Number(papers[name]))
    // Where every near setting would move a speed or the fan speed, the setting of the papers is said.
    if (said.altimeter !== undefined) {
      expect(away('altimeter')).toBeGreaterThan(0)
      expect(away('altimeter')).toBeLessThanOrEqual(3)
    }
    expect(away('windSpeed')).toBeGreaterThan(0)
    expect(away('windSpeed')).toBeLessThanOrEqual(4)
    expect(Math.min(away('windDirection'), 360 - away('windDirection'))).toBeGreaterThan(0)
    expect(Math.min(away('windDirection'), 360 - away('windDirection'))).toBeLessThanOrEqual(30)
    expect(Number(said.windDirection)).toBeGreaterThanOrEqual(1)
    expect(Number(said.windDirection)).toBeLessThanOrEqual(360)
  }
  expect(departures.filter(({ said }) => said.altimeter !== undefined).length).toBeGreaterThan(50)
})

test('breaks no limit and moves nothing else that an item says, before the final figures and after', () => {
  const others = readBackOf(pack).filter((name) => !LATER.includes(name))
  for (const { dealt, said } of departures) {
    const over = Object.fromEntries(LATER.flatMap((name) => (said[name] === undefined ? [] : [[name, said[name]]])))
    for (const inputs of [dealt.preliminary, dealt.final]) {
      const [before, after] = [computed(inputs), computed(inputs, over as Record<string, Value>)]
      expect(after.problems, `seed ${dealt.seed}`).toEqual([])
      for (const name of others) {
        expect(after.figures[name]?.value, `seed ${dealt.seed}: ${name}`).toEqual(before.figures[name]?.value)
      }
    }
  }
})

test('is the same in inches as in hectopascals', () => {
  for (const { dealt, said } of departures.filter(({ said }) => said.altimeter !== undefined)) {
    const { altimeter = 0 } = said
    expect(said.altimeterInches, `seed ${dealt.seed}`).toBeCloseTo(Number(altimeter) / 33.8639, 2)
  }
})

test('is what the revision says, where it says it', () => {
  const { dealt } = departures[3] as (typeof departures)[number]
  const said = { altimeter: 1020, windSpeed: 9 }
  const { values } = scriptFor(pack, { ...dealt.preliminary, said }, 3)
  expect(values).toMatchObject(said)
  expect(values.windDirection).not.toBe(dealt.preliminary.values.windDirection)
})
