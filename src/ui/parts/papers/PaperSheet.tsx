/** One paper as it is printed: on the screen and on paper alike. */

import type { PaperView } from '../../../app/papers/papersView.ts'
import type { PrintedList, PrintedTable } from '../../../kernel/papers/print.ts'
import { NOTICE } from '../../../kernel/run/core/events.ts'

export function PaperSheet({ view }: { readonly view: PaperView }) {
  const { paper, which, cameAt, lines, tables, lists } = view
  const time = which && paper.issue === undefined ? dated(cameAt) : ''
  return (
    <article class="paper" aria-label={`${paper.title} ${which}`.trim()}>
      <header>
        <h3 class="cap">{paper.title}</h3>
        <p>
          {which && <strong class="cap">{which}</strong>} {time}
        </p>
        <p class="small">{NOTICE}</p>
      </header>
      {lines.length > 0 && (
        <dl>
          {lines.map(({ heading, label, text, limit, changed }, index) =>
            heading === undefined ? (
              <div key={`${index} ${label}`} class={changed ? 'changed' : ''}>
                <dt class="cap">
                  {label}
                  {changed && <span class="mark small"> changed</span>}
                </dt>
                <dd>
                  {text || <span class="blank">blank</span>}
                  {limit && <span class="limit small"> {limit}</span>}
                </dd>
              </div>
            ) : (
              <h4 key={heading}>{heading}</h4>
            ),
          )}
        </dl>
      )}
      {tables.map((table) => (
        <CardTable key={table.caption} table={table} />
      ))}
      {lists.map((list) => (
        <CardList key={list.name} list={list} />
      ))}
      {paper.notes.map((note) => (
        <p key={note} class="small">
          {note}
        </p>
      ))}
      {paper.signature && <p class="signature">{paper.signature}</p>}
    </article>
  )
}

/** Day and time at which it came in; before a run only the day. */
function dated(cameAt: number | undefined): string {
  const day = new Date(cameAt ?? Date.now()).toLocaleDateString('en-GB', { dateStyle: 'medium' })
  if (cameAt === undefined) return day
  return `${day}, ${new Date(cameAt).toLocaleTimeString('en-GB', { timeStyle: 'short' })}`
}

function CardTable({ table }: { readonly table: PrintedTable }) {
  return (
    <section class="card-table">
      <h4 class="cap">{table.caption}</h4>
      <TableBlocks table={table} />
    </section>
  )
}

/** The table without its caption. */
export function TableBlocks({ table: { rowAxis, columnAxis, blocks } }: { readonly table: PrintedTable }) {
  return (
    <>
      {blocks.map(({ title, columns, rows }) => (
        <table key={title}>
          {title && <caption>{title}</caption>}
          <thead>
            {columnAxis && (
              <tr>
                <td />
                <th scope="colgroup" colSpan={columns.length}>
                  {columnAxis}
                </th>
              </tr>
            )}
            <tr>
              <th scope="col">{rowAxis}</th>
              {columns.map((head) => (
                <th key={head} scope="col">
                  {head}
                </th>
              ))}
            </tr>
          </thead>
          <tbody>
            {rows.map(({ head, cells }) => (
              <tr key={head}>
                <th scope="row">{head}</th>
                {cells.map((cell, index) => (
                  <td key={columns[index]}>{cell}</td>
                ))}
              </tr>
            ))}
          </tbody>
        </table>
      ))}
    </>
  )
}

function CardList({ list }: { readonly list: PrintedList }) {
  return (
    <section class="card-list">
      <h4 class="cap">{list.name}</h4>
      <dl>
        {list.rows.map(({ type, challenge, response }) => (
          <div key={challenge} class={type}>
            <dt class={type === 'note' ? '' : 'cap'}>{challenge}</dt>
            <dd>{response}</dd>
          </div>
        ))}
      </dl>
    </section>
  )
}
