/** What came of the last thing done to runs, and the way back from a deletion. */

import { useEffect, useRef } from 'preact/hooks'
import { useActions, useApp } from '../../useApp.ts'
import { UndoLine } from '../shell/UndoLine.tsx'

export function RunsNews() {
  const told = useApp((state) => state.runs.told)
  const wrong = useApp((state) => state.runs.wrong)
  const busy = useApp((state) => state.runs.busy)
  const news = useRef<HTMLDivElement>(null)
  // What was done may have been asked for further down.
  useEffect(() => {
    if (told.length + wrong.length > 0) news.current?.scrollIntoView?.({ block: 'nearest' })
  }, [told, wrong])
  return (
    <div ref={news} class="pack-news">
      <div role="alert">
        {wrong.length > 0 && (
          <ul class="notice">
            {wrong.map((line) => (
              <li key={line}>{line}</li>
            ))}
          </ul>
        )}
      </div>
      <div role="status">
        {busy !== '' && <p>{busy}</p>}
        {told.map((line) => (
          <p key={line}>{line}</p>
        ))}
      </div>
      <Undo />
    </div>
  )
}

function Undo() {
  const undoable = useApp((state) => state.runs.undoable)
  const actions = useActions()
  return <UndoLine undoable={undoable} undo={() => void actions.undoDelete()} />
}
