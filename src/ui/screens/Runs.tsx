/** The runs that this browser keeps: found, opened, deleted, taken out and brought in. */

import { useEffect, useState } from 'preact/hooks'
import { filtered, NO_FILTER } from '../../app/runs/runsView.ts'
import { ImportRuns } from '../parts/runs/ImportRuns.tsx'
import { RunFilters } from '../parts/runs/RunFilters.tsx'
import { RunRow } from '../parts/runs/RunRow.tsx'
import { RunsNews } from '../parts/runs/RunsNews.tsx'
import { RunsRoom } from '../parts/runs/RunsRoom.tsx'
import { useActions, useApp } from '../useApp.ts'

/** Rows that are on the page at once, and come with each further press. */
const ROWS = 100

export function Runs() {
  const list = useApp((state) => state.runs.list)
  const actions = useActions()
  const [filter, setFilter] = useState(NO_FILTER)
  const [most, setMost] = useState(ROWS)
  useEffect(() => void actions.readRuns(), [actions])
  const found = filtered(list ?? [], filter)
  const change = (next: typeof filter) => {
    setFilter(next)
    setMost(ROWS)
  }
  return (
    <main class="page narrow stack wide">
      <div class="stack">
        <h1 tabIndex={-1}>Runs</h1>
        <RunsNews />
      </div>
      <section class="stack" aria-labelledby="runs-kept">
        <h2 id="runs-kept">Kept in this browser</h2>
        {list?.length === 0 && <p class="soft">None yet. A run is kept from its first event on.</p>}
        {list && list.length > 0 && (
          <>
            <RunFilters runs={list} filter={filter} onChange={change} />
            <p class="small soft" role="status">
              {found.length === list.length ? counted(list.length) : `${found.length} of ${counted(list.length)}`}
            </p>
            <ul class="runs">
              {found.slice(0, most).map((run) => (
                <RunRow key={run.runId} run={run} />
              ))}
            </ul>
            {found.length > most && (
              <div>
                <button type="button" onClick={() => setMost(most + ROWS)}>
                  Show {Math.min(ROWS, found.length - most)} more
                </button>
              </div>
            )}
          </>
        )}
      </section>
      <ImportRuns />
      <RunsRoom />
    </main>
  )
}

const counted = (count: number) => (count === 1 ? '1 run' : `${count} runs`)
