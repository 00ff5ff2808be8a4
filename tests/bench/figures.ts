/** Benchmark of the figures: everything computed anew after one input changed, for a pack of 200 figures and 1,000 stations. */

import { compute } from '../../src/kernel/figures/compute.ts'
import type { Inputs } from '../../src/kernel/figures/model.ts'
import type { FigureModel } from '../../src/kernel/figures/pack.ts'
import { readPack } from '../../src/packs/read.ts'

const STATIONS = 1000
const FIGURES = 200
const ROUNDS = 400

/** A pack as a text, as an author would write it, so that what is measured is what is read. */
function packTexts(): Record<string, string> {
  const stations: Record<string, unknown> = {}
  for (let i = 0; i < STATIONS; i++) stations[`s${i}`] = { label: `station ${i}`, arm: 4 + (i % 97) / 5, max: 900 }
  const figures: Record<string, unknown> = {
    basic: { label: 'basic weight', kind: 'weight', unit: 'kg', constant: 41000 },
    basicMoment: { label: 'basic moment', kind: 'decimal', decimals: 0, unit: 'kg m', constant: 560000 },
    fuel: { label: 'fuel', kind: 'weight', unit: 'kg', entered: {} },
    weight: { label: 'weight', kind: 'weight', unit: 'kg', derived: { by: 'loadedWeight', empty: 'basic' } },
    moment: {
      label: 'moment',
      kind: 'decimal',
      decimals: 0,
      unit: 'kg m',
      derived: { by: 'loadedMoment', empty: 'basicMoment' },
    },
    cg: {
      label: 'CG',
      kind: 'decimal',
      decimals: 3,
      unit: 'm',
      derived: { by: 'centreOfGravity', weight: 'weight', moment: 'moment' },
    },
    mac: { label: 'CG', kind: 'decimal', decimals: 1, unit: 'percentMac', derived: { by: 'percentMac', cg: 'cg' } },
    gross: { label: 'gross weight', kind: 'weight', unit: 'kg', derived: { by: 'sum', of: ['weight', 'fuel'] } },
  }
  for (let i = Object.keys(figures).length; i < FIGURES; i++) {
    // One in three a two-way look-up, the rest sums on sums: chains as real packs have them.
    figures[`f${i}`] =
      i % 3 === 0
        ? {
            label: `speed ${i}`,
            kind: 'speed',
            derived: { by: 'lookUp', table: 'speeds', at: { weight: 'gross', altitude: i } },
          }
        : { label: `weight ${i}`, kind: 'weight', unit: 'kg', derived: { by: 'sum', of: ['gross', i] } }
  }
  const at = Array.from({ length: 12 }, (_, i) => 20000 + i * 60000)
  const speeds = {
    label: 'speeds',
    unit: 'kt',
    axes: [
      { name: 'weight', unit: 'kg', at },
      { name: 'altitude', unit: 'ft', at: [0, 100, 200, 300] },
    ],
    cells: at.map((_, i) => [100 + i * 4, 101 + i * 4, 102 + i * 4, 103 + i * 4]),
  }
  const list = { list: 'l', name: 'list', entries: [{ item: 'i', challenge: 'weight', response: '<gross>' }] }
  const head = {
    id: 'bench',
    name: 'Bench',
    version: '1',
    aircraft: 'none',
    operator: 'none',
    caution: 'For measuring only.',
  }
  return {
    'pack.yaml': JSON.stringify({ ...head, units: { weight: 'kg', arm: 'm' } }),
    'figures.yaml': JSON.stringify({ stations, figures, mac: { leadingEdge: 12, length: 4 } }),
    'tables.yaml': JSON.stringify({ tables: { speeds } }),
    'procedures.yaml': JSON.stringify({ phases: [{ phase: 'p', name: 'phase', activities: [list] }] }),
  }
}

function load(): { readonly model: FigureModel; readonly inputs: Inputs } {
  const { pack, problems } = readPack(packTexts(), '')
  if (!pack) throw new Error(problems.map(({ message }) => message).join('\n'))
  const loads = Object.fromEntries(pack.figures.stations.map(({ name }, i) => [name, 50 + (i % 400)]))
  return { model: pack.figures, inputs: { status: 'final', values: { fuel: 9000 }, loads } }
}

/** Median milliseconds from one changed load to all figures with their reasons. */
export async function measure(): Promise<Record<string, number>> {
  const { model, inputs } = load()
  const times: number[] = []
  for (let round = 0; round < ROUNDS; round++) {
    const changed = { ...inputs, loads: { ...inputs.loads, [`s${round}`]: 77 } }
    const begin = performance.now()
    const { figures, problems } = compute(model, changed)
    times.push(performance.now() - begin)
    if (Object.keys(figures).length !== FIGURES || problems.length > 0)
      throw new Error('the bench pack does not compute')
  }
  times.sort((a, b) => a - b)
  return { 'figures.recomputeMs.p50': times[Math.floor(times.length / 2)] ?? Number.NaN }
}
