/** A pack as an author writes it, from the few lines that a test is about, and a run on it. */

import { compute } from '../../src/kernel/figures/compute.ts'
import type { Inputs } from '../../src/kernel/figures/model.ts'
import type { Value } from '../../src/kernel/kinds/kind.ts'
import type { Pack } from '../../src/kernel/pack/checklist.ts'
import { showProblem } from '../../src/kernel/problemLine.ts'
import type { EventBody, RunSettings } from '../../src/kernel/run/core/events.ts'
import { readPack } from '../../src/packs/read.ts'
import { type TestRun, testRun } from '../kernel/run/fixture.ts'

const PACK = `
id: heron
name: Heron
version: 1.0.0
aircraft: Heron (invented)
operator: nobody
caution: For training and simulation only.
units: {weight: lb, arm: in}
`

export interface Written {
  /** Behind the head of pack.yaml. */
  readonly pack?: string
  /** Below `figures:`, two spaces in; or all of figures.yaml where it begins with another key. */
  readonly figures?: string
  readonly tables?: string
  /** Entries of one list, called before start; or all of procedures.yaml. */
  readonly entries?: string
  readonly procedures?: string
}

function textsOf({ pack = '', figures = '', tables, entries = '', procedures }: Written): Record<string, string> {
  const indented = (entries.trim() || '- {item: doors, challenge: doors, response: both closed}').replace(
    /^/gm,
    '          ',
  )
  return {
    'pack.yaml': PACK.trimStart() + pack,
    'figures.yaml': /^(stations|tanks|figures|envelopes|weights):/m.test(figures)
      ? figures.trimStart()
      : `figures:\n${figures || '  fuel: {label: fuel, kind: weight, entered: {}}'}\n`,
    'procedures.yaml':
      procedures ??
      `phases:\n  - phase: start\n    name: Start\n    activities:\n      - list: beforeStart\n        name: before start\n        entries:\n${indented}\n`,
    ...(tables !== undefined && { 'tables.yaml': tables }),
  }
}

/** Mistakes as check tells them, and its advice. */
export function problemsIn(written: Written): string[] {
  return readPack(textsOf(written), '', 'heron').problems.map(showProblem)
}

/** Errors by file and line: columns are held by the tests of mistakes. */
export const withoutColumns = (lines: readonly string[]): string[] =>
  lines.filter((line) => !line.startsWith('warning')).map((line) => line.replace(/^([^:]+:\d+):\d+:/, '$1:'))

/** Throws with what is wrong with it. */
export function authored(written: Written): Pack {
  const { pack, problems } = readPack(textsOf(written), '')
  if (!pack) throw new Error(problems.map(showProblem).join('\n'))
  return pack
}

export const sheet = (values: Readonly<Record<string, Value>> = {}, more: Partial<Inputs> = {}): Inputs => ({
  status: 'final',
  values,
  loads: {},
  ...more,
})

/** New figures for a run. */
export function figuresOf(pack: Pack, inputs: Inputs, number = 1, before: TestRun['state']['values'] = {}): EventBody {
  const set = compute(pack.figures, inputs)
  const values = Object.fromEntries(
    Object.values(set.figures).flatMap(({ name, value }) => (value === undefined ? [] : [[name, value]])),
  )
  const changes = [...new Set([...Object.keys(before), ...Object.keys(values)])]
    .filter((name) => before[name] !== values[name])
    .map((name) => ({ figure: name, label: name, from: before[name], to: values[name], spoken: true }))
  const { status } = inputs
  return { type: 'figuresRevised', revision: number, status, label: status, inputs, values, changes, warnings: [] }
}

/** Begun, with its figures, and its first list called where there is one. */
export function flown(pack: Pack, inputs: Inputs = sheet(), settings: Partial<RunSettings> = {}): TestRun {
  const initial = Object.fromEntries(pack.situations.map((situation) => [situation.name, situation.initial]))
  return testRun(pack)
    .happen({
      type: 'runStarted',
      pack: { id: pack.id, version: pack.version, sha256: '', name: pack.name, texts: {} },
      situation: { ...initial, ...inputs.situation },
      settings: { phraseology: 'plain', coachAfter: 0, ...settings },
      startedAt: 0,
    })
    .happen(figuresOf(pack, inputs))
}

export const called = (list = 'beforeStart'): EventBody => ({
  type: 'listCalled',
  list,
  evidence: { by: 'typed', text: '' },
})
