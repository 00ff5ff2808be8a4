/** Runs out as one archive, and in from files. */

import { useActions, useApp } from '../../useApp.ts'
import { chosenFiles, droppedFiles } from '../packs/handedFiles.ts'
import { DropArea } from '../shell/DropArea.tsx'
import { saveFile } from '../shell/saveFile.ts'

export function ImportRuns() {
  const actions = useActions()
  const isBusy = useApp((state) => state.runs.busy !== '')
  const hasRuns = useApp((state) => (state.runs.list?.length ?? 0) > 0)
  const saveAll = async () => {
    const { name, content } = await actions.saveAllRuns()
    saveFile(name, content)
  }
  return (
    <section class="stack" aria-labelledby="runs-files">
      <h2 id="runs-files">Save and import</h2>
      <p>
        The archive holds every run with the pack that it was flown on. Brought in here or on another machine, it adds
        what is missing, and doubles nothing.
      </p>
      <div>
        <button type="button" class="first" disabled={isBusy || !hasRuns} onClick={() => void saveAll()}>
          Save all runs as one archive
        </button>
      </div>
      <DropArea onFiles={(data) => void droppedFiles(data).then(actions.importRuns)}>
        <div class="field">
          <label for="run-files">Choose archives, saved runs or logs, or drop them here</label>
          <input
            id="run-files"
            type="file"
            multiple
            accept=".zip,.jsonl"
            disabled={isBusy}
            onChange={(event) => {
              const field = event.currentTarget
              void actions.importRuns(chosenFiles([...(field.files ?? [])])).then(() => {
                // The same file can be chosen again.
                field.value = ''
              })
            }}
          />
        </div>
      </DropArea>
    </section>
  )
}
