/** What must be known on every screen: that the log cannot be kept. */

import { useActions, useApp } from '../../useApp.ts'
import { saveFile } from './saveFile.ts'

export function Banners() {
  const storage = useApp((state) => state.storage)
  const runId = useApp((state) => state.run?.runId)
  const actions = useActions()
  if (storage.kept) return <div />
  const save = async () => {
    if (runId !== undefined) saveFile(`${runId}.jsonl`, await actions.exportLog(runId))
  }
  return (
    <div class="banner row" role="alert">
      <span>
        <strong>The log cannot be kept.</strong> {storage.message} The run goes on, but its log is lost when this page
        closes: save it as a file.
      </span>
      {runId !== undefined && (
        <button type="button" class="first" onClick={() => void save()}>
          Save the log as a file
        </button>
      )}
    </div>
  )
}
