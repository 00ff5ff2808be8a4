/** Sums as they are shown: whoever adds up what stands there comes to what stands there. */

import { expect, test } from 'vitest'
import { compute } from '../../../src/kernel/figures/compute.ts'
import { deal } from '../../../src/kernel/figures/deal.ts'
import { formatMeasured } from '../../../src/kernel/figures/format.ts'
import type { ComputedFigure, FigureSet } from '../../../src/kernel/figures/model.ts'
import { readBackOf } from '../../../src/kernel/pack/rests.ts'
import { packAt } from './marram.ts'
import { figuresOf, modelOf } from './modelOf.ts'

/** "aft hold 930 x 18.9 / 100": the number at the end of a part, its factors multiplied; a unit may follow. */
function amountOf(part: string): number {
  const found =
    /(-?[\d,]+(?:\.\d+)?)(?: x (-?[\d,]+(?:\.\d+)?))?(?: \/ ([\d,]+))?(?: [a-z][a-z .]*(?:\/\d+)?|°C)?$/i.exec(part)
  if (!found) throw new Error(`no amount in "${part}"`)
  const [load = 0, arm = 1, divisor = 1] = found.slice(1).map((text) => text && Number(text.replaceAll(',', '')))
  return (Number(load) * Number(arm)) / Number(divisor)
}

interface Sum {
  readonly parts: readonly string[]
  readonly sum: number
  readonly total: string
  readonly isMarked: boolean
}

/** A working that is a sum, read as a pilot with a pocket calculator would. */
function sumIn(text: string): Sum | undefined {
  const [left = '', right] = text.split(' = ')
  if (right === undefined) return undefined
  const total = right.replace(/ \(.*\)$/, '')
  const isLess = left.includes(' - ')
  const parts = left.split(isLess ? ' - ' : ' + ')
  const amounts = parts.map(amountOf)
  const sum = amounts.reduce((all, one, index) => (isLess && index > 0 ? all - one : all + one), 0)
  return { parts, sum, total, isMarked: right !== total }
}

const addsUp = ({ sum, total }: Sum): boolean => Math.abs(sum - amountOf(total)) <= 0.0005 + 1e-6

const SUMS = ['sum', 'difference', 'loadedWeight', 'loadedMoment', 'fuelMoment', 'lastMinuteWeight', 'lastMinuteMoment']

/** Sums whose parts and total, each as the screen has it beside its name, would not add up. */
function differsBeside({ figures }: FigureSet, figure: ComputedFigure, of: readonly string[]): boolean {
  const values = of.map((name) => Number(figures[name]?.value))
  return Math.abs(values.reduce((all, one) => all + one, 0) - Number(figure.value)) > 1e-6
}

test.each(['checklists/marram', 'checklists/pair'])(
  'the sums of dealt departures of %s cross-foot as shown',
  async (dir) => {
    const pack = await packAt(dir)
    const { declarations } = pack.figures
    let [sums, rounded, beside] = [0, 0, 0]
    for (let seed = 0; seed < 200; seed++) {
      const departure = deal(pack.figures, readBackOf(pack), seed)
      if (!departure) throw new Error(`seed ${seed} deals nothing`)
      for (const inputs of [departure.preliminary, departure.final]) {
        const set = compute(pack.figures, inputs)
        for (const figure of Object.values(set.figures)) {
          const { derived } = declarations[figure.name] ?? {}
          if (!derived || !SUMS.includes(derived.by) || figure.value === undefined) continue
          const [first = '', ...later] = figure.why.map(({ text }) => text)
          if (/^no (last-minute change|fuel)$/.test(first)) continue
          const name = `seed ${seed}, ${figure.name}: ${figure.why.map(({ text }) => text).join('; ')}`
          const sum = sumIn(first)
          if (!sum) throw new Error(`${name} has no total`)
          sums++
          // Marked where, and only where, the digits shown do not add up.
          expect(sum.isMarked, name).toBe(!addsUp(sum))
          const value = formatMeasured(figure.value, figure.measure)
          if (sum.total !== value) {
            rounded++
            expect(later.at(-1), name).toMatch(/^(rounded|settled)/)
            expect(later.at(-1), name).toContain(value)
          }
          if (derived.by === 'sum' && differsBeside(set, figure, derived.uses)) {
            beside++
            expect(later.at(-1), name).toMatch(/^rounded/)
          }
        }
      }
    }
    // Not of a departure in which everything is round anyway.
    expect(sums).toBeGreaterThan(1000)
    expect(rounded).toBeGreaterThan(100)
    expect(beside).toBeGreaterThan(10)
  },
)

test('a sum whose parts have more digits than are shown says so', () => {
  const third = (by: number) => ({ label: 'part', kind: 'decimal', decimals: 1, unit: 'kt', constant: by })
  const model = modelOf({
    figures: {
      one: third(1 / 3),
      other: third(1 / 3),
      whole: { label: 'whole', kind: 'decimal', decimals: 1, unit: 'kt', derived: { by: 'sum', of: ['one', 'other'] } },
      rest: {
        label: 'rest',
        kind: 'decimal',
        decimals: 1,
        unit: 'kt',
        derived: { by: 'difference', of: 'one', less: ['other'] },
      },
    },
  })
  const { whole, rest } = figuresOf(model).figures
  expect(whole?.why.map(({ text }) => text)).toEqual([
    'part 0.333 kt + part 0.333 kt = 0.667 kt (the parts as shown are rounded)',
    'rounded nearest to 0.1: 0.7 kt',
  ])
  expect(rest?.why.map(({ text }) => text)).toEqual(['part 0.333 kt - part 0.333 kt = 0 kt'])
})

test('more stations than a sum lists are told by their number, with the total', () => {
  const stations = Object.fromEntries(
    Array.from({ length: 60 }, (_, row) => [`row${row + 1}`, { label: `row ${row + 1}`, arm: row }]),
  )
  const model = modelOf({
    units: { weight: 'kg', arm: 'm' },
    stations,
    figures: { loads: { label: 'loads', kind: 'weight', unit: 'kg', derived: { by: 'loadedWeight' } } },
  })
  const loads = Object.fromEntries(Object.keys(stations).map((name) => [name, 10]))
  expect(figuresOf(model, { loads }).figures.loads?.why[0]?.text).toMatch(/row 41 10 \+ 19 more stations = 600 kg$/)
})
