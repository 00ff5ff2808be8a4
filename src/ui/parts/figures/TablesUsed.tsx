/** Tables of the values that are read back, with the cells in use; the trim table stands open. */

import type { DraftView } from '../../../app/figures/draftView.ts'
import { type TableView, tableView } from '../../../app/figures/tableView.ts'
import type { Pack } from '../../../kernel/pack/checklist.ts'

export function TablesUsed({ pack, view }: { readonly pack: Pack; readonly view: DraftView }) {
  const { basis, declarations } = pack.figures
  const tables = view.computed
    .map((figure) => ({ figure, table: tableView(figure, basis?.tables ?? {}) }))
    .filter(({ table }) => table !== undefined)
  if (tables.length === 0) return null
  return (
    <section class="stack" aria-labelledby="tables">
      <h2 id="tables">Tables, with the cells in use</h2>
      {tables.map(({ figure, table }) => (
        <details key={figure.name} open={declarations[figure.name]?.spec.kind === 'trim'}>
          <summary>
            <span class="cap">{figure.label}</span>
            {figure.shown && `: ${figure.shown}`}
          </summary>
          {table && <UsedTable table={table} />}
        </details>
      ))}
    </section>
  )
}

function UsedTable({ table }: { readonly table: TableView }) {
  const { caption, at, rowAxis, columnAxis, columns, rows } = table
  return (
    // biome-ignore lint/a11y/noNoninteractiveTabindex: a wide table scrolls sideways by keyboard too
    <section class="scroll" tabIndex={0} aria-label={`Table ${caption}`}>
      <table>
        <caption class="small">
          {caption}
          {at && `, at ${at}`}
        </caption>
        <thead>
          <tr>
            <th scope="col">
              {rowAxis}
              {columnAxis && ` \\ ${columnAxis}`}
            </th>
            {columns.map((column) => (
              <th key={column} scope="col">
                {column || 'value'}
              </th>
            ))}
          </tr>
        </thead>
        <tbody>
          {rows.map(({ head, cells }) => (
            <tr key={head}>
              <th scope="row">{head}</th>
              {cells.map(({ shown, used }, place) => (
                <td key={columns[place]} class={used ? 'used' : ''}>
                  {shown}
                  {used && <span class="hidden-label"> in use</span>}
                </td>
              ))}
            </tr>
          ))}
        </tbody>
      </table>
    </section>
  )
}
