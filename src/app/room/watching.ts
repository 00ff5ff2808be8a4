/** An instructor's side: the log of a trainee, replayed on the trainee's own pack as it comes in, into a store like that of the trainee's page. */

import type { Pack } from '../../kernel/pack/checklist.ts'
import { emptyRun } from '../../kernel/run/core/emptyRun.ts'
import type { RunEvent } from '../../kernel/run/core/events.ts'
import { readEvents } from '../../kernel/run/core/readLog.ts'
import { step } from '../../kernel/run/core/step.ts'
import type { EarState, RoomEntries } from '../../ports.ts'
import { type LogEntry, logKey, parsed } from '../../room/entries.ts'
import { answerAfter } from '../run/lastAnswer.ts'
import { revisionsAfter } from '../run/revision.ts'
import { packOf } from '../run/storedRun.ts'
import type { Store } from '../store.ts'

export interface Watching {
  /** Of the run that is shown. */
  events(): readonly RunEvent[]
  leave(): void
}

const EARS: ReadonlySet<unknown> = new Set<EarState>([
  ...(['off', 'loading', 'shut', 'guard', 'open', 'hearing', 'failed'] as const),
])

/** `store` is shown what the trainee's page shows of the run that was begun last. */
export function watchLog(log: RoomEntries, store: Store): Watching {
  let events: RunEvent[] = []
  let pack: Pack | undefined
  let isReading = false

  async function read(): Promise<void> {
    if (isReading) return
    isReading = true
    try {
      const runId = lastRun(log)
      if (runId !== undefined && runId !== events[0]?.runId) await begin(runId)
      if (pack) goOn(pack)
    } finally {
      isReading = false
    }
    // Another run was begun while the pack of this one was read.
    if (lastRun(log) !== events[0]?.runId && entryAt(lastRun(log) ?? '', 0)) void read()
  }

  const entryAt = (runId: string, seq: number) => {
    const text = log.all().get(logKey(runId, seq))
    return text === undefined ? undefined : (parsed(text) as LogEntry)
  }

  async function begin(runId: string): Promise<void> {
    const first = entryAt(runId, 0)?.event
    if (first?.type !== 'runStarted') return
    const read = await packOf(first)
    pack = 'why' in read ? undefined : read
    events = []
    store.setState({
      ...{ pack, run: pack && emptyRun(runId), revisions: [], answered: undefined },
      blocked: 'why' in read ? { runId, because: 'unreadable', message: read.why } : undefined,
    })
  }

  /** As far as the log has come without a gap. An event that is none ends it: what follows cannot be told. */
  function goOn(ground: Pack): void {
    let { run = emptyRun(''), revisions, answered } = store.getState()
    const fresh: RunEvent[] = []
    for (let entry = entryAt(run.runId, events.length); entry; entry = entryAt(run.runId, events.length + fresh.length))
      fresh.push(entry.event)
    if (fresh.length === 0) return
    const read = readEvents([...events, ...fresh])
    let wrong = read.problem?.message
    for (const event of read.events.slice(events.length)) {
      try {
        const { state } = step(ground, run, event)
        const replayed = { before: run, event, state }
        revisions = revisionsAfter(ground, revisions, replayed)
        answered = answerAfter(ground, answered, replayed)
        run = state
        events.push(event)
      } catch (error) {
        wrong = error instanceof Error ? error.message : String(error)
        break
      }
    }
    const { runId } = run
    store.setState({
      run,
      revisions,
      answered,
      ...(wrong && { blocked: { runId, because: 'unreadable', message: wrong } }),
    })
  }

  function hearOfEar(): void {
    const [told] = log.others().filter((one): one is { ear: EarState } => 'ear' in one && EARS.has(one.ear))
    const state = told?.ear ?? 'off'
    const { ear, writer } = store.getState()
    const isAway = told === undefined
    if (ear.state !== state || (writer === 'elsewhere') !== isAway)
      store.setState({ ear: { ...ear, state }, writer: isAway ? 'elsewhere' : 'here' })
  }

  const changed = () => {
    hearOfEar()
    void read()
  }
  changed()
  const leave = log.subscribe(changed)
  return { events: () => events, leave }
}

/** The run that was begun last. */
function lastRun(log: RoomEntries): string | undefined {
  let last: { readonly runId: string; readonly wall: string } | undefined
  for (const key of log.all().keys()) {
    const [runId = '', seq] = key.split('/')
    if (seq !== '0') continue
    const { wall } = (parsed(log.all().get(key) ?? '') as LogEntry).event
    if (!last || wall > last.wall) last = { runId, wall }
  }
  return last?.runId
}
