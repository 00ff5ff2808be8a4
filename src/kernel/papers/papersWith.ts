/** On which papers a figure is read, or worked out by a table: where to look, never what stands there. */

import type { Pack } from '../pack/checklist.ts'
import type { Paper } from '../pack/paper.ts'

/** In the pack's order; empty where it stands on none. */
export function papersWith({ figures: { declarations }, papers }: Pack, figure: string): readonly Paper[] {
  const { table, uses = [] } = declarations[figure]?.derived ?? {}
  const tables = [table, ...uses.map((name) => declarations[name]?.derived?.table)].filter((one) => one !== undefined)
  return papers.filter(
    ({ lines, tables: printed }) =>
      lines.some((line) => 'figure' in line && line.figure === figure) || tables.some((one) => printed.includes(one)),
  )
}
