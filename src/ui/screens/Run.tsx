/** The run: one thing at a time, large; what was heard of it; the list with its place. Expected values never stand here. */

import { useMemo } from 'preact/hooks'
import { viewOf } from '../../app/view/view.ts'
import { Demonstration } from '../parts/demonstration/Demonstration.tsx'
import { OnTable } from '../parts/papers/OnTable.tsx'
import { BackAgain } from '../parts/run/BackAgain.tsx'
import { BriefingPanel } from '../parts/run/BriefingPanel.tsx'
import { Challenge } from '../parts/run/Challenge.tsx'
import { Clocks } from '../parts/run/Clocks.tsx'
import { EarStrip } from '../parts/run/EarStrip.tsx'
import { ExchangePanel } from '../parts/run/ExchangePanel.tsx'
import { FlowSteps } from '../parts/run/FlowSteps.tsx'
import { Heard } from '../parts/run/Heard.tsx'
import { ItemList } from '../parts/run/ItemList.tsx'
import { ListOverview } from '../parts/run/ListOverview.tsx'
import { RunButtons } from '../parts/run/RunButtons.tsx'
import { SmallWindow } from '../parts/run/SmallWindow.tsx'
import { TypedAnswer } from '../parts/run/TypedAnswer.tsx'
import { WatchPanel } from '../parts/run/WatchPanel.tsx'
import { useActions, useApp } from '../useApp.ts'

export function Run() {
  const pack = useApp((state) => state.pack)
  const run = useApp((state) => state.run)
  const actions = useActions()
  const view = useMemo(() => (pack && run && run.status !== 'none' ? viewOf(pack, run) : undefined), [pack, run])
  if (!pack || !run || !view) {
    return (
      <main class="page narrow stack">
        <h1 tabIndex={-1}>No run yet</h1>
        <p>A run begins with the figures of this departure.</p>
        <div>
          <button type="button" class="first" onClick={() => actions.show(pack ? 'figures' : 'start')}>
            {pack ? 'Enter the figures' : 'Choose a pack'}
          </button>
        </div>
      </main>
    )
  }
  if (run.demonstration) return <Demonstration pack={pack} run={run} view={view} />
  return (
    <>
      <main class="page run">
        <div class="here">
          <Challenge view={view} />
          <BackAgain back={view.back} />
          {view.kind === 'flow' && <FlowSteps steps={view.steps} hidden={view.hiddenSteps} />}
          {view.watch && <WatchPanel watch={view.watch} />}
          <Clocks clocks={view.clocks} frozenAt={view.frozenAt} />
          {view.exchange && <ExchangePanel exchange={view.exchange} />}
          {view.briefing && <BriefingPanel briefing={view.briefing} />}
          <Heard pack={pack} run={run} exchange={view.exchange} />
          <div class="row">
            <SmallWindow view={view} />
            <button type="button" class="plain" onClick={() => actions.demonstrate(true)}>
              Show it to a room
            </button>
          </div>
        </div>
        <OnTable />
        <aside class="stack wide" aria-label="Place in the procedure">
          <ItemList name={view.listName} entries={view.entries} />
          <ListOverview lists={view.lists} />
        </aside>
      </main>
      <div class="dock">
        <RunButtons buttons={view.buttons} />
        <TypedAnswer listenId={view.listenId} />
        <EarStrip />
      </div>
    </>
  )
}
