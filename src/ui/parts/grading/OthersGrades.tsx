/** What another instructor gave, brought in from a file. */

import { useActions } from '../../useApp.ts'
import { chosenFiles, droppedFiles } from '../packs/handedFiles.ts'
import { DropArea } from '../shell/DropArea.tsx'

export function OthersGrades() {
  const actions = useActions()
  return (
    <DropArea onFiles={(data) => void droppedFiles(data).then(actions.importGrades)}>
      <div class="field">
        <label for="others-grades">
          Choose another instructor’s grades of this run, or drop them here: the .json saved on this screen, or the zip
          saved in a room
        </label>
        <input
          id="others-grades"
          type="file"
          accept=".json,.zip"
          onChange={(event) => {
            const field = event.currentTarget
            void actions.importGrades(chosenFiles([...(field.files ?? [])])).then(() => {
              // The same file can be chosen again.
              field.value = ''
            })
          }}
        />
      </div>
    </DropArea>
  )
}
