/** A whole load sheet at once: pasted, dropped or opened as YAML, JSON or CSV. */

import { useState } from 'preact/hooks'
import { useActions, useApp } from '../../useApp.ts'

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
  const [text, setText] = useState('')
  const [isOver, setOver] = useState(false)
  const open = async (file: File | null | undefined) => {
    if (file) await actions.readInputs(await file.text(), file.name)
  }
  return (
    <details>
      <summary>Paste, drop or open a load sheet</summary>
      {/* biome-ignore lint/a11y/noStaticElementInteractions: dropping is the pointer's shortcut for the file field inside */}
      <div
        class={`drop stack ${isOver ? 'over' : ''}`}
        onDragOver={(event) => {
          event.preventDefault()
          setOver(true)
        }}
        onDragLeave={() => setOver(false)}
        onDrop={(event) => {
          event.preventDefault()
          setOver(false)
          void open(event.dataTransfer?.files[0])
        }}
      >
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
      </div>
    </details>
  )
}

/** Load sheets that come with the pack. */
function Examples() {
  const examples = useApp((state) => state.examples)
  const actions = useActions()
  const names = Object.keys(examples)
  if (names.length === 0) return null
  return (
    <fieldset class="row">
      <legend class="small">Use a load sheet from the pack</legend>
      {names.map((name) => (
        <button key={name} type="button" onClick={() => void actions.readInputs(examples[name] ?? '', name)}>
          {name.replace(/\.\w+$/, '')}
        </button>
      ))}
    </fieldset>
  )
}
