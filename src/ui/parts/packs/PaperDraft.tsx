/** A checklist on paper, pasted, becomes a draft: its items as they would be flown, and what is open, line by line. */

import { useRef, useState } from 'preact/hooks'
import { type DraftedItem, type DraftedList, type PaperDraftView, paperDraft } from '../../../app/view/paperDraft.ts'
import { Mark } from '../shell/Mark.tsx'
import { Problems } from '../shell/Problems.tsx'
import { DraftTaken } from './DraftTaken.tsx'
import { PastedTableView } from './PastedTableView.tsx'

export interface PaperDraftProps {
  /** Gets the texts of the pack's files by name, when the pilot takes the draft. */
  readonly onTake: (files: Readonly<Record<string, string>>) => void
}

export function PaperDraft({ onTake }: PaperDraftProps) {
  const paper = useRef<HTMLTextAreaElement>(null)
  const [text, setText] = useState(keptText)
  const write = (next: string) => {
    setText(next)
    keepText(next)
  }
  const [drafted, setDrafted] = useState<{ readonly of: string; readonly view: PaperDraftView }>()
  const show = (line: number) => paper.current && showLine(paper.current, line)
  const [taken, setTaken] = useState<PaperDraftView>()
  const files = drafted?.view.files
  const take = (event: MouseEvent) => {
    // The second click of a double one takes no second draft.
    if (!files || event.detail > 1) return
    onTake(files)
    setTaken(drafted.view)
    keepText('')
  }
  const isOld = drafted !== undefined && drafted.of !== text
  return (
    <section class="stack" aria-labelledby="from-paper">
      <h2 id="from-paper">From paper</h2>
      <p>
        Paste a checklist as text, or a table from a spreadsheet. The draft takes nothing for granted: what the paper
        leaves open is asked, and marked <code># ?</code> where it stands in the files.
      </p>
      <div class="paper-draft">
        <div class="stack">
          <div class="field">
            <label for="paper-text">Checklist as text</label>
            <textarea
              id="paper-text"
              ref={paper}
              class="paper-text"
              rows={18}
              wrap="off"
              spellcheck={false}
              value={text}
              onInput={(event) => write(event.currentTarget.value)}
            />
          </div>
          <div class="row">
            <button
              type="button"
              class={drafted && !isOld ? '' : 'first'}
              disabled={text.trim() === ''}
              onClick={() => setDrafted({ of: text, view: paperDraft(text) })}
            >
              Make a draft
            </button>
            {files && (
              <button type="button" class={isOld ? '' : 'first'} onClick={take}>
                Take the draft
              </button>
            )}
          </div>
          {taken && <DraftTaken id={taken.id} name={taken.name} questions={taken.open} />}
          {isOld && <p class="soft">The text has changed since; make a new draft for what you changed.</p>}
        </div>
        {drafted && (
          <div class="stack">
            {files && <Drafted view={drafted.view} show={show} />}
            {drafted.view.tables.map((table) => (
              <PastedTableView key={table.line} table={table} isInDraft={files !== undefined} show={show} />
            ))}
          </div>
        )}
      </div>
    </section>
  )
}

/** In the tab's own storage, over a reload: what was typed is nowhere else. */
const KEPT = 'otherseat.paper'

function keptText(): string {
  try {
    return sessionStorage.getItem(KEPT) ?? ''
  } catch {
    return ''
  }
}

function keepText(text: string): void {
  try {
    if (text === '') sessionStorage.removeItem(KEPT)
    else sessionStorage.setItem(KEPT, text)
  } catch {
    // Blocked or full: then it stands on the screen alone, as before.
  }
}

interface DraftedProps {
  readonly view: PaperDraftView
  readonly show: (line: number) => void
}

function Drafted({ view: { lists, questions, problems, tables }, show }: DraftedProps) {
  const items = lists.flatMap((list) => list.items)
  const cautions = [...lists, ...items].flatMap((one) => one.cautions)
  const ofTables = tables.reduce((sum, table) => sum + table.questions.length, 0)
  const counts = [
    counted(lists.length, 'list'),
    counted(items.length, 'item'),
    ...(cautions.length > 0 ? [counted(cautions.length, 'caution')] : []),
    ...(tables.length > 0 ? [counted(tables.length, 'table')] : []),
    counted(questions.length + ofTables, 'question'),
  ]
  return (
    <div class="stack">
      <p role="status">{counts.join(', ')}</p>
      {lists.slice(0, MOST_SHOWN).map((list) => (
        <List key={list.line} list={list} />
      ))}
      {lists.length > MOST_SHOWN && <p class="soft">And {lists.length - MOST_SHOWN} more lists.</p>}
      <section class="stack" aria-labelledby="paper-questions">
        <h3 id="paper-questions">Questions of the lists ({questions.length})</h3>
        <ol class="stack">
          {questions.slice(0, MOST_SHOWN).map(({ line, text, at }) => (
            <li key={`${at.file} ${at.line}`}>
              <button type="button" class="plain" onClick={() => show(line)}>
                Line {line}
              </button>{' '}
              {text}
              <div class="soft small">
                {at.file}, line {at.line}
              </div>
            </li>
          ))}
        </ol>
        {questions.length > MOST_SHOWN && (
          <p class="soft">And {questions.length - MOST_SHOWN} more, marked in the files.</p>
        )}
      </section>
      <Problems title="What the check says" problems={problems} />
    </div>
  )
}

/** More than this many rows are no help on a screen, and slow to lay out. */
const MOST_SHOWN = 200

const counted = (count: number, what: string) => `${count} ${what}${count === 1 ? '' : 's'}`

function List({ list: { name, cautions, notes, items } }: { readonly list: DraftedList }) {
  return (
    <section class="stack" aria-label={`List ${name}`}>
      <h3 class="cap">{name}</h3>
      <Remarks cautions={cautions} notes={notes} />
      <ul class="values">
        {items.slice(0, MOST_SHOWN).map((item, index) => (
          <Item key={index} item={item} />
        ))}
      </ul>
      {items.length > MOST_SHOWN && <p class="soft">And {items.length - MOST_SHOWN} more.</p>}
    </section>
  )
}

function Remarks({ cautions, notes }: Pick<DraftedItem, 'cautions' | 'notes'>) {
  return (
    <>
      {cautions.map((text) => (
        <p key={text} class="small">
          Caution: {text}
        </p>
      ))}
      {notes.map((text) => (
        <p key={text} class="small soft">
          Note: {text}
        </p>
      ))}
    </>
  )
}

function Item({ item: { challenge, answer, isAsked, cautions, notes } }: { readonly item: DraftedItem }) {
  return (
    <li>
      <Remarks cautions={cautions} notes={[]} />
      <p class="head-line">
        <span class="cap">{challenge}</span>
        <span>
          {isAsked && (
            <>
              <Mark name="arrow" /> <span class="small soft">to settle: </span>
            </>
          )}
          {answer}
        </span>
      </p>
      <Remarks cautions={[]} notes={notes} />
    </li>
  )
}

/** Selects the line and brings it into view. Lines are not wrapped, so each has the same height. */
function showLine(paper: HTMLTextAreaElement, line: number): void {
  const lines = paper.value.split('\n')
  const start = lines.slice(0, line - 1).reduce((sum, one) => sum + one.length + 1, 0)
  paper.focus()
  paper.setSelectionRange(start, start + (lines[line - 1]?.length ?? 0))
  paper.scrollTop = (paper.scrollHeight / lines.length) * Math.max(0, line - 4)
  paper.scrollLeft = 0
}
