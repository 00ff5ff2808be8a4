/** A whole load sheet at once: pasted, dropped or opened as YAML, JSON or CSV. */

import { useState } from 'preact/hooks'
import { packHasPapers } from '../../../app/selectors.ts'
import { STATUSES } from '../../../kernel/figures/model.ts'
import { useActions, useApp } from '../../useApp.ts'
import { DropArea } from '../shell/DropArea.tsx'

/** By the look of it, since a paste has no name: braces are JSON, a first line with commas, semicolons or tabs and no colon is CSV. */
export function nameForPaste(text: string): string {
  const first = text.split('\n').find((line) => /^\s*[^#\s]/.test(line)) ?? ''
  if (/^\s*[{[]/.test(first)) return 'pasted.json'
  return /[,;\t]/.test(first) && !first.includes(':') ? 'pasted.csv' : 'pasted.yaml'
}

export function LoadSheet() {
  return (
    <div class="stack">
      <Examples />
      <OwnSheet />
    </div>
  )
}

function OwnSheet() {
  const actions = useActions()
  const hasPapers = useApp(packHasPapers)
  const [text, setText] = useState('')
  const open = async (file: File | null | undefined) => {
    if (file) await actions.readInputs(await file.text(), file.name)
  }
  return (
    <details>
      <summary>Paste, drop or open a load sheet</summary>
      <DropArea onFiles={({ files }) => void open(files[0])}>
        <div class="field">
          <label for="sheet">Load sheet as YAML, JSON or CSV</label>
          <textarea
            id="sheet"
            rows={5}
            spellcheck={false}
            value={text}
            onInput={(event) => setText(event.currentTarget.value)}
          />
        </div>
        <div class="row">
          <button
            type="button"
            disabled={text.trim() === ''}
            onClick={() => void actions.readInputs(text, nameForPaste(text))}
          >
            Read it
          </button>
          {hasPapers && (
            <button
              type="button"
              disabled={text.trim() === ''}
              onClick={() => void actions.readInputs(text, nameForPaste(text), 'lay')}
            >
              Lay it on the table
            </button>
          )}
        </div>
        <div class="field">
          <label for="sheet-file">Or open a file, or drop one here</label>
          <input
            id="sheet-file"
            type="file"
            accept=".yaml,.yml,.json,.csv"
            onChange={(event) => void open(event.currentTarget.files?.[0])}
          />
        </div>
      </DropArea>
    </details>
  )
}

/** Preliminary ones first; a file of another name comes last. */
const rank = (name: string) => {
  const at = STATUSES.findIndex((status) => name.startsWith(status))
  return at < 0 ? STATUSES.length : at
}

/** Load sheets that come with the pack. */
function Examples() {
  const examples = useApp((state) => state.examples)
  const laid = useApp(({ run, sheets }) => (run?.sheets ?? sheets).length)
  const hasPapers = useApp(packHasPapers)
  const actions = useActions()
  const names = Object.keys(examples).toSorted((one, other) => rank(one) - rank(other) || one.localeCompare(other))
  if (names.length === 0) return null
  return (
    <fieldset class="stack">
      <legend class="small">Sheets that come with the pack: read the paper and type from it, or take it over</legend>
      {names.map((name) => (
        <div key={name} class="row">
          <span class="cap">{name.replace(/\.\w+$/, '')}</span>
          {hasPapers && (
            <button type="button" onClick={() => void actions.readInputs(examples[name] ?? '', name, 'lay')}>
              Lay on the table
            </button>
          )}
          <button type="button" onClick={() => void actions.readInputs(examples[name] ?? '', name)}>
            Take over
          </button>
        </div>
      ))}
      <p role="status" class="soft small">
        {laid > 0 && `On the table: ${laid === 1 ? 'one sheet' : `${laid} sheets`}. Their papers are under Papers.`}
      </p>
    </fieldset>
  )
}
