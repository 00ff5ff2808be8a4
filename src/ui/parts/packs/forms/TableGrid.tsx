/** The cells of a table, to be typed, or pasted from a spreadsheet. */

import type { TargetedKeyboardEvent } from 'preact'
import { useId, useRef, useState } from 'preact/hooks'
import {
  cellValue,
  edited,
  type Grid,
  type GridCell,
  narrowed,
  pastedInto,
  widened,
} from '../../../../app/view/packForms.ts'
import { NOT_GIVEN } from '../../../../kernel/figures/pack.ts'

interface TableGridProps {
  readonly text: string
  readonly grid: Grid
  readonly write: (text: string | undefined, words: string) => void
}

export function TableGrid({ text, grid, write }: TableGridProps) {
  const [told, setTold] = useState({ words: '', isRefused: false })
  const table = useRef<HTMLTableElement>(null)
  const { down, across, head, rows } = grid
  const paste = (from: GridCell, event: ClipboardEvent) => {
    const pasted = event.clipboardData?.getData('text/plain') ?? ''
    if (!/[\t\n]/.test(pasted.trimEnd())) return
    event.preventDefault()
    const { edits, left } = pastedInto(grid, from, pasted)
    const isRefused = left !== ''
    setTold({ words: isRefused ? `Nothing was taken: ${left}.` : `${edits.length} cells were taken.`, isRefused })
    if (edits.length > 0) write(edited(text, edits), 'pasted cells')
  }
  const cell = (one: GridCell) => (
    <Cell
      cell={one}
      paste={(event) => paste(one, event)}
      write={(value) => write(edited(text, { type: 'set', path: one.path, value }), one.label)}
    />
  )
  const ways = head.length > 0 ? (['row', 'column'] as const) : (['row'] as const)
  return (
    <section class="stack" aria-label="Cells">
      <p class="small soft">
        {down} down{across && `, ${across} across`}. Cells can be pasted from a spreadsheet; “---” is not given. Enter
        and the arrows up and down go from row to row.
      </p>
      <div class="scroll">
        <table class="grid" ref={table} onKeyDown={(event) => step(event, table.current)}>
          {head.length > 0 && (
            <thead>
              <tr>
                <td />
                {head.map((one) => (
                  <th key={one.path.join('.')} scope="col">
                    {cell(one)}
                  </th>
                ))}
              </tr>
            </thead>
          )}
          <tbody>
            {rows.map((row) => (
              <tr key={row.head.path.join('.')}>
                <th scope="row">{cell(row.head)}</th>
                {row.cells.map((one) => (
                  <td key={one.path.join('.')}>{cell(one)}</td>
                ))}
              </tr>
            ))}
          </tbody>
        </table>
      </div>
      <div class="row">
        {ways.map((way) => (
          <button key={way} type="button" onClick={() => write(edited(text, widened(grid, way)), `new ${way}`)}>
            Add a {way}
          </button>
        ))}
        {ways.map((way) => {
          const edits = narrowed(grid, way)
          return (
            <button
              key={way}
              type="button"
              disabled={edits.length === 0}
              onClick={() => write(edited(text, edits), `last ${way}`)}
            >
              Take out the last {way}
            </button>
          )
        })}
      </div>
      <p role="status" class={`small told-of-grid${told.isRefused ? ' wrong-entry' : ''}`}>
        {told.words}
      </p>
    </section>
  )
}

interface CellProps {
  readonly cell: GridCell
  readonly paste: (event: ClipboardEvent) => void
  readonly write: (value: string | number) => void
}

function Cell({ cell, paste, write }: CellProps) {
  const id = useId()
  // What was typed and is no value stands until the text says something else here.
  const [{ typed, over }, setTyped] = useState<{ readonly typed?: string; readonly over?: string }>({})
  const value = typed === undefined ? undefined : cellValue(cell, typed)
  const isStrange = typed !== undefined && value === undefined && over === cell.value
  const shown = typed !== undefined && (isStrange || String(value) === cell.value) ? typed : cell.value
  return (
    <>
      <input
        value={shown}
        aria-label={cell.label}
        aria-invalid={isStrange || shown === ''}
        aria-describedby={isStrange ? id : undefined}
        inputMode={cell.isText ? 'text' : 'decimal'}
        autocomplete="off"
        onPaste={paste}
        onInput={({ currentTarget }) => {
          setTyped({ typed: currentTarget.value, over: cell.value })
          const next = cellValue(cell, currentTarget.value)
          if (next !== undefined) write(next)
        }}
      />
      {isStrange && (
        <p id={id} class="wrong-entry small">
          {cell.isText ? 'should be a word' : `should be a number, or ${NOT_GIVEN}`}; not taken, the text has{' '}
          {cell.value || 'none'}
        </p>
      )}
    </>
  )
}

/** Enter and the arrows lead to the same column of another row. */
function step(event: TargetedKeyboardEvent<HTMLTableElement>, table: HTMLTableElement | null): void {
  const by = event.key === 'ArrowUp' ? -1 : event.key === 'ArrowDown' || event.key === 'Enter' ? 1 : 0
  const here = event.target instanceof HTMLInputElement ? event.target.closest('td, th') : null
  const row = here?.closest('tr')
  if (by === 0 || !table || !here || !row) return
  event.preventDefault()
  const next = table.rows[row.rowIndex + by]?.cells[(here as HTMLTableCellElement).cellIndex]?.querySelector('input')
  next?.focus()
  next?.select()
}
