/** Something broke: what is known of it, the log to save, and the way on. Nothing is sent. */

import { useState } from 'preact/hooks'
import type { Broken } from '../../../app/broken.ts'
import { useActions, useApp } from '../../useApp.ts'
import { saveFile } from './saveFile.ts'

/** In place of the screen, which is no more. */
export function BrokenScreen({ broken }: { readonly broken: Broken }) {
  return (
    <main class="page narrow stack wide">
      <h1 tabIndex={-1}>Something broke</h1>
      <p role="alert">{broken.message}</p>
      <p>A run is kept up to its last event. Reload the page to go on from there.</p>
      <Ways />
      <Details broken={broken} />
    </main>
  )
}

/** Above the screen, which is still there. */
export function BrokenBanner() {
  const broken = useApp((state) => state.broken)
  const actions = useActions()
  if (!broken) return null
  return (
    <div class="banner" role="alert">
      <p>
        <strong>Something broke.</strong> {broken.message} A run is kept up to its last event: reload the page if
        something does not answer any more.
      </p>
      <Ways onHide={() => actions.hideBroken()} />
      <Details broken={broken} />
    </div>
  )
}

function Ways({ onHide }: { readonly onHide?: () => void }) {
  const runId = useApp((state) => state.run?.runId ?? state.unfinished?.runId)
  const actions = useActions()
  const [unsaved, setUnsaved] = useState(false)
  const save = (id: string) =>
    actions.exportLog(id).then(
      (text) => saveFile(`${id}.jsonl`, text),
      () => setUnsaved(true),
    )
  return (
    <div class="row">
      <button type="button" class="first" onClick={() => globalThis.location.reload()}>
        Reload the page
      </button>
      {runId !== undefined && (
        <button type="button" onClick={() => void save(runId)}>
          Save the log as a file
        </button>
      )}
      {onHide && (
        <button type="button" onClick={onHide}>
          Hide this
        </button>
      )}
      {unsaved && <span role="status">The log could not be read. It is still where it was: reload, then save it.</span>}
    </div>
  )
}

function Details({ broken: { details } }: { readonly broken: Broken }) {
  if (details === '') return null
  return (
    <details>
      <summary>For whoever mends it (nothing is sent)</summary>
      <pre class="broken">{details}</pre>
    </details>
  )
}
