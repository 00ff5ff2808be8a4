/** Why a value is what it is: each step in words with the numbers used, and the table cells. */

import type { Reason, TableCell } from '../../../kernel/figures/model.ts'
import type { Pack } from '../../../kernel/pack/checklist.ts'

interface WhyProps {
  readonly pack: Pack
  readonly why: readonly Reason[]
}

export function FigureWhy({ pack, why }: WhyProps) {
  return (
    <ol class="why stack">
      {why.map(({ text, cells }) => (
        <li key={text}>
          {text}
          {cells && cells.length > 0 && <Cells pack={pack} cells={cells} />}
        </li>
      ))}
    </ol>
  )
}

function Cells({ pack, cells }: { readonly pack: Pack; readonly cells: readonly TableCell[] }) {
  return (
    <ul class="small">
      {cells.map((cell) => {
        const table = pack.figures.basis?.tables[cell.table]
        const at = Object.entries(cell.at).map(([axis, value]) => {
          const label = table?.axes.find(({ name }) => name === axis)?.label ?? axis
          return `${label} ${value}`
        })
        return (
          <li key={at.join()}>
            table {table?.label ?? cell.table}, {at.join(', ')}: <strong>{cell.value}</strong>
          </li>
        )
      })}
    </ul>
  )
}
