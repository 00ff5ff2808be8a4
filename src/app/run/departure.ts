/**
 * The life of a run: begun, revised, left and gone on with, ended; one at a time, with its lock and its
 * ear. What a screen asks for is in `makeActions.ts`.
 */

import { compute } from '../../kernel/figures/compute.ts'
import { type Departure as DealtDeparture, deal } from '../../kernel/figures/deal.ts'
import type { Inputs } from '../../kernel/figures/model.ts'
import { vocabularyOf } from '../../kernel/hearing/vocabulary.ts'
import type { Pack } from '../../kernel/pack/checklist.ts'
import { findItem } from '../../kernel/pack/place.ts'
import { readBackOf } from '../../kernel/pack/rests.ts'
import { isError } from '../../kernel/problem.ts'
import type { Happening, RunEvent, Script } from '../../kernel/run/core/events.ts'
import type { RunState } from '../../kernel/run/core/state.ts'
import { scriptFor } from '../../kernel/run/talk/script.ts'
import type { PackFiles, RunLock } from '../../ports.ts'
import { laidUnder, pastAfter } from '../figures/undo.ts'
import { EMPTY_DRAFT, type Revision } from '../store.ts'
import { type Conduct, type ConductParts, conduct, type Told } from './conduct.ts'
import type { Dispatch } from './dispatch.ts'
import { reviseWith, withoutGiven, withoutTaken, withStated, withTaken } from './revision.ts'

export interface DepartureParts extends ConductParts {
  readonly packFiles: PackFiles
  readonly lock: RunLock
  readonly newRunId: () => string
  /** A whole number by chance: what stations will say follows from it. */
  readonly newSeed: () => number
  /** Which run this tab had open, kept over a reload of the page. */
  readonly openHere: { get(): string | undefined; set(runId: string | undefined): void }
}

export interface Departure {
  openPack(id: string): Promise<void>
  begin(pack: Pack, draft: Inputs): Promise<void>
  revise(pack: Pack, draft: Inputs): Promise<void>
  /** Goes on with a stored run; `steal` takes it over from another tab. */
  goOn(runId: string, steal: boolean): Promise<void>
  /** Ends the open run, or a stored one that nobody holds. */
  end(runId: string): Promise<void>
  openEar(): Promise<void>
  /** Cuts off what is being said. */
  cut(): void
  dispatch(): Dispatch | undefined
}

type RevisedFrom = Parameters<typeof reviseWith>[4]

/** Undefined where the pack has no rules for dealing. */
export function dealtBy(pack: Pack, seed: number): DealtDeparture | undefined {
  return deal(pack.figures, readBackOf(pack), seed)
}

export function createDeparture(parts: DepartureParts): Departure {
  const { store, clock, log, ear, packFiles, lock } = parts
  let running: Conduct | undefined
  let stopWaiting: () => void = () => undefined

  async function take(texts: Readonly<Record<string, string>>, sha256: string): Promise<Pack | undefined> {
    // Reading YAML is a good part of the app, and the first screen needs none of it.
    const { readPack } = await import('../../packs/read.ts')
    const { pack, problems } = readPack(texts, sha256)
    store.setState({ pack, problems: problems.filter(isError) })
    return pack
  }

  function close(): void {
    stopWaiting()
    running?.close()
    running = undefined
  }

  /** The final figures of a dealt departure come in at their time, wherever the run is then. */
  function awaitFinal(pack: Pack, seed: number | undefined, startedAt: number): void {
    const dealt = seed === undefined ? undefined : dealtBy(pack, seed)
    if (!dealt) return
    const due = startedAt + dealt.finalAfterMinutes * 60_000
    stopWaiting = clock.after(Math.max(0, due - clock.now()), () => {
      const run = running?.dispatch.state()
      // Where the pilot leaves the stand in another way than was dealt, late figures do not change that.
      if (run?.figureStatus !== 'preliminary') return
      void revise(pack, withoutTaken({ ...dealt.final, situation: run.situation }, run))
    })
  }

  const told = (pack: Pack): Told => ({
    stated(stated) {
      layOver(pack, (inputs) => withStated(inputs, stated), { crossChecked: stated.figure })
    },
    takenDown({ turn, values }) {
      layOver(pack, (inputs) => withTaken(inputs, values), { takenDown: turn })
    },
    situated(name, value) {
      const { draft, past } = store.getState()
      const lay = (inputs: Inputs) => ({ ...inputs, situation: { ...inputs.situation, [name]: value } })
      store.setState({ draft: lay(draft), past: laidUnder(past, lay) })
    },
  })

  /** What came by voice changes the figures in force; in a draft it joins what somebody is typing. */
  function layOver(pack: Pack, lay: (inputs: Inputs) => Inputs, from: RevisedFrom): void {
    const inForce = store.getState().revisions.at(-1)?.inputs
    const situation = running?.dispatch.state().situation
    if (inForce) void revise(pack, lay({ ...inForce, ...(situation && { situation }) }), from, lay)
  }

  async function revise(
    pack: Pack,
    wanted: Inputs,
    from: RevisedFrom = {},
    lay?: (draft: Inputs) => Inputs,
  ): Promise<void> {
    const { revisions } = store.getState()
    const revision = revisions.length + 1
    const hasStations = running?.dispatch.state().script !== undefined && from.takenDown === undefined
    const inputs = hasStations ? withoutGiven(pack, wanted, revisions.at(-1)?.inputs) : wanted
    const { set, revised } = reviseWith(pack, revision, inputs, revisions.at(-1)?.set, from)
    const before = running?.dispatch.state()
    for (const happening of situationChanges(before, inputs)) await running?.dispatch.happen(happening)
    await running?.dispatch.happen(revised)
    const after = running?.dispatch.state()
    const reopened = before && after ? reopenedNames(pack, before, after) : []
    const entered: Revision = { revision, inputs, set, changes: revised.changes, reopened }
    const { draft: typed, past: typedBefore } = store.getState()
    const draft = lay ? lay(typed) : inputs
    const preview = draft === inputs ? set : compute(pack.figures, draft)
    // Figures that come in on their own take the place of what was being typed, which can be fetched back.
    const past = lay ? laidUnder(typedBefore, lay) : wanted === typed ? [] : pastAfter(typedBefore, typed, draft)
    store.setState({ revisions: [...revisions, entered], draft, past, preview })
  }

  async function hold(runId: string, steal: boolean): Promise<boolean> {
    const lost = () => {
      close()
      store.setState({ writer: 'elsewhere' })
    }
    const held = await lock.hold(runId, { steal, lost })
    store.setState({ writer: held ? 'here' : 'elsewhere' })
    if (held) parts.openHere.set(runId)
    return held
  }

  /** The ear opens beside the run: typing and buttons work at once, and go on working where it fails. */
  async function openEar(): Promise<void> {
    const { pack, settings } = store.getState()
    if (pack && settings.ear !== 'typing') await ear.open(vocabularyOf(pack))
  }

  /** The same dealt departure has the same clearances. Nothing of its final figures is among them: they come later. */
  function scriptOf(pack: Pack, draft: Inputs, dealt: number | undefined, slips: boolean): Script | undefined {
    const hasTalk = pack.phases.some(({ activities }) =>
      activities.some(({ type }) => type === 'exchange' || type === 'briefing'),
    )
    if (!hasTalk) return undefined
    const final = dealt === undefined ? undefined : dealtBy(pack, dealt)?.final
    return scriptFor(pack, draft, dealt ?? parts.newSeed(), { slips, others: final ? [final] : [] })
  }

  /** The run's own pack, as its log holds it: an edition that came since cannot change it. */
  async function stored(runId: string): Promise<{ pack: Pack; events: RunEvent[] } | undefined> {
    const events = await log.read(runId)
    const [first] = events
    const pack = first?.type === 'runStarted' ? await take(first.pack.texts, first.pack.sha256) : undefined
    return pack && { pack, events }
  }

  async function showExamples(id: string): Promise<void> {
    store.setState({ examples: await packFiles.examples(id) })
  }

  return {
    openEar,
    cut: () => running?.cut(),
    dispatch: () => running?.dispatch,
    async openPack(id) {
      const { texts, sha256 } = await packFiles.load(id)
      await take(texts, sha256)
      store.setState({ revisions: [], draft: EMPTY_DRAFT, past: [], preview: undefined })
      await showExamples(id)
    },
    async begin(pack, draft) {
      const runId = parts.newRunId()
      if (!(await hold(runId, false))) return
      close()
      running = conduct(parts, pack, runId, [], told(pack))
      const { id, version, sha256, name, texts } = pack
      const initial = Object.fromEntries(pack.situations.map((one) => [one.name, one.initial]))
      const { settings, dealt } = store.getState()
      const { phraseology, coachAfter, flows, timesAloud, radio, digitsFirst } = settings
      const script = settings.stations ? scriptOf(pack, draft, dealt, settings.wrongHearBacks) : undefined
      await running.dispatch.happen({
        type: 'runStarted',
        pack: { id, version, sha256, name, texts },
        situation: { ...initial, ...draft.situation },
        settings: { phraseology, coachAfter, flows, timesAloud, radio, ...(digitsFirst && { digitsFirst }) },
        startedAt: clock.now(),
        ...(dealt !== undefined && { dealt }),
        ...(script && { script }),
      })
      awaitFinal(pack, dealt, clock.now())
      void openEar()
    },
    async revise(pack, draft) {
      await revise(pack, draft)
      store.setState({ screen: 'run' })
    },
    async goOn(runId, steal) {
      const found = await stored(runId)
      if (!found) return
      const { pack, events } = found
      const held = await hold(runId, steal)
      close()
      const conducted = conduct(parts, pack, runId, events, told(pack))
      const revisions = revisionsIn(pack, events)
      const draft = revisions.at(-1)?.inputs ?? EMPTY_DRAFT
      const preview = compute(pack.figures, draft)
      store.setState({ screen: 'run', revisions, draft, past: [], preview, unfinished: undefined })
      await showExamples(pack.id)
      if (!held) return conducted.close()
      running = conducted
      const [first] = events
      if (first?.type === 'runStarted') awaitFinal(pack, first.dealt, first.startedAt)
      void openEar()
      await running.dispatch.happen({ type: 'resumed' })
    },
    async end(runId) {
      if (running?.dispatch.state().runId !== runId) {
        const found = await stored(runId)
        if (!found || !(await hold(runId, false))) return
        close()
        running = conduct(parts, found.pack, runId, found.events, told(found.pack))
      }
      await running.dispatch.happen({ type: 'ended' })
      close()
      lock.release()
      parts.openHere.set(undefined)
    },
  }
}

function situationChanges(run: RunState | undefined, draft: Inputs): Happening[] {
  return Object.entries(draft.situation ?? {})
    .filter(([name, value]) => run && run.situation[name] !== value)
    .map(([name, value]) => ({ type: 'situationSet', name, value, evidence: { by: 'key', text: '' } }))
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
