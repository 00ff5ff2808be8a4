/** What a pack has given names to, as far as its files can be read: figures, tables, situations and so on. */

import { figuresFile } from '../figuresSchema.ts'
import type { PackTexts } from '../files/parts.ts'
import { ARM_UNITS, WEIGHT_UNITS } from '../packSchema.ts'
import { standardFigures } from '../standardWeights.ts'
import { readYaml } from '../yamlText.ts'

export interface Named {
  readonly name: string
  /** "fuel on board, weight". */
  readonly about: string
}

export interface Names {
  readonly figures: readonly Named[]
  /** Those that have a value: what is read off a gauge has none, and nothing is computed from it. */
  readonly valued: readonly Named[]
  /** With the names of its axes. */
  readonly tables: readonly (Named & { readonly axes: readonly string[] })[]
  readonly envelopes: readonly Named[]
  readonly stations: readonly Named[]
  readonly tanks: readonly Named[]
  /** With the values that each can have. */
  readonly situations: readonly (Named & { readonly values: readonly Named[] })[]
}

export function namesIn(files: PackTexts): Names {
  const figures = dataIn(files, 'figures.yaml')
  const tanks = get(figures, 'tanks')
  const all = get(figures, 'figures')
  const isRead = (name: string) => get(get(all, name), 'read') !== undefined
  const declared = named(all, ['label', 'kind'])
  return {
    figures: [...declared, ...standardNames(files, figures)],
    valued: [...declared.filter(({ name }) => !isRead(name)), ...standardNames(files, figures)],
    tables: entries(get(dataIn(files, 'tables.yaml'), 'tables')).map(([name, table]) => ({
      name,
      about: about(table, ['unit']),
      axes: axesOf(table),
    })),
    envelopes: named(get(figures, 'envelopes'), ['label']),
    stations: named(get(figures, 'stations'), ['label']),
    tanks: Array.isArray(tanks) ? tanks.flatMap((group) => named(group, ['label'])) : [],
    situations: entries(get(dataIn(files, 'pack.yaml'), 'situations')).map(([name, situation]) => ({
      name,
      about: about(situation, ['label']),
      values: named(get(situation, 'options'), ['label']),
    })),
  }
}

/** Those that `weights` stands for, where figures.yaml can be read. */
function standardNames(files: PackTexts, figures: unknown): Named[] {
  const units = get(dataIn(files, 'pack.yaml'), 'units')
  const written = figuresFile.safeParse(figures)
  const weight = WEIGHT_UNITS.find((one) => one === get(units, 'weight'))
  const arm = ARM_UNITS.find((one) => one === get(units, 'arm'))
  if (!written.success || !weight || !arm) return []
  const made = Object.entries(standardFigures(written.data, { units: { weight, arm } }))
  return made.map(([name, { label, kind }]) => ({ name, about: `${label}, ${kind}` }))
}

function axesOf(table: unknown): string[] {
  const axes = get(table, 'axes')
  const names = Array.isArray(axes) ? axes.map((axis) => get(axis, 'name')) : []
  return names.filter((name) => typeof name === 'string')
}

function named(value: unknown, fields: readonly string[]): Named[] {
  return entries(value).map(([name, inner]) => ({ name, about: about(inner, fields) }))
}

function about(value: unknown, fields: readonly string[]): string {
  return fields
    .map((field) => get(value, field))
    .filter((part) => typeof part === 'string')
    .join(', ')
}

function entries(value: unknown): [string, unknown][] {
  return value instanceof Object && !Array.isArray(value) ? Object.entries(value) : []
}

function get(value: unknown, field: string): unknown {
  return value instanceof Object && Object.hasOwn(value, field) ? (value as Record<string, unknown>)[field] : undefined
}

function dataIn(files: PackTexts, file: string): unknown {
  const read = readYaml(files[file] ?? '')
  if (!('document' in read)) return undefined
  try {
    return read.document.toJS()
  } catch {
    return undefined
  }
}
