/** A pack brought in: files chosen, dropped or pasted. */

import { useState } from 'preact/hooks'
import { useActions } from '../../useApp.ts'
import { DropArea } from '../shell/DropArea.tsx'
import { chosenFiles, droppedFiles } from './handedFiles.ts'

export function ImportPack() {
  const actions = useActions()
  return (
    <section class="stack" aria-labelledby="import-pack">
      <h2 id="import-pack">Import a pack</h2>
      <p>
        One zip of its folder, or its YAML files together: pack.yaml, figures.yaml, procedures.yaml, and tables.yaml,
        papers.yaml, grading.yaml and the sheets of inputs where it has them. Nothing leaves this browser.
      </p>
      <DropArea onFiles={(data) => void droppedFiles(data).then(actions.importPack)}>
        <div class="field">
          <label for="pack-files">Choose files, or drop them or their folder here</label>
          <input
            id="pack-files"
            type="file"
            multiple
            accept=".zip,.yaml,.yml"
            onChange={(event) => {
              const field = event.currentTarget
              void actions.importPack(chosenFiles([...(field.files ?? [])])).then(() => {
                // The same file can be chosen again.
                field.value = ''
              })
            }}
          />
        </div>
        <Paste />
      </DropArea>
    </section>
  )
}

function Paste() {
  const actions = useActions()
  const [text, setText] = useState('')
  const read = async () => {
    await actions.pastePack(text)
    setText('')
  }
  return (
    <details>
      <summary>Paste files, or the text of one</summary>
      <div class="stack">
        <div class="field">
          <label for="pack-text">YAML of one file, or of several under headings: ==&gt; pack.yaml &lt;==</label>
          <textarea
            id="pack-text"
            class="code"
            rows={6}
            spellcheck={false}
            value={text}
            onInput={(event) => setText(event.currentTarget.value)}
            onPaste={(event) => {
              const files = [...(event.clipboardData?.files ?? [])]
              if (files.length === 0) return
              event.preventDefault()
              void actions.importPack(chosenFiles(files))
            }}
          />
        </div>
        <div>
          <button type="button" disabled={text.trim() === ''} onClick={() => void read()}>
            Import the text
          </button>
        </div>
      </div>
    </details>
  )
}
