/** A table that was pasted: as read, with its questions; it goes into the draft, into a pack, or is copied as text. */

import { useRef, useState } from 'preact/hooks'
import type { PastedTable } from '../../../app/view/pastedTables.ts'
import { useActions, useApp } from '../../useApp.ts'
import { useCopy } from './useCopy.ts'

interface PastedTableProps {
  readonly table: PastedTable
  /** The paper has lists as well: the table is taken with them. */
  readonly isInDraft: boolean
  readonly show: (line: number) => void
}

/** More than this many rows and columns are no help on a screen. */
const MOST_SHOWN = 40

export function PastedTableView({ table, isInDraft, show }: PastedTableProps) {
  const { name, line, axes, cells, unit, questions, yaml, example } = table
  const text = useRef<HTMLTextAreaElement>(null)
  const [down, across] = axes
  const of = (axis: typeof down) => (axis ? `${axis.label}${axis.unit ? ` (${axis.unit})` : ''}` : '')
  const id = `pasted-${line}`
  const { copy, told } = useCopy(yaml, text, 'text')
  return (
    <section class="stack" aria-labelledby={id}>
      <h3 id={id}>Table {name}</h3>
      <p>
        {of(down)} down{across && `, ${of(across)} across`}
        {unit && `; cells in ${unit}`}
      </p>
      {/* biome-ignore lint/a11y/noNoninteractiveTabindex: what scrolls must be reached by keys */}
      <section class="scroll" tabIndex={0} aria-label={`Table ${name} as read`}>
        <table>
          {across && (
            <thead>
              <tr>
                <td />
                {across.values.slice(0, MOST_SHOWN).map((value) => (
                  <th key={value} scope="col">
                    {value}
                  </th>
                ))}
              </tr>
            </thead>
          )}
          <tbody>
            {cells.slice(0, MOST_SHOWN).map((row, index) => (
              <tr key={down?.values[index]}>
                <th scope="row">{down?.values[index]}</th>
                {row.slice(0, MOST_SHOWN).map((cell, column) => (
                  <td key={across?.values[column] ?? column}>{cell === '' ? '?' : cell}</td>
                ))}
              </tr>
            ))}
          </tbody>
        </table>
      </section>
      {cells.length > MOST_SHOWN && <p class="soft">And {cells.length - MOST_SHOWN} more rows.</p>}
      <ol class="stack">
        {questions.slice(0, MOST_SHOWN).map((question) => (
          <li key={`${question.line} ${question.text}`}>
            <button type="button" class="plain" onClick={() => show(question.line)}>
              Line {question.line}
            </button>{' '}
            {question.text}
          </li>
        ))}
      </ol>
      {isInDraft && <p>The draft takes it with it, in its tables.yaml.</p>}
      <PutIntoPack table={table} />
      <details>
        <summary>As text</summary>
        <div class="stack">
          <div class="field">
            <label for={`${id}-text`}>Text for tables.yaml of a pack</label>
            <textarea id={`${id}-text`} ref={text} class="paper-text" rows={10} wrap="off" readOnly value={yaml} />
          </div>
          <div class="row">
            <button type="button" onClick={() => void copy()}>
              Copy
            </button>
            <span role="status" class="soft">
              {told}
            </span>
          </div>
        </div>
      </details>
      <p>
        A figure in figures.yaml looks it up, each axis by a figure of the pack: <code>{example}</code>
      </p>
    </section>
  )
}

/** Into one's own pack, which opens there; what is put in can be taken back. */
function PutIntoPack({ table: { name, line, pasted } }: Pick<PastedTableProps, 'table'>) {
  const entries = useApp((state) => state.shelf.entries)
  const actions = useActions()
  const mine = (entries ?? []).filter(({ isOwn }) => isOwn)
  const [chosen, choose] = useState<string>()
  const [told, setTold] = useState('')
  const pack = mine.find(({ key }) => key === chosen) ?? mine[0]
  if (!pack) return null
  const put = async () => {
    const isIn = await actions.putTable(pack.key, pasted)
    if (!isIn)
      setTold(`tables.yaml of ${pack.name} cannot take it: mend the mistakes in it first, or put the text in by hand.`)
  }
  const id = `put-${line}`
  return (
    <div class="row">
      <label for={id}>Own pack</label>
      <select id={id} value={pack.key} onChange={(event) => choose(event.currentTarget.value)}>
        {mine.map(({ key, name }) => (
          <option key={key} value={key}>
            {name}
          </option>
        ))}
      </select>
      <button type="button" onClick={() => void put()}>
        Put {name} into it
      </button>
      <span role="status" class="soft">
        {told}
      </span>
    </div>
  )
}
