/**
 * Wrong numbers with a known origin, for the account of where a number came from. What each origin gives is computed
 * here from scratch; `alone` says whether no other origin gives the same number.
 */

import type { Neighbour } from '../../src/kernel/figures/neighbours.ts'
import type { Figure, Figures, Value } from '../../src/kernel/kinds/kind.ts'
import type { CauseSearch, RevisionValues } from '../../src/kernel/response/causes.ts'
import type { Cause } from '../../src/kernel/response/model.ts'
import { type Random, seeded } from './case.ts'

export const LINEAGE_CAUSES: readonly Cause['cause'][] = [
  'earlierRevision',
  'otherFigure',
  'digitsSwapped',
  'neighbourRow',
  'neighbourColumn',
  'otherFlap',
  'otherUnit',
]

export interface LineageCase {
  readonly search: CauseSearch
  readonly cause: Cause['cause']
  readonly alone: boolean
}

type Origins = Partial<Record<Cause['cause'], readonly Value[]>>

function departure(random: Random): {
  figures: Figures
  history: RevisionValues[]
  neighbours: Neighbour[]
  name: string
} {
  const trim = (10 + random.below(80)) / 10
  const v1 = 105 + random.below(50)
  const weight = 10 * (700 + random.below(5000))
  const figures: Record<string, Figure> = {
    trim: { kind: 'trim', decimals: 1, value: trim },
    landingTrim: { kind: 'trim', decimals: 1, value: (10 + random.below(80)) / 10 },
    v1: { kind: 'speed', value: v1 },
    vr: { kind: 'speed', value: v1 + 1 + random.below(9) },
    weight: { kind: 'weight', unit: 'kg', value: weight },
    landingWeight: { kind: 'weight', unit: 'kg', value: weight - 10 * (20 + random.below(300)) },
    qnh: { kind: 'altimeter', unit: 'hPa', value: 970 + random.below(70) },
    oat: { kind: 'temperature', unit: 'C', value: random.below(50) - 15 },
  }
  const name = random.of(['trim', 'v1', 'weight'])
  const history: RevisionValues[] = [
    {
      revision: 1,
      label: 'preliminary figures',
      values: {
        trim: (10 + random.below(80)) / 10,
        v1: v1 - 1 - random.below(12),
        weight: weight + 10 * (1 + random.below(90)),
      },
    },
  ]
  const step = (by: number): number => {
    const value = Number(figures[name]?.value)
    if (name === 'trim') return Number((value + by / 10).toFixed(1))
    return name === 'v1' ? value + by : value + by * 10
  }
  const neighbours: Neighbour[] = [
    { cause: 'neighbourRow', detail: 'the row below', value: step(3 + random.below(4)) },
    { cause: 'neighbourColumn', detail: 'the column to the left', value: step(-2 - random.below(5)) },
    { cause: 'otherFlap', detail: 'flap 15', value: step(8 + random.below(6)) },
  ]
  return { figures, history, neighbours, name }
}

/** The number with two neighbouring digits swapped, for each pair of unlike ones. */
function swaps(figure: Figure): number[] {
  const text = figure.kind === 'trim' ? Number(figure.value).toFixed(1) : String(figure.value)
  const spots = [...text].flatMap((c, i) => (c === '.' ? [] : [i]))
  return spots.slice(1).flatMap((right, k) => {
    const left = spots[k] as number
    if (text[left] === text[right]) return []
    const list = [...text]
    list[left] = text[right] as string
    list[right] = text[left] as string
    return list[0] === '0' && figure.kind !== 'trim' ? [] : [Number(list.join(''))]
  })
}

function originsOf(
  figures: Figures,
  history: readonly RevisionValues[],
  neighbours: readonly Neighbour[],
  name: string,
): Origins {
  const figure = figures[name] as Figure
  const pounds = Math.round(Number(figure.value) / 0.45359237)
  return {
    earlierRevision: history.flatMap(({ values }) => (values[name] === undefined ? [] : [values[name]])),
    otherFigure: Object.entries(figures).flatMap(([other, { value }]) => (other === name ? [] : [value])),
    digitsSwapped: swaps(figure),
    neighbourRow: neighbours.filter(({ cause }) => cause === 'neighbourRow').map(({ value }) => value),
    neighbourColumn: neighbours.filter(({ cause }) => cause === 'neighbourColumn').map(({ value }) => value),
    otherFlap: neighbours.filter(({ cause }) => cause === 'otherFlap').map(({ value }) => value),
    otherUnit: figure.kind === 'weight' ? [pounds, Math.round(pounds / 10) * 10, Math.round(pounds / 100) * 100] : [],
  }
}

/** `count` errors of one cause. */
export function* lineageCases(cause: Cause['cause'], count: number, seed = 4711): Generator<LineageCase> {
  const random = seeded(seed)
  for (let made = 0; made < count; ) {
    const { figures, history, neighbours, name } = departure(random)
    const origins = originsOf(figures, history, neighbours, name)
    const same =
      cause === 'otherFigure' ? origins.otherFigure?.filter((_, i) => isAlike(figures, name, i)) : origins[cause]
    if (!same || same.length === 0) continue
    const read = random.of(same)
    if (read === figures[name]?.value) continue
    made++
    const alone = Object.entries(origins).every(([other, values]) => other === cause || !values.includes(read))
    yield { search: { figure: name, read, figures, history, neighbours }, cause, alone }
  }
}

/** Of the same kind: nobody reads a weight for a speed. */
function isAlike(figures: Figures, name: string, index: number): boolean {
  const other = Object.keys(figures).filter((each) => each !== name)[index] ?? ''
  return figures[other]?.kind === figures[name]?.kind
}
