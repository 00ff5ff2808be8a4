/** What the screens ask for, done: packs opened, figures computed, runs begun and gone on with. */

import { compute } from '../kernel/figures/compute.ts'
import type { Inputs } from '../kernel/figures/model.ts'
import { vocabularyOf } from '../kernel/hearing/vocabulary.ts'
import { isError } from '../kernel/problem.ts'
import type { Pack } from '../kernel/run/checklist.ts'
import { debriefOf } from '../kernel/run/debrief.ts'
import type { Happening, RunEvent } from '../kernel/run/events.ts'
import { findItem } from '../kernel/run/place.ts'
import type { RunState } from '../kernel/run/state.ts'
import { readInputs } from '../packs/inputs.ts'
import { readPack } from '../packs/read.ts'
import type { PackFiles, RunLock } from '../ports.ts'
import type { Actions } from './actions.ts'
import { type Conduct, type ConductParts, conduct } from './conduct.ts'
import { pressed } from './pressed.ts'
import { reviseWith } from './revision.ts'
import type { Settings } from './settings.ts'
import { EMPTY_DRAFT, type Revision } from './store.ts'

export interface ActionParts extends ConductParts {
  readonly packFiles: PackFiles
  readonly lock: RunLock
  readonly newRunId: () => string
  readonly saveSettings: (settings: Settings) => void
  /** Which run this tab had open, kept over a reload of the page. */
  readonly openHere: { get(): string | undefined; set(runId: string | undefined): void }
  /** Lets the page play sound after a gesture. */
  readonly wakeSound: () => Promise<void>
}

export function makeActions(parts: ActionParts): Actions {
  const { store, clock, log, ear, packFiles, lock } = parts
  let running: Conduct | undefined

  async function openPack(id: string): Promise<Pack | undefined> {
    const { texts, sha256 } = await packFiles.load(id)
    return take(texts, sha256)
  }

  function take(texts: Readonly<Record<string, string>>, sha256: string): Pack | undefined {
    const { pack, problems } = readPack(texts, sha256)
    store.setState({ pack, problems: problems.filter(isError) })
    return pack
  }

  function preview(draft: Inputs): void {
    const { pack } = store.getState()
    store.setState({ draft, preview: pack && compute(pack.figures, draft) })
  }

  /** The ear opens beside the run: typing and buttons work at once, and go on working where it fails. */
  function openEar(pack: Pack): void {
    if (store.getState().settings.ear === 'device') void ear.open(vocabularyOf(pack))
  }

  function happen(happening: Happening | ((run: RunState) => Happening | undefined)): void {
    void running?.dispatch.happen(happening)
  }

  async function goOn(runId: string, steal: boolean): Promise<void> {
    const events = await log.read(runId)
    const [first] = events
    if (first?.type !== 'runStarted') return
    // The run's own pack, as its log holds it: an edition that came since cannot change it.
    const pack = take(first.pack.texts, first.pack.sha256)
    if (!pack) return
    const held = await hold(runId, steal)
    running?.close()
    running = conduct(parts, pack, runId, events)
    const revisions = revisionsIn(pack, events)
    const draft = revisions.at(-1)?.inputs ?? EMPTY_DRAFT
    const examples = await packFiles.examples(first.pack.id)
    const shown = { screen: 'run', revisions, draft, examples, unfinished: undefined } as const
    store.setState({ ...shown, preview: compute(pack.figures, draft) })
    if (!held) {
      running.close()
      running = undefined
      return
    }
    openEar(pack)
    await running.dispatch.happen({ type: 'resumed' })
  }

  async function hold(runId: string, steal: boolean): Promise<boolean> {
    const lost = () => {
      running?.close()
      running = undefined
      store.setState({ writer: 'elsewhere' })
    }
    const held = await lock.hold(runId, { steal, lost })
    store.setState({ writer: held ? 'here' : 'elsewhere' })
    if (held) parts.openHere.set(runId)
    return held
  }

  async function begin(pack: Pack, draft: Inputs): Promise<void> {
    const runId = parts.newRunId()
    if (!(await hold(runId, false))) return
    running?.close()
    running = conduct(parts, pack, runId, [])
    const { id, version, sha256, name, texts } = pack
    const initial = Object.fromEntries(pack.situations.map((one) => [one.name, one.initial]))
    const { phraseology, coachAfter } = store.getState().settings
    await running.dispatch.happen({
      type: 'runStarted',
      pack: { id, version, sha256, name, texts },
      situation: { ...initial, ...draft.situation },
      settings: { phraseology, coachAfter },
      startedAt: clock.now(),
    })
  }

  async function revise(pack: Pack, draft: Inputs): Promise<void> {
    const { revisions } = store.getState()
    const revision = revisions.length + 1
    const { set, revised } = reviseWith(pack, revision, draft, revisions.at(-1)?.set)
    const { changes } = revised
    const before = running?.dispatch.state()
    await running?.dispatch.happen(revised)
    const after = running?.dispatch.state()
    const reopened = before && after ? reopenedNames(pack, before, after) : []
    store.setState({ revisions: [...revisions, { revision, inputs: draft, set, changes, reopened }], screen: 'run' })
  }

  return {
    async recall() {
      const runId = await log.unfinished()
      if (runId === undefined) return
      const unfinished = (await log.runs()).find((run) => run.runId === runId)
      // After a reload it goes on at any key; on a later visit the start screen offers it.
      store.setState({ unfinished, needsGesture: parts.openHere.get() === runId })
    },
    show: (screen) => store.setState({ screen }),
    async choosePack(id) {
      await openPack(id)
      const examples = await packFiles.examples(id)
      store.setState({ examples, revisions: [], draft: EMPTY_DRAFT, preview: undefined })
    },
    draft: preview,
    readInputs(text, fileName) {
      const { pack } = store.getState()
      if (!pack) return
      const { inputs, problems } = readInputs(text, fileName, pack)
      store.setState({ problems })
      if (inputs) preview(inputs)
    },
    async enterRevision() {
      const { pack, draft } = store.getState()
      if (!pack) return
      const isNew = !running
      if (isNew) {
        await begin(pack, draft)
        openEar(pack)
      }
      await revise(pack, draft)
    },
    async beginRun() {
      store.setState({ screen: 'run' })
    },
    resumeRun: (runId) => goOn(runId, false),
    async abandonRun() {
      running?.close()
      running = undefined
      lock.release()
      parts.openHere.set(undefined)
      store.setState({
        run: undefined,
        revisions: [],
        unfinished: undefined,
        draft: EMPTY_DRAFT,
        preview: undefined,
        screen: 'start',
      })
    },
    press: (press) => happen((run) => pressed(store.getState().pack, run, press, clock.now())),
    type(text, order, beganAt) {
      void running?.dispatch.hear({ order, text, beganAt, endedAt: clock.now(), by: 'typed' })
    },
    gesture() {
      store.setState({ needsGesture: false })
      void parts.wakeSound()
      const { unfinished } = store.getState()
      if (unfinished) void goOn(unfinished.runId, false)
    },
    async retryEar() {
      const { pack, ear: state } = store.getState()
      if (!pack) return
      store.setState({ ear: { ...state, failure: undefined } })
      await ear.open(vocabularyOf(pack))
      happen({ type: 'commanded', command: 'continue', evidence: { by: 'key', text: '' } })
    },
    async takeOver() {
      const { run, unfinished } = store.getState()
      const runId = run?.runId ?? unfinished?.runId
      if (runId) await goOn(runId, true)
    },
    settings(change) {
      const settings = { ...store.getState().settings, ...change }
      store.setState({ settings })
      parts.saveSettings(settings)
    },
    async account() {
      const { pack } = store.getState()
      if (!pack || !running) return
      store.setState({ debrief: debriefOf(pack, running.dispatch.events()), screen: 'account' })
    },
    async exportLog(runId) {
      const events = running?.dispatch.state().runId === runId ? running.dispatch.events() : await log.read(runId)
      return events.map((event) => `${JSON.stringify(event)}\n`).join('')
    },
  }
}

function revisionsIn(pack: Pack, events: readonly RunEvent[]): Revision[] {
  return events.flatMap((event) => {
    if (event.type !== 'figuresRevised') return []
    const { revision, inputs, changes } = event
    return [{ revision, inputs, set: compute(pack.figures, inputs), changes, reopened: [] }]
  })
}

function reopenedNames(pack: Pack, before: RunState, after: RunState): string[] {
  return Object.entries(after.items)
    .filter(([id, item]) => item.status === 'reopened' && before.items[id]?.status !== 'reopened')
    .map(([id]) => findItem(pack, id).item.challenge)
}
