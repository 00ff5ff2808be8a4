/** What a list of packs shows of each, read without trust: a pack with mistakes in it has a name as well. */

import { isError } from '../../kernel/problem.ts'
import { parseSource } from '../source.ts'
import type { PackTexts } from './parts.ts'

export interface PackTitle {
  /** Empty where they cannot be read. */
  readonly id: string
  readonly name: string
  readonly version: string
  readonly aircraft: string
}

export function titleOf(files: PackTexts): PackTitle {
  const value = dataOf(files, 'pack.yaml')
  const text = (field: string) => {
    const found = value instanceof Object ? (value as Readonly<Record<string, unknown>>)[field] : undefined
    return typeof found === 'string' || typeof found === 'number' ? String(found).slice(0, LONGEST_SHOWN) : ''
  }
  return { id: text('id'), name: text('name'), version: text('version'), aircraft: text('aircraft') }
}

const LONGEST_SHOWN = 100

/** How many lists its procedures have. */
export function listsIn(files: PackTexts): number {
  const value = dataOf(files, 'procedures.yaml')
  return arrayIn(value, 'phases')
    .flatMap((phase) => arrayIn(phase, 'activities'))
    .filter((activity) => activity instanceof Object && 'list' in activity).length
}

function arrayIn(value: unknown, field: string): readonly unknown[] {
  const found = value instanceof Object ? (value as Readonly<Record<string, unknown>>)[field] : undefined
  return Array.isArray(found) ? found : []
}

function dataOf(files: PackTexts, file: string): unknown {
  const { value, problems } = parseSource(file, files[file] ?? '')
  return problems.some(isError) ? undefined : value
}
