/** Whether tables are whole: axes rise, no row or cell is missing, cells change along an axis as the pack says they do. */

import { NOT_GIVEN } from '../kernel/figures/pack.ts'
import type { Problem } from '../kernel/problem.ts'
import { quoted } from '../kernel/quoted.ts'
import { type Report, reporting } from './reporting.ts'
import type { Path, Source } from './source.ts'
import type { TablesText } from './tablesSchema.ts'

type TableText = TablesText['tables'][string]

export function checkTables(source: Source, { tables }: TablesText): Problem[] {
  const problems: Problem[] = []
  const report = reporting(source, problems)
  for (const [name, table] of Object.entries(tables)) {
    const before = problems.length
    checkAxes(name, table, report)
    checkCells(name, table, report)
    // Trends mean nothing before every cell is in its place.
    if (problems.length === before) checkTrends(name, table, report)
  }
  return problems
}

function entriesOf(axis: TableText['axes'][number]): readonly (number | string)[] {
  return 'choices' in axis ? axis.choices : axis.at
}

function checkAxes(name: string, { axes }: TableText, report: Report): void {
  const seen = new Set<string>()
  for (const [number, axis] of axes.entries()) {
    const path: Path = ['tables', name, 'axes', number]
    if (seen.has(axis.name)) report('id.duplicate', path, `axis ${axis.name} stands here twice`)
    seen.add(axis.name)
    const entries = entriesOf(axis)
    for (const [index, entry] of entries.entries()) {
      const before = entries[index - 1]
      if (typeof entry === 'number' && typeof before === 'number' && entry <= before) {
        const message = `table ${name}, axis ${axis.name}: ${entry} stands behind ${before}; entries must rise`
        report('table.notMonotonic', [...path, 'at', index], message)
      }
      if (typeof entry === 'string' && entries.indexOf(entry) < index) {
        report(
          'id.duplicate',
          [...path, 'choices', index],
          `table ${name}, axis ${axis.name}: ${quoted(entry)} stands here twice`,
        )
      }
    }
  }
}

/** Each level of `cells` has one entry for each entry of its axis. */
function checkCells(name: string, { axes, cells }: TableText, report: Report): void {
  const check = (level: number, found: unknown, path: Path): void => {
    const axis = axes[level]
    if (!axis) {
      if (typeof found !== 'number' && found !== NOT_GIVEN)
        report('table.shape', path, `table ${name} has ${axes.length} axes, its cells go deeper`)
      return
    }
    const entries = entriesOf(axis)
    if (!Array.isArray(found)) {
      report(
        'table.shape',
        path,
        `table ${name}: here should be a list with one entry for each ${axis.name}: ${listed(entries)}`,
      )
      return
    }
    if (found.length < entries.length) {
      const missing = listed(entries.slice(found.length))
      report(
        'table.missingRow',
        path,
        `table ${name}: nothing for ${axis.name} ${missing}; ${found.length} entries for ${entries.length}; where nothing is given write "---"`,
      )
    } else if (found.length > entries.length) {
      report(
        'table.extraRow',
        path,
        `table ${name}: ${found.length} entries for ${entries.length} of ${axis.name}: ${listed(entries)}; one is too many, or a decimal comma should be a point`,
      )
    }
    for (const [index, inner] of found.slice(0, entries.length).entries()) check(level + 1, inner, [...path, index])
  }
  check(0, cells, ['tables', name, 'cells'])
}

function checkTrends(name: string, { axes, cells, trend }: TableText, report: Report): void {
  for (const [axisName, direction] of Object.entries(trend ?? {})) {
    const along = axes.findIndex((axis) => axis.name === axisName)
    if (along < 0) {
      const names = axes.map((axis) => axis.name)
      report('table.axis', ['tables', name, 'trend', axisName], `table ${name} has no axis ${quoted(axisName)}`, {
        name: axisName,
        known: () => names,
      })
      continue
    }
    const walk = (level: number, indexes: number[]): void => {
      const axis = axes[level]
      if (axis) {
        for (const index of entriesOf(axis).keys()) walk(level + 1, [...indexes, index])
        return
      }
      const here = indexes[along] ?? 0
      if (here === 0) return
      const [now, before] = [cellAt(cells, indexes), cellAt(cells, indexes.with(along, here - 1))]
      if (Number.isNaN(now - before)) return
      if (direction === 'rising' ? now >= before : now <= before) return
      const word = direction === 'rising' ? 'rise' : 'fall'
      const message = `table ${name}: ${now} stands behind ${before} along ${axisName}, where values must not ${word === 'rise' ? 'fall' : 'rise'}`
      report('table.notMonotonic', ['tables', name, 'cells', ...indexes], message)
    }
    walk(0, [])
  }
}

function cellAt(cells: unknown, indexes: readonly number[]): number {
  return Number(indexes.reduce<unknown>((here, index) => (here as readonly unknown[])[index], cells))
}

const MOST_LISTED = 60

function listed(entries: readonly (number | string)[]): string {
  const more = entries.length > MOST_LISTED ? ` and ${entries.length - MOST_LISTED} more` : ''
  return `${entries.slice(0, MOST_LISTED).join(', ')}${more}`
}
