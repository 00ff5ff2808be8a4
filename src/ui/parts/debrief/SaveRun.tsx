/** A run taken out of the browser: whole, as a table, or as its bare log. */

import { useActions, useApp } from '../../useApp.ts'
import { saveFile } from '../shell/saveFile.ts'

export function SaveRun({ runId }: { readonly runId: string }) {
  const actions = useActions()
  const opened = useApp((state) => state.runs.opened)
  const save = async (form: 'zip' | 'csv') => {
    const file = await actions.saveRun(runId, form)
    if (file) saveFile(file.name, file.content)
  }
  return (
    <>
      {opened?.runId === runId && opened.wrong !== '' && (
        <p class="notice">
          <strong>The log is not whole.</strong> It is told up to here: {opened.wrong}.
        </p>
      )}
      <div class="row no-print">
        <button type="button" class="first" onClick={() => void save('zip')}>
          Save the run
        </button>
        <button
          type="button"
          onClick={() => void actions.exportLog(runId).then((text) => saveFile(`${runId}.jsonl`, text))}
        >
          Save the log
        </button>
        <button type="button" onClick={() => void save('csv')}>
          Save as CSV
        </button>
      </div>
    </>
  )
}
