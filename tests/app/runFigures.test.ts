/** Figures of a run as they come in: from a sheet, a voice, a station or in their time, each on those in force by then. */

import { describe, expect, it } from 'vitest'
import { createVirtualClock } from '../../src/app/rehearsal/virtualClock.ts'
import { dealtBy } from '../../src/app/run/beginning.ts'
import { createRunFigures } from '../../src/app/run/runFigures.ts'
import type { EventBody } from '../../src/kernel/run/core/events.ts'
import type { RunState } from '../../src/kernel/run/core/state.ts'
import { TALK } from './demoAnswers.ts'
import { demoInputs, demoPack, inputsFrom, rig } from './rig.ts'

const pack = await demoPack()
const preliminary = await demoInputs(pack, 'preliminary')
const final = await demoInputs(pack, 'final')
const NUMBER = 42
const dealt = dealtBy(pack, NUMBER)
if (!dealt) throw new Error('the demo pack deals nothing')
const dueMs = dealt.finalAfterMinutes * 60_000

/** On preliminary figures; what comes in is judged by the state, and nothing follows from it. */
async function figuresOf(change: Partial<RunState> = {}) {
  const { run } = await rig()
  const state = { ...run.state(), ...change }
  const clock = createVirtualClock(0)
  const happened: EventBody[] = []
  const figures = createRunFigures({
    ...{ pack, clock, revisions: run.revisions() },
    async happen(what) {
      happened.push(...[typeof what === 'function' ? (what(state) ?? []) : what].flat())
    },
  })
  const revised = () => happened.flatMap((body) => (body.type === 'figuresRevised' ? [body] : []))
  return { figures, state, clock, happened, revised }
}

describe('what a station gave', () => {
  it('changes the figures in force, in the situation of the run, and is told with its turn', async () => {
    const situation = { stand: 'own', icing: 'yes' }
    const { figures, happened } = await figuresOf({ situation })
    figures.recordFromStation({ turn: 'information.weather', values: { altimeter: 1_010 } })
    expect(happened).toMatchObject([{ type: 'figuresRevised', revision: 2, takenDown: 'information.weather' }])
    const values = { ...preliminary.values, altimeter: 1_010 }
    expect(happened).toMatchObject([{ inputs: { ...preliminary, situation, values } }])
  })

  it('is nothing where no figures are in force', async () => {
    const { figures, happened } = await figuresOf({ inputs: undefined })
    figures.recordFromStation({ turn: 'information.weather', values: { altimeter: 1_010 } })
    expect(happened).toEqual([])
  })

  it('comes in where stations have voices, and then no sheet changes it', async () => {
    const flight = await rig({ talk: TALK })
    expect(flight.state().inputs?.values).not.toHaveProperty('transponder')
    const sheet = await inputsFrom(flight.pack, TALK)
    await flight.run.enter({ ...sheet, values: { ...sheet.values, transponder: '7700', blockFuel: 5_700 } })
    expect(flight.state().inputs?.values.blockFuel).toBe(5_700)
    expect(flight.state().inputs?.values).not.toHaveProperty('transponder')
    const { figures, revised } = await figuresOf({ script: { values: {} } })
    figures.recordFromStation({ turn: 'clearance.departure', values: { transponder: '2613' } })
    expect(revised()[0]?.inputs.values).toMatchObject({ transponder: '2613' })
  })
})

describe('what was handed in', () => {
  it('is told with the revision that came of it, however it came', async () => {
    const { figures, state, happened } = await figuresOf()
    await figures.enter(final)
    const [body] = happened.slice(-1)
    const event = { v: 1, seq: 9, runId: 'run', t: 0, wall: '', ...body } as Parameters<
      typeof figures.happened
    >[0]['event']
    expect(figures.happened({ before: state, event, state })).toEqual({ wanted: final })
    expect(figures.revisions().map(({ revision }) => revision)).toEqual([1, 2])
  })
})

describe('the final figures of a dealt departure', () => {
  const fromStations = { altimeter: { over: dealt.final.values.altimeter } }
  const inputs = { ...preliminary, values: { ...preliminary.values, altimeter: 1_031 } }

  it('come in at the situation of the run, with what a station gave meanwhile', async () => {
    const situation = { stand: 'own', icing: 'yes' }
    const { figures, clock, happened } = await figuresOf({ situation, fromStations, inputs })
    figures.awaitFinal(NUMBER, clock.now())
    clock.advance(dueMs - 1)
    expect(happened).toEqual([])
    clock.advance(1)
    expect(happened).toMatchObject([{ type: 'figuresRevised', status: 'final' }])
    const values = { ...dealt.final.values, altimeter: 1_031 }
    expect(happened).toMatchObject([{ inputs: { ...dealt.final, situation, values } }])
  })

  it('come in at once where their time is over', async () => {
    const { figures, clock, revised } = await figuresOf()
    clock.skip(3 * dueMs)
    figures.awaitFinal(NUMBER, 0)
    expect(revised()).toEqual([])
    clock.advance(0)
    expect(revised()).toHaveLength(1)
  })

  it('do not come in where others are final already, where nothing was dealt, or after the end', async () => {
    const flights = [
      { change: { figureStatus: 'final' as const }, number: NUMBER, stops: false },
      { change: {}, number: undefined, stops: false },
      { change: {}, number: NUMBER, stops: true },
    ]
    for (const { change, number, stops } of flights) {
      const { figures, clock, happened } = await figuresOf(change)
      figures.awaitFinal(number, clock.now())
      if (stops) figures.stop()
      clock.advance(2 * dueMs)
      expect(happened).toEqual([])
    }
  })

  it('are waited for no more than once', async () => {
    const { figures, clock, revised } = await figuresOf()
    for (let times = 0; times < 3; times++) figures.awaitFinal(NUMBER, clock.now())
    expect(clock.pending()).toBe(1)
    clock.advance(2 * dueMs)
    expect(revised()).toHaveLength(1)
  })
})
