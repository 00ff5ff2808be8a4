/**
 * One card, on as many pages as it needs. It is laid out in a table, for its head and foot stand on each page then: what it
 * is of, and what it is not for.
 */

import type { BesideEntry, BesideList } from '../../../../app/view/packBeside.ts'
import type { PrintedTable } from '../../../../kernel/papers/print.ts'
import { NOTICE } from '../../../../kernel/run/core/events.ts'
import { TableBlocks } from '../../papers/PaperSheet.tsx'

interface SheetProps {
  readonly title: string
  /** Pack, version, date. */
  readonly of: string
  readonly list?: BesideList
  readonly table?: PrintedTable
}

export function Sheet({ title, of, list, table }: SheetProps) {
  return (
    <table class="sheet" role="presentation">
      <thead>
        <tr>
          <td>
            <h2 class="cap">{title}</h2>
            <p>{of}</p>
          </td>
        </tr>
      </thead>
      <tfoot>
        <tr>
          <td>{NOTICE}</td>
        </tr>
      </tfoot>
      <tbody>
        <tr>
          <td>
            {list?.caution && <p class="caution">Caution: {list.caution}</p>}
            {list && (
              <ol class="card-lines">
                {list.entries.map((entry) => (
                  <CardLine key={entry.id} entry={entry} />
                ))}
              </ol>
            )}
            {table && (
              <div class="paper">
                <TableBlocks table={table} />
              </div>
            )}
          </td>
        </tr>
      </tbody>
    </table>
  )
}

function CardLine({ entry: { type, challenge, response, when, caution } }: { readonly entry: BesideEntry }) {
  const isAsked = type === 'item' || type === 'line'
  return (
    <li class={type}>
      {caution && <p class="caution">Caution: {caution}</p>}
      <span class={type === 'note' ? '' : 'cap'}>{challenge}</span>
      {isAsked && <span class="leader" aria-hidden="true" />}
      {isAsked && <span class="answer">{response}</span>}
      {when && <small>only with {when}</small>}
    </li>
  )
}
