/**
 * The page is killed at random moments of a run, before and after an event is stored, and opened again: real app and
 * kernel over a real log in an IndexedDB; ear, voice and clock are fakes. What a dead page still wanted never comes.
 */

import 'fake-indexeddb/auto'
import { readFile } from 'node:fs/promises'
import { expect, test } from 'vitest'
import { createBrowserLog } from '../../src/adapters/log/browserLog.ts'
import { makeActions } from '../../src/app/actions/makeActions.ts'
import { createVirtualClock } from '../../src/app/rehearsal/virtualClock.ts'
import { createAppStore } from '../../src/app/store.ts'
import { readPackDir, sha256Of } from '../../src/cli/packDir.ts'
import type { Figure } from '../../src/kernel/kinds/kind.ts'
import { sayValue } from '../../src/kernel/kinds/table.ts'
import type { Pack, WatchCall } from '../../src/kernel/pack/checklist.ts'
import { figuresFor, findItem, findLine, listById, responseOf, saidFigures } from '../../src/kernel/pack/place.ts'
import { GAP, sayResponse, usualWording } from '../../src/kernel/response/sentence.ts'
import type { RunEvent } from '../../src/kernel/run/core/events.ts'
import { promptWords } from '../../src/kernel/run/core/prompts.ts'
import type { RunState } from '../../src/kernel/run/core/state.ts'
import { fold, step } from '../../src/kernel/run/core/step.ts'
import { nextCall, watchAt, watchState } from '../../src/kernel/run/watch/watchTiming.ts'
import { readPack } from '../../src/packs/read.ts'
import type { RunArchive } from '../../src/ports.ts'
import { cases } from '../cases.ts'
import { fakeActionParts } from '../fakes/actionParts.ts'
import { idle } from './rig.ts'

const FOLDER = 'checklists/pair'

/** The piston twin up to its running engines, so that runs come to their end between the kills. */
async function upToTheStart(): Promise<Pack> {
  const { pack: whole } = await readPackDir(FOLDER)
  if (!whole) throw new Error('the pack cannot be read')
  const [start = ''] = (whole.texts['procedures.yaml'] ?? '').split('      - flow: running\n')
  const texts = { ...whole.texts, 'procedures.yaml': start }
  const { pack, problems } = readPack(texts, sha256Of(texts))
  if (!pack) throw new Error(JSON.stringify(problems))
  return pack
}
const demo = await upToTheStart()
const SHEETS = {
  preliminary: await readFile(`${FOLDER}/inputs/preliminary.yaml`, 'utf8'),
  final: await readFile(`${FOLDER}/inputs/final.yaml`, 'utf8'),
}

/** Numbers that are the same each time. */
function chance(seed: number) {
  let state = seed
  return (below: number) => {
    state = (Math.imul(state, 1_664_525) + 1_013_904_223) >>> 0
    return Math.floor((state / 2 ** 32) * below)
  }
}

const clock = createVirtualClock()
let runs = 0
/** Which run the tab has open, as its session storage keeps it over a reload. */
let openRun: string | undefined

interface Fate {
  /** Events that are still stored before the page dies. */
  readonly after: number
  /** It dies with that event stored, or with one more asked for and not stored. */
  readonly isStored: boolean
}

/** A page that opens the app, and what reached its log. */
async function openPage(fate?: Fate) {
  const log = await createBrowserLog('crash')
  const stored: RunEvent[] = []
  /** Of which the page knows that they are stored. */
  const confirmed: RunEvent[] = []
  let isDead = false
  const never = new Promise<never>(() => undefined)
  const mortal: RunArchive = {
    ...log,
    async append(event) {
      if (isDead) return never
      const isLast = fate && stored.length === fate.after
      if (isLast && !fate.isStored) isDead = true
      if (isDead) return never
      await log.append(event)
      stored.push(event)
      if (isLast) isDead = true
      if (isDead) return never
      confirmed.push(event)
    },
  }
  const store = createAppStore({ pack: demo })
  const parts = fakeActionParts({
    ...{ store, clock, log: mortal },
    packFiles: {
      list: async () => [],
      load: async () => ({ texts: demo.texts, sha256: demo.sha256 }),
      examples: async () => SHEETS,
      demonstrations: async () => ({}),
    },
    newRunId: () => `run ${++runs}`,
    openHere: {
      get: () => openRun,
      set: (runId: string | undefined) => {
        openRun = runId
      },
    },
  })
  const actions = makeActions(parts)
  await actions.recall()
  const { ear, voice } = parts
  return { store, ear, voice, actions, log, stored, confirmed, isDead: () => isDead }
}
type Page = Awaited<ReturnType<typeof openPage>>

/** In the middle of the range in which it is right. */
function readOff({ value }: WatchCall): string {
  if (!value) return ''
  const { spec, min = value.max ?? 0, max = min } = value
  return sayValue({ ...spec, value: Math.round((min + max) / 2) } as Figure, 'plain')
}

/** What a pilot says next: mostly what is right, and all that comes between. */
function words(run: RunState, random: (below: number) => number): string {
  if (run.standingBy) return 'continue'
  if (run.question) return 'affirm'
  const { floor } = run
  const stray = ['say again', 'stand by', 'remark all quiet', 'one one one', 'go back one', 'look at that', 'disregard']
  if (floor.at !== 'end' && random(4) === 0) return stray[random(stray.length)] ?? ''
  switch (floor.at) {
    case 'item': {
      const { item } = findItem(demo, floor.item)
      const response = responseOf(item, run)
      return sayResponse(response, figuresFor(demo, run.values, saidFigures(item, run)), 'plain')
    }
    case 'line':
      return usualWording(findLine(listById(demo, floor.list), floor.line).say)
    case 'watch': {
      const watch = watchAt(demo, floor)
      const call = watch && run.watches[watch.id]?.status === 'running' && nextCall(watch, watchState(run, watch.id))
      const due = call ? call.call.say : watch?.begins
      return due ? usualWording(due).replace(GAP, call ? readOff(call.call) : '') : ''
    }
    case 'call':
      return demo.phases[floor.phase]?.activities[floor.activity]?.name ?? ''
    default:
      return 'done'
  }
}

/** One thing that the pilot does. */
async function act({ store, ear, actions }: Page, random: (below: number) => number): Promise<void> {
  const { run, revisions } = store.getState()
  clock.advance(2_000)
  if (!run || run.figureStatus === undefined || (run.floor.at === 'end' && revisions.length === 1)) {
    await actions.readInputs(run ? SHEETS.final : SHEETS.preliminary, 'sheet.yaml')
    void actions.enterRevision()
  } else if (run.figureStatus === 'preliminary' && random(15) === 0) {
    await actions.readInputs(SHEETS.final, 'sheet.yaml')
    void actions.enterRevision()
  } else if (run.floor.at === 'end') {
    void actions.endRun()
  } else ear.hear(words(run, random))
  for (let turn = 0; turn < 4; turn++) await idle()
}

/** All that may have been said, in order: what follows from the events of which the page knew that they were stored. */
async function mayBeSaid({ log, confirmed }: Page): Promise<string[]> {
  const runIds = [...new Set(confirmed.map(({ runId }) => runId))]
  const runs = runIds.map(async (runId) => {
    const mine = confirmed.filter((event) => event.runId === runId)
    const before = ((await log.read(runId)) as RunEvent[]).slice(0, mine[0]?.seq)
    let state = fold(demo, runId, before)
    return mine.flatMap((event) => {
      const next = step(demo, state, event)
      state = next.state
      return next.effects.flatMap((effect) => (effect.type === 'speak' ? [effect.text] : []))
    })
  })
  return (await Promise.all(runs)).flat()
}

/** What is left of the texts said when those that might be are taken off in their order: a later one may displace one before. */
function saidBesides(said: readonly string[], may: readonly string[]): readonly string[] {
  let at = 0
  for (const text of may) if (said[at] === text) at += 1
  return said.slice(at)
}

/** At least so many that some runs get to their end. */
const KILLS = Math.max(90, cases(200))

test(`killed at ${KILLS} moments: no event is lost, and the same is asked again`, async () => {
  const random = chance(1)
  const killed = { before: 0, after: 0 }
  const moments = new Set<string>()
  let finished = 0
  let asked = 0
  while (killed.before + killed.after < KILLS) {
    const isStored = random(2) === 0
    const page = await openPage({ after: random(6), isStored })
    if (openRun) page.actions.gesture()
    for (let turn = 0; turn < 6; turn++) await idle()
    for (let tries = 0; !page.isDead(); tries++) {
      if (tries > 60) throw new Error(`the run does not go on: ${JSON.stringify(page.store.getState().run?.floor)}`)
      const wasOn = openRun
      await act(page, random)
      if (wasOn && !openRun) finished += 1
    }
    await idle()
    const said = page.voice.said.map(({ text }) => text)
    expect(saidBesides(said, await mayBeSaid(page))).toEqual([])
    const runId = openRun ?? `run ${runs}`
    const before = (await page.log.read(runId)) as RunEvent[]
    if (before.length === 0) continue
    const kept = page.stored.filter((event) => event.runId === runId)
    expect(before.slice(before.length - kept.length)).toEqual(kept)
    expect(before.map(({ seq }) => seq)).toEqual(before.map((_, index) => index))
    if (before.at(-1)?.type === 'ended') continue
    moments.add(before.at(-1)?.type ?? '')
    killed[isStored ? 'after' : 'before'] += 1

    const again = await openPage()
    again.actions.gesture()
    for (let turn = 0; turn < 6; turn++) await idle()
    const after = (await again.log.read(runId)) as RunEvent[]
    expect(after.slice(0, before.length)).toEqual(before)
    expect(after.slice(before.length).map(({ type }) => type)).toEqual(['resumed'])
    const was = fold(demo, runId, before)
    const is = again.store.getState().run
    expect(is?.floor).toEqual(was.floor)
    expect(is?.items).toMatchObject(
      Object.fromEntries(Object.entries(was.items).map(([id, { status, misses }]) => [id, { status, misses }])),
    )
    const prompt = was.figureStatus === undefined ? '' : promptWords(demo, was)
    if (prompt !== '') asked += 1
    expect(again.voice.said.at(-1)?.text ?? '').toContain(prompt)
  }
  expect(finished).toBeGreaterThan(1)
  expect(asked).toBeGreaterThan(KILLS / 2)
  console.log(
    `killed before ${killed.before} and after ${killed.after} events, in ${finished} whole runs, after ${[...moments].sort().join(', ')}`,
  )
})
