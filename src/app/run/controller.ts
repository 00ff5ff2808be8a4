/**
 * The one run that a page may have on: begun, left and gone on with, ended, with its lock, its ear and its place in
 * the store. What happens inside it is the session's; what a screen asks for is in `actions/`.
 */

import { compute } from '../../kernel/figures/compute.ts'
import type { Inputs } from '../../kernel/figures/model.ts'
import { vocabularyOf } from '../../kernel/hearing/vocabulary.ts'
import type { Pack } from '../../kernel/pack/checklist.ts'
import { isError } from '../../kernel/problem.ts'
import type { RunEvent, RunSettings } from '../../kernel/run/core/events.ts'
import { nextDose } from '../../kernel/run/partner/dose.ts'
import type { PackFiles, RunArchive, RunLock } from '../../ports.ts'
import type { Settings } from '../settings.ts'
import { EMPTY_DRAFT, type RunBlocked, type Store } from '../store.ts'
import { eventsAgain } from './beginAgain.ts'
import { eventsBegunAt } from './beginAnywhere.ts'
import type { Beginning } from './beginning.ts'
import { figuresAnew } from './figuresAnew.ts'
import { fromSheet } from './revision.ts'
import { createSession, type RunSession, type SessionParts } from './session.ts'
import { showRun } from './showRun.ts'
import { newRun, type RunSoFar, readStoredRun, replayed } from './storedRun.ts'

export interface ControllerParts extends Omit<SessionParts, 'log' | 'settings'> {
  readonly store: Store
  readonly log: RunArchive
  readonly packFiles: PackFiles
  readonly lock: RunLock
  readonly newRunId: () => string
  /** A whole number by chance: what stations will say follows from it. */
  readonly newSeed: () => number
  /** Which run this tab had open, kept over a reload of the page. */
  readonly openHere: { get(): string | undefined; set(runId: string | undefined): void }
}

export interface Drill {
  /** Items of its pack -> the same in the whole one. */
  readonly items: Readonly<Record<string, string>>
  /** In place of those of the person. */
  readonly settings: Partial<RunSettings>
  /** Of read-backs alone. */
  readonly dial?: Beginning['dial']
}

export interface RunController {
  /** The run that is on. */
  session(): RunSession | undefined
  openPack(id: string): Promise<void>
  /** A new run on these figures; `drill`: a short one, on a pack that is cut down to what is due. */
  begin(pack: Pack, draft: Inputs, drill?: Drill): Promise<void>
  /** Goes on with a stored run, or says in the store what keeps it; `steal` takes it over from another tab. */
  goOn(runId: string, steal: boolean): Promise<void>
  /**
   * A new run that goes on from a place of another one, whose events up to that number it begins with; `anew`: on other
   * figures, where the pack has rules to draw them by.
   */
  again(pack: Pack, events: readonly RunEvent[], seq: number, anew?: boolean): Promise<void>
  /** Ends the run that is on, or a stored one that nobody holds; false where it cannot, and the store says why. */
  end(runId: string): Promise<boolean>
  openEar(): Promise<void>
}

export function createRunController(parts: ControllerParts): RunController {
  const { store, log, ear, packFiles, lock } = parts
  const sessionParts: SessionParts = { ...parts, settings: () => store.getState().settings }
  let session: RunSession | undefined
  let leaveStore = () => {}

  function close(): void {
    session?.close()
    leaveStore()
    session = undefined
  }

  function open(run: RunSoFar): RunSession {
    close()
    session = createSession(sessionParts, run)
    leaveStore = showRun(store, session)
    return session
  }

  async function hold(runId: string, steal: boolean): Promise<boolean> {
    const lost = () => {
      close()
      store.setState({ writer: 'elsewhere' })
    }
    const held = await lock.hold(runId, { steal, lost })
    if (held) parts.openHere.set(runId)
    return held
  }

  /** The run does not wait for the ear: typing and buttons work at once, and still work if it fails. */
  async function openEar(): Promise<void> {
    const { pack, settings } = store.getState()
    if (pack && settings.ear !== 'typing') await ear.open(vocabularyOf(pack))
  }

  function block(runId: string, because: RunBlocked['because'], message = ''): void {
    store.setState({ screen: 'start', blocked: { runId, because, message } })
  }

  async function readRun(runId: string): Promise<RunSoFar | undefined> {
    const run = await readStoredRun(log, runId)
    if (!('why' in run)) return run
    block(runId, 'unreadable', run.why)
    return undefined
  }

  async function goOnWith(run: RunSoFar, held: boolean): Promise<void> {
    const { pack, state, revisions } = run
    close()
    const draft = revisions.at(-1)?.inputs ?? EMPTY_DRAFT
    store.setState({
      ...{ pack, run: state, revisions, draft, past: [], preview: compute(pack.figures, draft) },
      ...{ screen: 'run', unfinished: undefined, blocked: undefined, writer: held ? 'here' : 'elsewhere' },
      chosen: undefined,
      examples: await packFiles.examples(pack.id, pack.sha256),
    })
    if (!held) return
    const resumed = open(run).resume()
    void openEar()
    await resumed
  }

  return {
    openEar,
    session: () => session,
    async openPack(id) {
      const { texts, sha256 } = await packFiles.load(id)
      // Reading YAML is a good part of the app, and the first screen needs none of it.
      const { readPack } = await import('../../packs/read.ts')
      const { pack, problems } = readPack(texts, sha256)
      const examples = await packFiles.examples(id)
      store.setState({ pack, chosen: id, problems: problems.filter(isError), examples })
      store.setState({ revisions: [], draft: EMPTY_DRAFT, past: [], preview: undefined })
      store.setState({ sheets: [], takenFrom: undefined, openPapers: [], hasPad: false, beginAt: undefined })
    },
    async begin(pack, inputs, drill) {
      const runId = parts.newRunId()
      const held = await hold(runId, false)
      store.setState({ writer: held ? 'here' : 'elsewhere' })
      if (!held) return
      const { settings, dealt, sheets, takenFrom, beginAt } = store.getState()
      const dial = drill?.dial
      const beginning: Beginning = {
        ...{ inputs, sheets, from: fromSheet(takenFrom, sheets) },
        // A departure that was drawn by its number has the same faults each time.
        settings: {
          ...runSettings(settings),
          ...(!dial && partnerSettings(settings, dealt ?? parts.newSeed())),
          // What is due is asked of the pilot.
          ...(drill && { ...drill.settings, readBacks: 'pilot' as const }),
        },
        ...(drill && { drill: drill.items }),
        ...(dealt !== undefined && { dealt }),
        ...(dial && { dial, stations: { seed: parts.newSeed() } }),
        ...(!dial && settings.stations && { stations: { seed: parts.newSeed(), slips: settings.wrongHearBacks } }),
      }
      if (beginAt !== undefined && !drill) {
        const begunAt = eventsBegunAt(pack, beginning, { activity: beginAt, runId, now: parts.clock.now() })
        return goOnWith({ ...replayed(pack, begunAt), stored: 0 }, true)
      }
      const begun = open(newRun(pack, runId)).begin(beginning)
      void openEar()
      await begun
    },
    async goOn(runId, steal) {
      if (session?.state().runId === runId) {
        store.setState({ screen: 'run', writer: 'here' })
        return session.resume()
      }
      const run = await readRun(runId)
      if (!run) return
      if (run.state.status === 'ended') return block(runId, 'ended')
      await goOnWith(run, await hold(runId, steal))
    },
    async again(pack, events, seq, anew = false) {
      const runId = parts.newRunId()
      const held = await hold(runId, false)
      const begun = eventsAgain(pack, events, { seq, runId, now: parts.clock.now(), seed: parts.newSeed() })
      const run = { ...replayed(pack, begun), stored: 0 }
      const drawn = anew ? figuresAnew(run, parts.newSeed()) : undefined
      await goOnWith(run, held)
      if (drawn) await session?.enter(drawn, { sheet: drawn })
    },
    async end(runId) {
      if (session?.state().runId !== runId) {
        const run = await readRun(runId)
        if (!run) return false
        if (run.state.status === 'ended') return true
        if (!(await hold(runId, false))) {
          block(runId, 'elsewhere')
          return false
        }
        close()
        session = createSession(sessionParts, run)
      }
      await session.happen({ type: 'ended' })
      close()
      lock.release()
      parts.openHere.set(undefined)
      return true
    },
  }
}

/** This share of the items is interrupted, where that is wanted. */
const BREAK_RATE = 0.15

function partnerSettings(
  { roles, readBacks, partnerErrs, breaks, partnerRuns }: Settings,
  seed: number,
): Pick<RunSettings, 'roles' | 'readBacks' | 'partner' | 'breaks'> {
  return {
    ...(roles !== 'pilotAnswers' && { roles }),
    ...(readBacks !== 'pilot' && { readBacks }),
    ...(partnerErrs && { partner: { seed, rate: nextDose(partnerRuns) } }),
    ...(breaks !== 'off' && { breaks: { seed, rate: BREAK_RATE, cues: breaks } }),
  }
}

/** What of the settings a run keeps to its end. */
function runSettings(settings: Settings): RunSettings {
  const { phraseology, coachAfter, flows, timesAloud, radio, lateCatch, ownValues, digitsFirst, lookTimes } = settings
  return {
    phraseology,
    coachAfter,
    flows,
    timesAloud,
    radio,
    lateCatch,
    ownValues,
    ...(digitsFirst && { digitsFirst }),
    ...(lookTimes && { lookTimes }),
  }
}
