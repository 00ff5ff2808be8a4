/** Small packs for tests, read as an author's would be: only what a case needs, the rest filled in. */

import { compute } from '../../../src/kernel/figures/compute.ts'
import type { FigureSet, Inputs } from '../../../src/kernel/figures/model.ts'
import type { FigureModel } from '../../../src/kernel/figures/pack.ts'
import { showProblem } from '../../../src/kernel/problemLine.ts'
import { readPack } from '../../../src/packs/read.ts'

export interface Parts {
  readonly units?: { readonly weight: 'kg' | 'lb'; readonly arm: 'm' | 'in' }
  /** As in figures.yaml, by name. */
  readonly figures: Readonly<Record<string, object>>
  readonly tables?: Readonly<Record<string, object>>
  /** Anything else of figures.yaml: stations, mac, tanks, envelopes ... */
  readonly [key: string]: unknown
}

export function packTexts({
  units = { weight: 'lb', arm: 'in' },
  figures,
  tables = {},
  ...rest
}: Parts): Record<string, string> {
  const head = { id: 'case', name: 'Case', version: '1', aircraft: 'none', operator: 'none', caution: 'For tests.' }
  const list = { list: 'l', name: 'list', entries: [{ item: 'i', challenge: 'beacon', response: 'beacon on' }] }
  return {
    'pack.yaml': JSON.stringify({ ...head, units }),
    'figures.yaml': JSON.stringify({ figures, ...rest }),
    'tables.yaml': JSON.stringify({ tables }),
    'procedures.yaml': JSON.stringify({ phases: [{ phase: 'p', name: 'phase', activities: [list] }] }),
  }
}

export function modelOf(parts: Parts): FigureModel {
  const { pack, problems } = readPack(packTexts(parts), '')
  if (!pack) throw new Error(problems.map(showProblem).join('\n'))
  return pack.figures
}

/** The figures of a model; loads and values are final ones. */
export function figuresOf(model: FigureModel, given: Partial<Inputs> = {}): FigureSet {
  return compute(model, { status: 'final', values: {}, loads: {}, ...given })
}

/** A figure of any unit, computed from constants: for worked examples. */
export function derived(unit: string, derivation: object, decimals = 4): object {
  return { label: 'result', kind: 'decimal', decimals, unit, derived: derivation }
}
