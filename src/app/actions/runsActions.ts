/** The runs that this browser keeps: listed, opened, deleted, taken out as files and brought in. */

import { isAccountDue, type RunSummary } from '../../kernel/run/core/summary.ts'
import type { SiteStorage, SoundShelf, StoredRun, TextCache } from '../../ports.ts'
import type { ControllerParts, RunController } from '../run/controller.ts'
import { findUnfinished } from '../run/unfinished.ts'
import type { KeptSounds } from '../runs/keptSounds.ts'
import type { RunReader } from '../runs/runRead.ts'
import type { RunsState } from '../runs/runsState.ts'
import { hasRunOn } from '../selectors.ts'
import type { RunsActions } from './actions.ts'
import type { ShowDebrief } from './debriefActions.ts'

export interface RunsActionParts extends Pick<ControllerParts, 'store' | 'log' | 'lock' | 'clock' | 'openHere'> {
  readonly siteStorage: SiteStorage
  readonly soundShelf: Pick<SoundShelf, 'put' | 'numbers'>
  readonly stops: Pick<TextCache, 'get' | 'put'>
  readonly keptSounds: Pick<KeptSounds, 'all' | 'take' | 'bringBack' | 'forget'>
}

/** Accounts that are made before the list is shown anew. */
const AT_ONCE = 10

export function runsActions(
  parts: RunsActionParts,
  controller: Pick<RunController, 'session'>,
  showDebriefOf: ShowDebrief,
): RunsActions {
  const { store, log, lock, clock, siteStorage, keptSounds } = parts
  let reader: RunReader | undefined
  let deleted: StoredRun | undefined
  let reading = 0
  let isImporting = false

  const show = (change: Partial<RunsState>) => store.setState(({ runs }) => ({ runs: { ...runs, ...change } }))
  const refuse = (line: string) => show({ wrong: [line], told: [] })
  const runOn = () => controller.session()?.state().runId

  /** Reading logs is for this screen alone. */
  async function readerOf(): Promise<RunReader> {
    reader ??= (await import('../runs/runRead.ts')).createRunReader()
    return reader
  }

  async function readRuns(): Promise<void> {
    reading += 1
    const mine = reading
    const list = await log.runs()
    show({ list })
    await showSpace()
    await makeAccounts(list, () => mine === reading)
  }

  async function showSpace(): Promise<void> {
    const [room, isKept] = await Promise.all([siteStorage.room(), siteStorage.isKept()])
    show({ space: { room, kept: isKept === undefined ? 'unknown' : isKept ? 'yes' : 'no' } })
  }

  /** Of runs without one, or that went on since: newest first, each a moment's work. */
  async function makeAccounts(list: readonly RunSummary[], isWanted: () => boolean): Promise<void> {
    let made = new Map<string, RunSummary>()
    const showMade = () => {
      const ready = made
      made = new Map()
      show({ list: store.getState().runs.list?.map((run) => ready.get(run.runId) ?? run) })
    }
    for (const run of list.filter(isAccountDue)) {
      if (!isWanted()) return
      const { summaryOf } = await readerOf()
      const summary = await summaryOf(await log.read(run.runId))
      if (!summary) continue
      const next = { ...summary, ended: run.ended || summary.ended }
      await log.keepSummary(next).catch(() => undefined)
      made.set(run.runId, next)
      if (made.size >= AT_ONCE) showMade()
    }
    if (made.size > 0 && isWanted()) showMade()
  }

  async function valuesOf(runId: string): Promise<readonly unknown[]> {
    const session = controller.session()
    return session?.state().runId === runId ? session.events() : log.read(runId)
  }

  return {
    readRuns,
    async openRun(runId) {
      const session = controller.session()
      const { read } = await readerOf()
      const run = await read(await valuesOf(runId))
      if ('why' in run) {
        refuse(`The run cannot be shown: ${run.why}.`)
        return store.setState({ screen: 'runs' })
      }
      // One that may be gone on with keeps to itself what would be right at what is open.
      const mayGoOn = async () => (await log.runs()).some((one) => one.runId === runId && !one.ended)
      const isUnderWay = session?.state().runId === runId ? session.state().status === 'running' : await mayGoOn()
      show({ wrong: [], told: [] })
      showDebriefOf(run.pack, run.events, isUnderWay, { runId, wrong: run.wrong })
    },
    async deleteRun(runId) {
      if ((runOn() === runId && hasRunOn(store.getState())) || (await lock.isHeld(runId))) {
        return refuse('This run is on, here or in another tab: end it first.')
      }
      const taken = await log.take(runId)
      // Gone already: a second click must not take the way back.
      if (!taken) return readRuns()
      deleted = taken
      const wrong = await keptSounds.take(runId)
      show({ undoable: `The run of ${taken.summary.pack} was deleted.`, wrong: linesOf(wrong), told: [] })
      if (store.getState().debrief?.runId === runId) {
        store.setState({ debrief: undefined, debriefed: undefined })
        show({ opened: undefined })
      }
      await showUnfinished(runId)
      await readRuns()
    },
    async undoDelete() {
      if (!deleted) return
      const run = deleted
      deleted = undefined
      show({ undoable: '' })
      try {
        await log.put(run)
        show({ wrong: linesOf(await keptSounds.bringBack(run.summary.runId)) })
      } catch (error) {
        deleted = run
        show({ undoable: `The run of ${run.summary.pack} was deleted.` })
        refuse(error instanceof Error ? error.message : String(error))
      }
      await showUnfinished(run.summary.runId)
      await readRuns()
    },
    async importRuns(files) {
      if (isImporting || files.length === 0) return
      isImporting = true
      try {
        const { importRuns } = await import('../runs/runImport.ts')
        const tell = (done: number, of: number) => show({ busy: `Reading run ${done + 1} of ${of}` })
        show({ told: [], wrong: [] })
        const sounds = parts.soundShelf
        show(await importRuns({ log, lock, sounds, stops: parts.stops, reader: await readerOf(), tell }, files))
        // What was deleted may have come back in a file.
        if (deleted && (await log.read(deleted.summary.runId)).length > 0) {
          deleted = undefined
          keptSounds.forget()
          show({ undoable: '' })
        }
      } finally {
        isImporting = false
        show({ busy: '' })
      }
      await readRuns()
    },
    async saveRun(runId, form) {
      const [{ zippedRun, csvOfRun }, { read, summaryOf }] = await Promise.all([
        import('../runs/runFiles.ts'),
        readerOf(),
      ])
      const values = await valuesOf(runId)
      const summary = await summaryOf(values)
      const run = form === 'csv' ? await read(values) : undefined
      if (summary && form === 'zip') {
        const sounds = await keptSounds.all(runId)
        if (!sounds) refuse('The sound of the run could not be read; the file has the rest.')
        return zippedRun(values, summary, clock.now(), { sounds, stops: await parts.stops.get(runId) })
      }
      if (summary && run && !('why' in run)) return csvOfRun(run.pack, run.events, summary)
      refuse(`The run cannot be saved in this form: ${run && 'why' in run ? run.why : 'its log has no beginning'}.`)
      return undefined
    },
    async saveAllRuns() {
      const { zippedRuns } = await import('../runs/runFiles.ts')
      const list = await log.runs()
      const tell = (done: number) => show({ busy: `Packing run ${done} of ${list.length}` })
      try {
        const saved = await zippedRuns(
          { log, soundsOf: keptSounds.all, stopsOf: parts.stops.get, tell },
          list,
          clock.now(),
        )
        if (saved.silent > 0) refuse(silentWords(saved.silent))
        return saved
      } finally {
        show({ busy: '' })
      }
    },
    async keepRuns() {
      const isKept = await siteStorage.keep()
      const { space } = store.getState().runs
      show({ space: { ...space, kept: isKept === undefined ? 'unknown' : isKept ? 'yes' : 'refused' } })
    },
  }

  /** What the start screen offers, after the run was deleted or came back. */
  async function showUnfinished(runId: string): Promise<void> {
    const { unfinished, run } = store.getState()
    if (run || (unfinished && unfinished.runId !== runId)) return
    store.setState({ unfinished: undefined, blocked: undefined })
    const found = await findUnfinished(log, parts.openHere.get())
    if (found) store.setState({ ...found, needsGesture: false })
  }
}

const linesOf = (line: string) => (line === '' ? [] : [line])

const silentWords = (count: number) =>
  `The archive is without the sound of ${count === 1 ? '1 run' : `${count} runs`}: it cannot be read, or there is no more room. Save ${count === 1 ? 'it by itself' : 'these by themselves'}.`
