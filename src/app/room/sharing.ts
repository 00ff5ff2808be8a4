/**
 * A trainee's side of a room: the events of the run go to the log of the seat as they are stored, and what the instructor has
 * released happens in the run, once. The run waits for neither; its own log stays the only truth.
 */

import type { Pack } from '../../kernel/pack/checklist.ts'
import type { RunState } from '../../kernel/run/core/state.ts'
import type { Clock, RoomDocuments } from '../../ports.ts'
import { type LogEntry, logKey, type Order, parsed, type RoomGrade, type RoomMark } from '../../room/entries.ts'
import type { RunSession } from '../run/session.ts'
import type { Store } from '../store.ts'

export interface SharingParts {
  readonly store: Store
  readonly session: () => RunSession | undefined
  readonly clock: Clock
  readonly documents: RoomDocuments
  readonly seat: string
  /** What the instructor lets the trainee see. */
  readonly marked: (marks: readonly RoomMark[], grades: readonly RoomGrade[]) => void
}

/** Returns its undoing. */
export function share({ store, session, clock, documents, seat, marked }: SharingParts): () => void {
  const log = documents.open({ kind: 'log', seat })
  const orders = documents.open({ kind: 'orders', seat })
  let sent: { readonly runId: string; readonly count: number } = { runId: '', count: 0 }

  function send(): void {
    const run = session()
    const [first] = run?.events() ?? []
    if (!run || !first) return
    const events = run.events()
    const from = sent.runId === first.runId ? sent.count : 0
    for (const [index, event] of events.entries()) {
      if (index < from) continue
      const isLast = index === events.length - 1
      const entry: LogEntry = { event, ...(isLast && { at: placesOf(run.pack, run.state()) }) }
      log.add(logKey(event.runId, event.seq), JSON.stringify(entry))
    }
    sent = { runId: first.runId, count: events.length }
    obey()
  }

  function obey(): void {
    const all = orders.all()
    const run = session()
    const marks: RoomMark[] = []
    const grades: RoomGrade[] = []
    for (const key of all.keys()) {
      const entry = parsed(all.get(key) ?? '')
      if (key.startsWith('mark/')) marks.push(entry as RoomMark)
      else if (key.startsWith('grade/')) grades.push(entry as RoomGrade)
      else if (run) follow(run, entry as Order)
    }
    if (marks.length + grades.length > 0) marked(marks, grades)
  }

  function follow(run: RunSession, { id, runId, by, given, what }: Order): void {
    const isNew = (state: RunState) =>
      state.runId === runId && state.status === 'running' && !state.injected?.some(({ order }) => order === id)
    if (!isNew(run.state())) return
    void run.happen((state) => (isNew(state) ? { type: 'injected', order: id, by, given, what } : undefined))
    if (what.kind !== 'deaf') return
    clock.after((what.seconds ?? 0) * 1_000, () =>
      run.happen((state) => (state.isDeafened ? { type: 'earBack' } : undefined)),
    )
  }

  function tellEar(): void {
    const { ear, run } = store.getState()
    log.present({ ear: run?.isDeafened ? 'failed' : ear.state })
  }

  let last = store.getState()
  tellEar()
  send()
  const leaving = [
    orders.subscribe(obey),
    store.subscribe((state) => {
      const before = last
      last = state
      if (state.run !== before.run) send()
      if (state.ear.state !== before.ear.state || state.run?.isDeafened !== before.run?.isDeafened) tellEar()
    }),
  ]
  return () => {
    for (const leave of leaving) leave()
  }
}

/** The pack's ids of where the run is: the item, and the list or activity around it. */
export function placesOf({ phases }: Pack, { floor }: RunState): readonly string[] {
  if (floor.at === 'item') return [floor.item, floor.list]
  if (floor.at === 'line') return [floor.line, floor.list]
  if (floor.at === 'end') return []
  const id = phases[floor.phase]?.activities[floor.activity]?.id
  return id === undefined ? [] : [id]
}
