/** Departures flown by what lies on the table alone: to the end, with nothing shown and nothing coached. */

import { describe, expect, it } from 'vitest'
import { hiddenFigures } from '../../src/app/figures/hiddenFigures.ts'
import { sourcedViews } from '../../src/app/figures/sourcesView.ts'
import { createVirtualClock } from '../../src/app/rehearsal/virtualClock.ts'
import { dealtBy } from '../../src/app/run/beginning.ts'
import { createSession, type RunSession } from '../../src/app/run/session.ts'
import { newRun } from '../../src/app/run/storedRun.ts'
import { DEFAULT_SETTINGS } from '../../src/app/settings.ts'
import { readPackDir } from '../../src/cli/packDir.ts'
import { capital } from '../../src/kernel/capital.ts'
import { compute } from '../../src/kernel/figures/compute.ts'
import type { Inputs } from '../../src/kernel/figures/model.ts'
import type { Pack } from '../../src/kernel/pack/checklist.ts'
import { findItem } from '../../src/kernel/pack/place.ts'
import { GAP } from '../../src/kernel/response/sentence.ts'
import { debriefOf } from '../../src/kernel/run/debrief/debrief.ts'
import { runningWatch } from '../../src/kernel/run/watch/watchTiming.ts'
import { cases } from '../cases.ts'
import { createFakeEar } from '../fakes/ear.ts'
import { createFakeLog } from '../fakes/log.ts'
import { createFakeVoice } from '../fakes/voice.ts'
import { type Editions, GAUGES, MARRAM, PAIR, papersOf, screenOf } from './paperPilot.ts'
import { inputsFrom } from './rig.ts'

const HABITS = { marram: MARRAM, pair: PAIR } as const
type PackName = keyof typeof HABITS
const DEALT = Array.from({ length: cases(60) }, (_, index) => index + 1)

async function packOf(name: PackName): Promise<Pack> {
  const { pack, problems } = await readPackDir(`checklists/${name}`)
  if (!pack) throw new Error(JSON.stringify(problems))
  return pack
}

interface Departure {
  readonly pack: Pack
  readonly name: PackName
  readonly preliminary: Inputs
  readonly final: Inputs
  readonly dealt?: number
  readonly finalAfterMs: number
}

const drawn = (pack: Pack, name: PackName, dealt: number): Departure => {
  const departure = dealtBy(pack, dealt)
  if (!departure) throw new Error(`${name} deals nothing by ${dealt}`)
  const { preliminary, final, finalAfterMinutes } = departure
  return { pack, name, preliminary, final, dealt, finalAfterMs: finalAfterMinutes * 60_000 }
}

/** What the pilot said to each item, in order, with the verdict. */
interface Said {
  readonly challenge: string
  readonly text: string
  readonly verdict: string
}

/** Flies it to the end, or until an answer was refused twice over, or the pilot is stuck. */
async function fly(departure: Departure, finalsAt: number, editions: Editions = 'newest') {
  const { pack, name, preliminary, final, dealt, finalAfterMs } = departure
  const clock = createVirtualClock()
  const [ear, voice, log] = [createFakeEar(clock.now), createFakeVoice(), createFakeLog()]
  const run = createSession({ clock, log, ear, voice, settings: () => DEFAULT_SETTINGS }, newRun(pack, 'papers'))
  const settings = { phraseology: 'plain', coachAfter: 0 } as const
  await run.begin({
    inputs: preliminary,
    from: { sheet: preliminary },
    settings,
    ...(dealt !== undefined && { dealt }),
  })
  await run.settled()
  const said: Said[] = []
  const copied = new Map<string, string>()
  const say = async (text: string) => {
    ear.hear(text, { by: 'typed' })
    await run.settled()
  }
  let hasFinals = false
  for (let turn = 0; turn < 400; turn++) {
    const screen = screenOf(run)
    if (screen.kind === 'end') break
    if (!hasFinals && said.length >= finalsAt) {
      hasFinals = true
      // A drawn departure's come in by themselves; the demo's with the load sheet office's call.
      if (dealt === undefined) await run.enter(final, { sheet: final })
      else await clock.pass(Math.max(0, finalAfterMs + run.state().startedAt - clock.now() + 1), run.settled)
      await run.settled()
      continue
    }
    await act(run, screen, { name, say, said, editions, copied, pass: (ms) => clock.pass(ms, run.settled) })
    if (said.slice(-3).length === 3 && said.slice(-3).every(({ verdict }) => verdict !== 'correct')) break
  }
  return { run, said, events: log.events, debrief: debriefOf(pack, log.events), end: screenOf(run) }
}

interface Hands {
  readonly name: PackName
  readonly say: (text: string) => Promise<void>
  readonly said: Said[]
  readonly editions: Editions
  /** What the pilot wrote down from the screen when sources differed: challenge -> value. */
  readonly copied: Map<string, string>
  readonly pass: (ms: number) => Promise<void>
}

/** What the gauge shows that a call reads; both engine checks and starts of the twin end with idle. */
function readOff(name: PackName, { pack, state }: RunSession, phrase: string): string {
  if (name === 'marram') return '58'
  const [first = ''] = phrase.split(' ')
  return GAUGES[first] ?? (runningWatch(pack, state())?.id.endsWith('Power') ? '650' : '920')
}

const quotedIn = (hint: string) => /"([^"]+)"/.exec(hint)?.[1] ?? ''

async function act(run: RunSession, screen: ReturnType<typeof screenOf>, hands: Hands): Promise<void> {
  const { say, said, name, editions, pass } = hands
  const { headline, hint, buttons } = screen
  switch (screen.kind) {
    case 'flow':
      await say('done')
      // Something in it may have to wait for its time.
      return screenOf(run).headline === headline ? pass(30_000) : undefined
    case 'call':
    case 'line':
      return say(quotedIn(hint))
    case 'question':
      return say('affirm')
    case 'watch': {
      const [next] = buttons
      const before = run.state().seq
      const phrase = (screen.watch?.status === 'running' ? next?.phrase : quotedIn(hint)) ?? ''
      await say(phrase.replace(GAP, readOff(name, run, phrase)))
      // It may be too early: the starter rests.
      if (run.state().seq > before && screen.watch?.status !== 'running') await pass(15_000)
      return
    }
    case 'item': {
      if (hint.includes('differ')) return settle(run, hint, hands)
      // A pilot with old editions looks at the new ones once an answer was refused.
      const isRefused = said.at(-1)?.challenge === headline && said.at(-1)?.verdict !== 'correct'
      const { copied } = hands
      const from = editions === 'first' && !isRefused ? { editions } : { copied }
      const text = papersOf(run, HABITS[name], from).answer(headline)
      await say(text)
      const { last } = run.state()
      said.push({ challenge: headline, text, verdict: last?.judgement.verdict ?? 'none' })
      // Kept on for a while after the start: no value, but time.
      if (last?.judgement.verdict === 'correct' && screenOf(run).headline === headline) await pass(30_000)
      return
    }
    default:
      throw new Error(`nobody knows what to do at ${screen.kind}: ${headline}`)
  }
}

/** Both values stand on the screen; the pilot adds the loads up, looks at the other paper, or at the card, and takes the right one. */
async function settle(run: RunSession, hint: string, { copied }: Hands): Promise<void> {
  const { inputs } = run.state()
  if (!inputs) throw new Error('nothing to settle')
  const hidden = hiddenFigures(run.pack, run.state())
  const set = compute(run.pack.figures, inputs)
  const views = sourcedViews(run.pack, inputs, set, { inputs, set }, hidden)
  const view = views.find(({ label }) => hint.startsWith(`${capital(label)} differs`))
  const use = view?.own ?? 'computed'
  const own = view?.choices.find(({ source }) => source === use)
  if (!view || !own || view.choices.length < 2) throw new Error(`the screen does not show both values: ${hint}`)
  copied.set(view.label, own.shown.replaceAll(',', ''))
  const reason = 'the sheet is not of this departure'
  await run.enter({ ...inputs, settled: { ...inputs.settled, [view.name]: { use, reason } } })
  await run.settled()
}

const refused = (said: readonly Said[]) => said.filter(({ verdict }) => verdict !== 'correct')

describe.each(['marram', 'pair'] as const)('by its papers alone the %s', (name) => {
  it('is flown with its own sheets to the end, wherever the final one comes in', async () => {
    const pack = await packOf(name)
    const [preliminary, final] = await Promise.all(
      ['preliminary', 'final'].map((sheet) => inputsFrom(pack, `checklists/${name}/inputs/${sheet}.yaml`)),
    )
    if (!preliminary || !final) throw new Error('no sheets')
    for (const finalsAt of [0, 1, 3, 6, 9]) {
      const { said, debrief, end } = await fly({ pack, name, preliminary, final, finalAfterMs: 0 }, finalsAt)
      expect(refused(said)).toEqual([])
      expect(end.kind).toBe('end')
      expect([debrief.complete, debrief.totals.given, debrief.totals.misses]).toEqual([true, 0, 0])
    }
  })

  it.each(DEALT)('is flown as it is drawn by %i, with nothing given', async (dealt) => {
    const pack = await packOf(name)
    const { said, debrief, end } = await fly(drawn(pack, name, dealt), dealt % 8)
    expect(refused(said)).toEqual([])
    expect(end.kind).toBe('end')
    expect([debrief.complete, debrief.totals.given, debrief.totals.misses]).toEqual([true, 0, 0])
  })

  it.each(DEALT)(
    'with the first editions is refused at each stale item and nowhere else, drawn by %i',
    async (dealt) => {
      const pack = await packOf(name)
      const { run, events, end } = await fly(drawn(pack, name, dealt), 0, 'first')
      const first = run.revisions()[0]?.set.figures ?? {}
      const tries = events.flatMap((event) => (event.type === 'answered' ? event : []))
      const seen = new Set<string>()
      for (const { item, expected, judgement } of tries) {
        // The second answer to an item is by the new edition.
        const isStale =
          !seen.has(item) && figuresOf(pack, item).some((figure) => first[figure]?.value !== expected[figure])
        expect([item, judgement.verdict]).toEqual([item, isStale ? 'negative' : 'correct'])
        seen.add(item)
      }
      expect(end.kind).toBe('end')
    },
  )
})

/** Figures that are said in the answer to an item. */
const figuresOf = (pack: Pack, item: string) =>
  findItem(pack, item).item.responses.flatMap(({ response }) => response.figures)
